import { printed, type UnitSystem } from '../../core/quantity/print.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import { figureOf } from '../figure/homes.ts';

/** One line of the insert: what it is, in both unit systems, with its limits. */
export interface InsertFact {
  readonly name: string;
  readonly value: string;
  readonly other: string;
}

/** Waits that end on the safe side only at their longest. */
const WAITS = [
  ['Open after', 'heat.demoldTime'],
  ['Touch bare after', 'heat.safeToTouch'],
] as const;

/** Figures by the few words that a line of the insert has room for. */
const KEYS = [
  ['Shot, hot', 'shot.total'],
  ['Pour at', 'pour.nominal'],
  ['Clamp to', 'mold.clampForce'],
  ['Bait length', 'bait.length'],
  ['One bait', 'bait.mass'],
] as const;

/** The figures that someone at the bench needs, and the verdicts that go with them. */
export function insertFacts(sheet: Sheet): InsertFact[] {
  const first = sheet.shop.units;
  const second: UnitSystem = first === 'us' ? 'metric' : 'us';
  const both = (name: string, key: string): InsertFact => {
    const figure = figureOf(sheet, key);
    const [value, other] = [printed(figure, first).text, printed(figure, second).text];
    return { name, value, other: value === other ? '' : other };
  };
  const figures = KEYS.map(([name, key]) => both(name, key));
  const waits = WAITS.map(([name, key]): InsertFact => {
    const { value, unit, range } = printed(figureOf(sheet, key), first);
    return { name, value: `${range?.high ?? value}\u00a0${unit}`, other: range ? 'at the longest' : '' };
  });
  const { injectors, bestHook, verdicts } = sheet;
  return [
    { name: 'Shoot it cold?', value: verdicts.cold.code, other: '' },
    ...(sheet.figures['fill.mold.first'] ? [both('Warm the mold to', 'fill.mold.first')] : []),
    ...figures,
    ...waits,
    {
      name: 'Injector',
      value: injectors.find(({ holds }) => holds)?.injector.name ?? 'none listed gives it in one push',
      other: '',
    },
    {
      name: 'Hook',
      value: bestHook ? `${bestHook.size} ${bestHook.hook.pattern}, ${bestHook.rig}` : 'none listed fits',
      other: '',
    },
  ];
}
