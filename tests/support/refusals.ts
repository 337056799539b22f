import { expect, test } from 'vitest';

/** What a number must be; a pair is a range, its ends taken. */
export type Wanted = 'positive' | 'not negative' | 'whole' | readonly [number, number];
/** The numbers of a call by their place: `0`, `0.depth`. */
export type Places = Readonly<Record<string, Wanted>>;
export type Row = readonly [
  name: string,
  call: (...args: never[]) => unknown,
  args: readonly unknown[],
  places: Places,
];

/** A call's arguments with the number at a place replaced. */
function put(args: unknown, [step = '', ...rest]: readonly string[], value: number): unknown {
  if (step === '') return value;
  if (Array.isArray(args))
    return args.map((one: unknown, i) => (String(i) === step ? put(one, rest, value) : one));
  return { ...(args as object), [step]: put((args as Record<string, unknown>)[step], rest, value) };
}

function refused(wanted: Wanted): number[] {
  if (wanted === 'positive') return [0, -1, NaN, Infinity];
  if (wanted === 'not negative') return [-1e-9, NaN, Infinity];
  if (wanted === 'whole') return [0, 1.5, NaN, Infinity];
  const [low, high] = wanted;
  return [
    low - Math.max(Math.abs(low) * 1e-3, Number.MIN_VALUE * 2),
    high * 1.001,
    NaN,
    ...(high < Infinity ? [Infinity] : []),
  ];
}

/** The ends of what is taken. */
function taken(wanted: Wanted): number[] {
  if (wanted === 'positive') return [];
  if (wanted === 'not negative') return [0];
  return wanted === 'whole' ? [1] : [...wanted];
}

/** Tests that every number of every call is refused when it is out of order, and its ends taken. */
export function refusesNumbers(rows: readonly Row[]): void {
  const places = rows.flatMap(([name, call, args, list]) =>
    Object.entries(list).map(([place, wanted]) => ({
      name,
      call: call as (...all: unknown[]) => unknown,
      args,
      place,
      wanted,
    })),
  );

  test.each(places)('$name, number $place', ({ call, args, place, wanted }) => {
    const with_ = (value: number): unknown[] => put(args, place.split('.'), value) as unknown[];
    expect(() => call(...args)).not.toThrow();
    for (const value of taken(wanted)) expect(() => call(...with_(value)), String(value)).not.toThrow();
    for (const value of refused(wanted))
      expect(() => call(...with_(value)), String(value)).toThrow(RangeError);
  });
}
