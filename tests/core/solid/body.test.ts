import { describe, expect, test } from 'vitest';
import { bodyOf, type BodyStation, type BodyTable } from '../../../src/core/solid/body.ts';

const station = (at: number, width: number, above: number, below = above, roundness = 2): BodyStation => ({
  at,
  width,
  above,
  below,
  roundness,
});
/** A bar 100 long, 10 wide, 3 above and 2 below, with flat ends. */
const bar: BodyTable = {
  stations: [station(0, 10, 3, 2, 4), station(100, 10, 3, 2, 4)],
  noseRounding: 0,
  tailRounding: 0,
};
const close = (halfWidth: number, above: number, below: number, roundness: number) => ({
  halfWidth: expect.closeTo(halfWidth, 12) as number,
  above: expect.closeTo(above, 12) as number,
  below: expect.closeTo(below, 12) as number,
  roundness: expect.closeTo(roundness, 12) as number,
});

test('between two stations every size runs straight', () => {
  const { sectionAt } = bodyOf({
    ...bar,
    stations: [station(0, 12, 4, 3, 2), station(80, 4, 2, 1, 6)],
  });
  expect(sectionAt(0)).toEqual(close(6, 4, 3, 2));
  expect(sectionAt(20)).toEqual(close(5, 3.5, 2.5, 3));
  expect(sectionAt(80)).toEqual(close(2, 2, 1, 6));
});

test('left out, an end is rounded off over half its smaller size', () => {
  const of = (nose: BodyStation, tail: BodyStation) => bodyOf({ stations: [nose, tail] });
  expect(of(station(0, 10, 3, 2), station(60, 4, 9))).toMatchObject({
    from: 0,
    to: 60,
    noseRounding: 2.5,
    tailRounding: 2,
  });
});

// A quarter ellipse: at the share t of the rounding's length the height is √(t(2 − t)) of the full one.
test('each end is a quarter ellipse over its own length, flat ends are left whole', () => {
  const { sectionAt } = bodyOf({ ...bar, noseRounding: 10, tailRounding: 20 });
  const at = (share: number) => close(5 * share, 3 * share, 2 * share, 4);
  const half = Math.sqrt(0.75);
  expect([-1, 0, 5, 10, 50, 80, 90, 100, 101].map(sectionAt)).toEqual(
    [0, 0, half, 1, 1, 1, half, 0, 0].map(at),
  );
  const flat = bodyOf(bar);
  expect([0, 1, 99, 100].map(flat.sectionAt)).toEqual([1, 1, 1, 1].map(at));
});

test('roundings that overlap nowhere but meet both hold', () => {
  const { sectionAt } = bodyOf({ ...bar, noseRounding: 50, tailRounding: 50 });
  expect(sectionAt(25).halfWidth).toBeCloseTo(5 * Math.sqrt(0.75), 12);
  expect(sectionAt(50).halfWidth).toBe(5);
});

describe('rings', () => {
  const ring = { at: 40, proud: 1, root: 8, crown: 4 };

  // Flat over the crown, half a cosine over the flanks, here 2 long: (1 + cos(πt))/2 = ½ half way, (2 + √2)/4 at a quarter.
  test('a ring stands out by its flanks and its crown, on both sides alike', () => {
    const { sectionAt } = bodyOf({ ...bar, rings: [ring] });
    const out = [35, 36, 37, 37.5, 38, 40, 42, 42.5, 43, 44, 45];
    const by = [0, 0, 0.5, (2 + Math.SQRT2) / 4, 1, 1, 1, (2 + Math.SQRT2) / 4, 0.5, 0, 0];
    expect(out.map(sectionAt)).toEqual(by.map((grown) => close(5 + grown, 3 + grown, 2 + grown, 4)));
  });

  test('rings add up, shrink with a rounded end, and leave a flat side flat', () => {
    const stations = [station(0, 10, 3, 0), station(100, 10, 3, 0)];
    const rings = [ring, { ...ring, at: 43 }, { ...ring, at: 5 }];
    const { sectionAt } = bodyOf({ ...bar, noseRounding: 10, stations, rings });
    expect(sectionAt(42)).toEqual(close(7, 5, 0, 2));
    expect(sectionAt(5)).toEqual(close(6 * Math.sqrt(0.75), 4 * Math.sqrt(0.75), 0, 2));
  });

  test('a ring may begin at the very nose and end at the very tail', () => {
    const rings = [4, 96].map((at) => ({ ...ring, at }));
    const { sectionAt } = bodyOf({ ...bar, rings });
    expect([4, 96].map((x) => sectionAt(x).halfWidth)).toEqual([6, 6]);
  });
});

describe('breaks: where a law ends and the next begins, in order', () => {
  const stations = [station(0, 10, 3), station(50, 9, 3), station(100, 8, 3)];

  test('stations, roundings and the edges of rings', () => {
    const rings = [{ at: 30, proud: 1, root: 8, crown: 4 }];
    expect(bodyOf({ stations, noseRounding: 5, tailRounding: 6, rings }).breaks).toEqual([
      0, 5, 26, 28, 32, 34, 50, 94, 100,
    ]);
  });

  test('those inside a rounding are no breaks, nor is one that lies on another', () => {
    const rings = [
      { at: 10, proud: 1, root: 8, crown: 4 },
      { at: 90, proud: 1, root: 8, crown: 4 },
    ];
    expect(bodyOf({ stations, noseRounding: 12, tailRounding: 12, rings }).breaks).toEqual([
      0, 12, 14, 50, 86, 88, 100,
    ]);
    const close = [...stations.slice(0, 2), station(50.00005, 9, 3), stations[2]!];
    expect(bodyOf({ stations: close, noseRounding: 12, tailRounding: 12 }).breaks).toEqual([0, 12, 50, 88, 100]); // prettier-ignore
  });

  test('a flat nose is one break', () => {
    expect(bodyOf({ stations, noseRounding: 0, tailRounding: 6 }).breaks).toEqual([0, 50, 94, 100]);
  });
});

describe('takes', () => {
  const [nose, tail] = bar.stations as [BodyStation, BodyStation];
  test.each<[string, BodyTable]>([
    ['roundings that fill the length', { ...bar, noseRounding: 40, tailRounding: 60 }],
    ['a pointed nose', { ...bar, stations: [station(0, 0, 0), tail] }],
    ['a pointed tail', { ...bar, stations: [nose, station(100, 0, 0)] }],
    ['a flat side', { ...bar, stations: [station(0, 10, 3, 0), station(100, 10, 0, 3)] }],
    ['roundness 1', { ...bar, stations: [station(0, 10, 3, 3, 1), tail] }],
  ])('%s', (_, table) => {
    expect(bodyOf(table).to).toBe(100);
  });
});

describe('refuses', () => {
  const [nose, tail] = bar.stations as [BodyStation, BodyStation];
  const middle = station(50, 10, 3);
  const withMiddle = (changes: Partial<BodyStation>): BodyTable => ({
    ...bar,
    stations: [nose, { ...middle, ...changes }, tail],
  });
  const finite = 'stations: wants finite numbers, got others in station 2';
  const sizes = 'stations: wants a width and a height above 0 and a roundness of 1 or more, got ';
  const ring = { at: 50, proud: 1, root: 8, crown: 4 };
  const draft = 'ribs: wants a tip narrower than the root, so that they leave the mold, got ';
  const ribs = 'ribs: wants all of them on the body, 0 mm to 100000 mm, got one at ';
  test.each<[string, BodyTable, string]>([
    ['one station', { ...bar, stations: [nose] }, 'stations: wants at least 2, got 1'],
    [
      'a first station off the nose',
      { ...bar, stations: [middle, tail] },
      'stations: wants the first at 0 mm, the nose, got 50000 mm',
    ],
    ['no place', withMiddle({ at: NaN }), finite],
    ['an endless width', withMiddle({ width: Infinity }), finite],
    ['no height above', withMiddle({ above: NaN }), finite],
    ['no height below', withMiddle({ below: -Infinity }), finite],
    ['no roundness', withMiddle({ roundness: NaN }), finite],
    [
      'two stations at one place',
      withMiddle({ at: 100 }),
      'stations: wants each further from the nose than the one before, got 100000 mm after 100000 mm in station 3',
    ],
    ['a body without width', withMiddle({ width: 0 }), `${sizes}0 mm × 6000 mm, 2 in station 2`],
    ['a pinched body', withMiddle({ width: 0, above: 0, below: 0 }), `${sizes}0 mm × 0 mm, 2 in station 2`],
    ['a height below nothing', withMiddle({ above: -1 }), `${sizes}10000 mm × 2000 mm, 2 in station 2`],
    ['a depth below nothing', withMiddle({ below: -1 }), `${sizes}10000 mm × 2000 mm, 2 in station 2`],
    ['no height at all', withMiddle({ above: 0, below: 0 }), `${sizes}10000 mm × 0 mm, 2 in station 2`],
    ['hollow flanks', withMiddle({ roundness: 0.9 }), `${sizes}10000 mm × 6000 mm, 0.9 in station 2`],
    ['a nose of width alone', { ...bar, stations: [station(0, 5, 0), tail] }, 'in station 1'],
    ['a nose of height alone', { ...bar, stations: [station(0, 0, 5), tail] }, 'in station 1'],
    ['a tail of height alone', { ...bar, stations: [nose, station(100, 0, 5)] }, 'in station 2'],
    [
      'roundings longer than the body',
      { ...bar, noseRounding: 40, tailRounding: 60.001 },
      "roundings: wants both ends' together within the body's 100000 mm, got 40000 mm and 60001 mm",
    ],
    ['a nose rounded by less than nothing', { ...bar, noseRounding: -1 }, 'got -1000 mm and 0 mm'],
    ['a tail rounded by less than nothing', { ...bar, tailRounding: -1 }, 'got 0 mm and -1000 mm'],
    ['a rib without height', { ...bar, rings: [{ ...ring, proud: 0 }] }, `${draft}4000 mm on 8000 mm`],
    ['a rib without a crown', { ...bar, rings: [{ ...ring, crown: 0 }] }, `${draft}0 mm on 8000 mm`],
    ['a rib without draft', { ...bar, rings: [{ ...ring, crown: 8 }] }, `${draft}8000 mm on 8000 mm`],
    ['a rib ahead of the nose', { ...bar, rings: [{ ...ring, at: 3.999 }] }, `${ribs}3999 mm`],
    ['a rib behind the tail', { ...bar, rings: [ring, { ...ring, at: 96.001 }] }, `${ribs}96001 mm`],
  ])('%s', (_, table, message) => {
    expect(() => bodyOf(table)).toThrow(message);
  });
});
