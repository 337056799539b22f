import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import { placedCavities } from '../../../src/core/solid/cavity-layout.ts';
import { moldLayout } from '../../../src/core/solid/mold-layout.ts';
import type { CavityTable, MoldTable } from '../../../src/core/solid/mold-table.ts';
import { box } from '../../support/solids.ts';

const mm = 1e-3;
const inMetres = (points: readonly Vec2[]): Vec2[] => points.map(([x, y]) => [x * mm, y * mm]);
/** A bar 60 mm long, 10 mm wide and 8 mm high, both ends 2 mm wide, its nose at x = 0. */
const bar: CavityTable = {
  mesh: box([60 * mm, 10 * mm, 8 * mm], [0, -5 * mm, -4 * mm]),
  plan: [inMetres([[0, -1], [2, -5], [58, -5], [60, -1], [60, 1], [58, 5], [2, 5], [0, 1]])], // prettier-ignore
};
const times = (count: number, bait = bar): CavityTable[] => Array.from({ length: count }, () => bait);
const mold: MoldTable = {
  cavities: [bar],
  block: { length: 120 * mm, width: 60 * mm, thickness: 24 * mm },
  sprue: { mouth: 12 * mm, end: 7 * mm, length: 20 * mm },
  runner: { diameter: 6 * mm },
  gate: { width: 4 * mm, depth: 2 * mm, length: 3 * mm, at: 'nose' },
  vents: [],
};
const gatedAt = (at: MoldTable['gate']['at']): MoldTable => ({ ...mold, gate: { ...mold.gate, at } });

const near = (value: number): number => expect.closeTo(value, 9) as number;
/** Where each cavity's gate lies [mm], where it leads to, and a corner of it that tells how it is turned. */
const placesOf = (table: MoldTable) =>
  placedCavities(table).map(({ gate, outline }) =>
    [...gate.at, ...gate.out.map((part) => part * mm), ...outline[0]![0]!].map((value) => value / mm),
  );
const rows = (expected: readonly (readonly number[])[]) => expected.map((row) => row.map(near));

describe('one row: gates face the left edge, one runner off the end of the sprue', () => {
  // x = 20 of sprue + 3 of half the runner + 3 of gate; across, walls of (60 − n·10)/(n + 1) are spread evenly.
  test.each<[string, MoldTable, number[][]]>([
    ['one bait', mold, [[26, 30, -1, 0, 26, 29]]],
    [
      'two baits: walls of 40/3 mm',
      { ...mold, cavities: times(2) },
      [[26, 55 / 3, -1, 0, 26, 52 / 3], [26, 125 / 3, -1, 0, 26, 122 / 3]], // prettier-ignore
    ],
    ['without a runner', { ...mold, runner: undefined }, [[23, 30, -1, 0, 23, 29]]],
    [
      'a sprue shorter than the wall that has to stay',
      { ...mold, sprue: { ...mold.sprue, length: 1 * mm } },
      [[9, 30, -1, 0, 9, 29]],
    ],
    // Turned about: the first corner of the outline, (0, −1), comes to lie on the far side.
    ['gated at the tail', gatedAt('tail'), [[26, 30, -1, 0, 86, 31]]],
    // A quarter turn to the right: the nose at the top, the lower flank towards the runner; a mirrored outline starts with
    // what was its last point, (0, 1), and is turned to the left.
    [
      'gated at the side',
      { ...gatedAt('side'), block: { ...mold.block, width: 90 * mm } },
      [[26, 45, -1, 0, 30, 75]],
    ],
    [
      'gated at the side of a mirrored bait',
      {
        ...gatedAt('side'),
        cavities: [{ ...bar, mirrored: true }],
        block: { ...mold.block, width: 90 * mm },
      },
      [[26, 45, -1, 0, 32, 15]],
    ],
  ])('%s', (_, table, expected) => {
    expect(placesOf(table)).toEqual(rows(expected));
  });

  test('baits of different widths: every wall the same', () => {
    const broad: CavityTable = { ...bar, plan: [inMetres([[0, 0], [2, -9], [60, -9], [60, 11], [2, 11], [0, 2]])] }; // prettier-ignore
    // (60 − 10 − 20)/3 = 10; the gate of the broad one lies in the middle of its nose.
    expect(placesOf({ ...mold, cavities: [bar, broad] })).toEqual(
      rows([[26, 15, -1, 0, 26, 14], [26, 40, -1, 0, 26, 39]]), // prettier-ignore
    );
  });
});

describe('two rows face each other where one has no room', () => {
  const block = { length: 170 * mm, width: 60 * mm, thickness: 24 * mm };
  // Gates 6 mm from the middle at 85. Walls: the first bait keeps clear of 20 mm of sprue, so the row starts at
  // 20 − 3 − 5 = 12; three of them leave (60 − 12 − 30)/4 = 4.5 mm, two (60 − 12 − 20)/3.
  test('every other bait lies on the left, its nose to the right', () => {
    const [one, two] = [12 + 28 / 3 + 5, 12 + 56 / 3 + 15];
    expect(placesOf({ ...mold, block, cavities: times(5) })).toEqual(
      rows([
        [91, 21.5, -1, 0, 91, 20.5],
        [79, one, 1, 0, 79, one + 1],
        [91, 36, -1, 0, 91, 35],
        [79, two, 1, 0, 79, two + 1],
        [91, 50.5, -1, 0, 91, 49.5],
      ]),
    );
  });

  test('where the first gate lies high enough of itself the sprue moves nothing', () => {
    // Gated at the side every bait reaches 30 mm beside its gate, beyond the sprue: walls of (200 − 3·60)/4 = 5 mm.
    const side = {
      ...gatedAt('side'),
      cavities: times(6),
      block: { ...block, length: 60 * mm, width: 200 * mm },
    };
    expect(placedCavities(side).map(({ gate }) => gate.at[1] / mm)).toEqual([35, 35, 100, 100, 165, 165].map(near)); // prettier-ignore
  });
});

describe('room', () => {
  // Along: 20 + 6 + 60 + 3 = 89 mm. Across: n·10 + (n + 1)·3 mm. Two rows: 2·(60 + 6 + 3) = 138 mm.
  const sized = (count: number, length: number, width: number): MoldTable => ({
    ...mold,
    cavities: times(count),
    block: { ...mold.block, length: length * mm, width: width * mm },
  });
  test.each<[string, MoldTable, number]>([
    ['just long enough for a row', sized(1, 89.01, 60), 26],
    ['just wide enough for a row', sized(4, 137, 55.01), 26],
    ['just long enough for two rows', sized(4, 138.01, 54), 75.005],
    // Two baits and 12 mm for the sprue: 12 + 20 + 9 = 41 mm.
    ['just wide enough for two rows', sized(4, 150, 41.01), 81],
    ['just wide enough for one on either side', sized(2, 150, 28.01), 81],
  ])('%s', (_, table, x) => {
    expect(placedCavities(table)[0]!.gate.at[0] / mm).toBeCloseTo(x, 6);
  });
  test.each<[string, MoldTable, string]>([
    ['too short', sized(1, 88.99, 60), '89 mm × 16 mm for 1 cavities in a row, got 89 mm × 60 mm'],
    [
      'too short for two rows',
      sized(4, 137.9, 54),
      '89 mm × 55 mm for 4 cavities in a row, got 137.9 mm × 54 mm',
    ],
    ['too narrow', sized(8, 120, 60), '89 mm × 107 mm for 8 cavities in a row, got 120 mm × 60 mm'],
    [
      'too narrow for two rows',
      sized(4, 150, 40.9),
      '89 mm × 55 mm for 4 cavities in a row, got 150 mm × 40.9 mm',
    ],
    ['too narrow for the row on the right', sized(3, 150, 40.9), '89 mm × 42 mm for 3 cavities'],
    ['one bait in a block too narrow', sized(1, 200, 15), '89 mm × 16 mm for 1 cavities'],
  ])('%s', (_, table, words) => {
    expect(() => placedCavities(table)).toThrow(`block: wants ${words}`);
    expect(() => placedCavities(table)).toThrow('make the block larger, or state x and y of every cavity');
  });
});

describe('where the gate enters', () => {
  /** Gate of a bait that lies where it was drawn [mm]. */
  const gateOf = (points: readonly Vec2[], at: MoldTable['gate']['at']) => {
    const [cavity] = placedCavities({ ...gatedAt(at), cavities: [{ ...bar, plan: [inMetres(points)], x: 0, y: 0 }] }); // prettier-ignore
    return [...cavity!.gate.at.map((value) => value / mm), ...cavity!.gate.out];
  };
  // Two prongs of a fork, 9 mm apart, the lower one first; each 1 mm broad at its very end.
  const fork: Vec2[] = [[0, -1], [60, -5], [60, -4], [50, 0], [60, 4], [60, 5], [0, 1.5]]; // prettier-ignore
  const slanted: Vec2[] = [
    [0, -2],
    [60, -8],
    [60.05, -6],
    [60, -5.2],
    [59.8, 0],
    [0, 2],
  ];
  test.each<[string, Vec2[], MoldTable['gate']['at'], number[]]>([
    ['the middle of a flat nose', fork, 'nose', [0, 0.25, -1, 0]],
    ['the first of two tips', fork, 'tail', [60, -4.5, 1, 0]],
    ['the first of two tips, counted from the other side', [...fork.slice(4), ...fork.slice(0, 4)], 'tail', [60, 4.5, 1, 0]], // prettier-ignore
    ['the end within a tenth of a millimetre', slanted, 'tail', [60.05, -6.6, 1, 0]],
    // Half way along a lower side from −2 to −8: −5, but half way is at 30.025.
    ['the lower side, half way', slanted, 'side', [30.025, -2 - (6 * 30.025) / 60, 0, -1]],
    // From (20, −4) to (60, −8), a quarter of the way.
    [
      'the lower side behind a bend',
      [
        [0, -2],
        [20, -4],
        [60, -8],
        [60, 0],
        [0, 2],
      ],
      'side',
      [30, -5, 0, -1],
    ],
    ['the lower side of a fork', fork, 'side', [30, -3, 0, -1]],
  ])('%s', (_, points, at, expected) => {
    expect(gateOf(points, at)).toEqual(expected.map(near));
  });
});

describe('stated places', () => {
  const places = (cavity: Partial<CavityTable>) => placesOf({ ...mold, cavities: [{ ...bar, ...cavity }] });
  test('a cavity lies as stated: mirrored, then turned, then moved', () => {
    expect(places({ x: 40 * mm, y: 25 * mm })).toEqual(rows([[40, 25, -1, 0, 40, 24]]));
    expect(places({ x: 40 * mm, y: 25 * mm, turn: Math.PI / 2 })).toEqual(rows([[40, 25, 0, -1, 41, 25]]));
    expect(places({ x: 40 * mm, y: 25 * mm, mirrored: true })).toEqual(rows([[40, 25, -1, 0, 40, 24]]));
  });
  test('what is not stated is 0', () => {
    const [cavity] = placedCavities({ ...mold, cavities: [{ ...bar, x: 0.04, y: 0.03 }] });
    expect(cavity).toMatchObject({ x: 0.04, y: 0.03, turn: 0, mirrored: false });
  });
  test.each<[string, CavityTable[]]>([
    ['one of two', [bar, { ...bar, x: 0.04, y: 0.03 }]],
    ['x alone', [{ ...bar, x: 0.04 }]],
    ['y alone', [{ ...bar, y: 0.03 }]],
    [
      'x of one',
      [
        { ...bar, x: 0.04, y: 0.03 },
        { ...bar, x: 0.04 },
      ],
    ],
    ['y of one', [bar, { ...bar, y: 0.03 }]],
  ])('refuses %s', (_, cavities) => {
    expect(() => placedCavities({ ...mold, cavities })).toThrow(
      'cavities: wants x and y of every cavity or of none, got some; fill in the rest or leave all out',
    );
  });
});

describe('walls: 3 mm to every side and under the cavity', () => {
  const at = (x: number, y: number, changes: Partial<MoldTable> = {}): MoldTable => ({
    ...mold,
    pins: undefined,
    cavities: [{ ...bar, x: x * mm, y: y * mm }],
    ...changes,
  });
  const deep = (low: number, high: number): CavityTable => ({
    ...bar,
    mesh: box([60 * mm, 10 * mm, (high - low) * mm], [0, -5 * mm, low * mm]),
    x: 30 * mm,
    y: 30 * mm,
  });
  test.each<[string, MoldTable]>([
    ['left', at(3, 30)],
    ['right', at(57, 30)],
    ['below', at(30, 8)],
    ['above', at(30, 52)],
    ['under a deep one', at(30, 30, { cavities: [deep(-9, 2)] })],
    ['over a high one', at(30, 30, { cavities: [deep(-2, 9)] })],
  ])('just enough: %s', (_, table) => {
    expect(moldLayout(table).cavities).toHaveLength(1);
  });
  const edge =
    "cavity 1: wants 3 mm of metal to the block's edge, got 2.9 mm; move it or make the block larger";
  const beyond =
    'cavity 1: wants to lie inside the block, got 0.1 mm beyond its edge; move it or make the block larger';
  const floor = 'cavity 1: wants 3 mm of metal under it, got 2.9 mm; make the block at least 24.2 mm thick';
  test.each<[string, MoldTable, string]>([
    ['left', at(2.9, 30), edge],
    ['right', at(57.1, 30), edge],
    ['below', at(30, 7.9), edge],
    ['above', at(30, 52.1), edge],
    ['at the very edge', at(0, 30), "cavity 1: wants 3 mm of metal to the block's edge, got 0 mm"],
    ['out on the left', at(-0.1, 30), beyond],
    ['out on the right', at(60.1, 30), beyond],
    ['out below', at(30, 4.9), beyond],
    ['out above', at(30, 55.1), beyond],
    ['under a deep one', at(30, 30, { cavities: [deep(-9.1, 2)] }), floor],
    ['over a high one', at(30, 30, { cavities: [deep(-2, 9.1)] }), floor],
    [
      'of the second',
      at(30, 30, { cavities: [deep(-9, 9), { ...deep(-9, 9.1), y: 45 * mm }] }),
      floor.replace('cavity 1', 'cavity 2'),
    ],
  ])('too little: %s', (_, table, message) => {
    expect(() => moldLayout(table)).toThrow(message);
  });
});
