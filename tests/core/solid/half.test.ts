import { describe, expect, test } from 'vitest';
import { isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { silhouette } from '../../../src/core/section/silhouette.ts';
import { bodyOf } from '../../../src/core/solid/body.ts';
import { moldHalves, type MoldHalves } from '../../../src/core/solid/half.ts';
import { loft } from '../../../src/core/solid/loft.ts';
import { moldLayout } from '../../../src/core/solid/mold-layout.ts';
import { LEAST_WALL, type CavityTable, type MoldTable } from '../../../src/core/solid/mold-table.ts';
import { outlineBox, outlineDistance } from '../../../src/core/solid/plan.ts';

const mm = 1e-3;
const stations = [
  [0, 8, 7],
  [20, 12, 10],
  [60, 5, 4],
].map(([at = 0, width = 0, height = 0]) => ({
  at: at * mm,
  width: width * mm,
  above: (height / 2) * mm,
  below: (height / 2) * mm,
  roundness: 2,
}));
const mesh = loft(bodyOf({ stations, noseRounding: 3 * mm }), { around: 32, along: 20 });
const bait: CavityTable = { mesh, plan: await silhouette(mesh, 'plan') };
const times = (count: number): CavityTable[] => Array.from({ length: count }, () => bait);

const mold: MoldTable = {
  cavities: times(1),
  block: { length: 120 * mm, width: 60 * mm, thickness: 24 * mm },
  sprue: { mouth: 12 * mm, end: 7 * mm, length: 20 * mm },
  runner: { diameter: 6 * mm },
  gate: { width: 4 * mm, depth: 2 * mm, length: 3 * mm, at: 'nose' },
  vents: [
    { tier: 'edge', depth: 0.038 * mm, width: 3 * mm, land: 4 * mm, count: 3 },
    { tier: 'collector', depth: 0.25 * mm, width: 4 * mm, land: 5 * mm, count: 2 },
    { tier: 'outlet', depth: 0.5 * mm, width: 5 * mm, land: 6 * mm, count: 2 },
  ],
  pins: { count: 2, diameter: 5 * mm },
};

const blockVolume = ({ block }: MoldTable) => block.length * block.width * block.thickness;
const hollowOf = ({ hollow: { vents, ...rest } }: MoldHalves) =>
  [...Object.values(rest), ...Object.values(vents)].reduce((sum, volume) => sum + volume, 0);

const MOLDS: [string, MoldTable][] = [
  ['one cavity', mold],
  ['one cavity without runner, vents and pins', { ...mold, runner: undefined, vents: [], pins: undefined }],
  ['two in a row, one mirrored', { ...mold, cavities: [bait, { ...bait, mirrored: true }] }],
  [
    'six in two rows',
    { ...mold, cavities: times(6), block: { length: 170 * mm, width: 90 * mm, thickness: 24 * mm } },
  ],
  ['gated at the tail', { ...mold, gate: { ...mold.gate, at: 'tail' } }],
  [
    'gated at the side',
    { ...mold, block: { ...mold.block, width: 90 * mm }, gate: { ...mold.gate, at: 'side' } },
  ],
  [
    'placed by hand, turned and mirrored',
    {
      ...mold,
      block: { ...mold.block, width: 100 * mm },
      cavities: [
        { ...bait, x: 40 * mm, y: 25 * mm, turn: 0.1 },
        { ...bait, x: 40 * mm, y: 70 * mm, turn: -0.1, mirrored: true },
      ],
    },
  ],
];

describe.each(MOLDS)('%s', async (_, table) => {
  const halves = await moldHalves(table);

  test('metal and hollows make up the block', () => {
    const metal = halves.lower.volume + halves.upper.volume;
    expect((metal + hollowOf(halves)) / blockVolume(table)).toBeCloseTo(1, 8);
  });

  test('the cavities hold the baits', () => {
    const wanted = table.cavities.reduce((sum, cavity) => sum + meshVolume(cavity.mesh), 0);
    expect(Math.abs(halves.hollow.cavities / wanted - 1)).toBeLessThan(5e-4);
    expect(halves.baits).toHaveLength(table.cavities.length);
  });

  test('both halves are closed, and own sums of them agree with the kernel', () => {
    for (const half of [halves.lower, halves.upper]) {
      expect(isClosedSurface(half.mesh)).toBe(true);
      expect(meshVolume(half.mesh) / half.volume - 1).toBeCloseTo(0, 9);
    }
  });

  test('every cavity keeps its wall, every pin stands in metal', () => {
    const { cavities, pins } = halves.layout;
    for (const { outline } of cavities) {
      const { min, max } = outlineBox(outline);
      const walls = [min[0], min[1], table.block.length - max[0], table.block.width - max[1]];
      expect(Math.min(...walls)).toBeGreaterThan(LEAST_WALL - 1e-9);
      for (const { at, diameter } of pins) {
        expect(outlineDistance(outline, at)).toBeGreaterThan(diameter / 2 + LEAST_WALL - 1e-9);
      }
    }
  });
});

describe('channels', async () => {
  const block = { ...mold.block, width: 90 * mm };
  const halves = await moldHalves({ ...mold, block, cavities: times(2) });
  const { hollow, layout } = halves;

  test('the sprue is its frustum less what the runner already took', () => {
    // V = πL/3·(R² + Rr + r²); half of the round runner crosses it, where it is at most 7.75 mm wide.
    const frustum = ((Math.PI * 20) / 3) * (36 + 6 * 3.5 + 12.25) * mm ** 3;
    const crossing = (Math.PI / 2) * 9 * 7.75 * mm ** 3;
    expect(hollow.sprue).toBeLessThan(frustum);
    expect(hollow.sprue).toBeGreaterThan(frustum - crossing);
  });

  test('without a runner the sprue is its frustum exactly', async () => {
    const single = await moldHalves({ ...mold, runner: undefined, vents: [], pins: undefined });
    const frustum = ((Math.PI * 20) / 3) * (36 + 6 * 3.5 + 12.25) * mm ** 3;
    expect(single.hollow.sprue / frustum).toBeCloseTo(1, 8);
    const gate = 4 * 2 * 3 * mm ** 3;
    expect(single.hollow.gates).toBeGreaterThan(gate * (1 - 1e-9));
    expect(single.hollow.gates).toBeLessThan(gate * 1.6);
  });

  test('the runner is a round bar with half a ball at either end', () => {
    const bar = Math.PI * (3 * mm) ** 2 * layout.runnerLength;
    const ends = (4 / 3) * Math.PI * (3 * mm) ** 3;
    expect(hollow.runner).toBeGreaterThan(bar * 0.98);
    expect(hollow.runner).toBeLessThan(bar + ends);
  });

  test('pin holes are bored into both halves', () => {
    const holes = layout.pins.reduce(
      (sum, { diameter, depth }) => sum + (Math.PI / 4) * diameter ** 2 * 2 * depth,
      0,
    );
    expect(layout.pins).toHaveLength(2);
    expect(hollow.pins / holes).toBeCloseTo(1, 8);
  });

  test('vents: as many as stated, of the stated size, the tail first, cut into the lower half alone', () => {
    expect(layout.notes).toEqual([]);
    const edge = layout.vents.filter(({ tier }) => tier === 'edge');
    expect(edge).toHaveLength(6);
    const own = 6 * 3 * 4 * 0.038 * mm ** 3;
    expect(hollow.vents.edge / own).toBeGreaterThan(0.95);
    expect(hollow.vents.edge / own).toBeLessThan(1.4);
    for (const [index, { outline }] of layout.cavities.entries()) {
      const first = edge.find(({ cavity }) => cavity === index)!;
      expect(first.from[0]).toBeCloseTo(outlineBox(outline).max[0], 4);
    }
    const vents = hollow.vents.edge + hollow.vents.collector + hollow.vents.outlet;
    expect((halves.upper.volume - halves.lower.volume) / vents).toBeCloseTo(1, 3);
  });

  test('vents go to the tips of thin parts first', () => {
    const tip = [30 * mm, 5.5 * mm] as const;
    const { vents, cavities } = moldLayout({ ...mold, cavities: [{ ...bait, tips: [tip] }] });
    const { x, y } = cavities[0]!;
    expect(Math.hypot(vents[0]!.from[0] - x - tip[0], vents[0]!.from[1] - y - tip[1])).toBeLessThan(2 * mm);
  });

  const outlet = { tier: 'outlet', depth: 0.5 * mm, width: 5 * mm, land: 6 * mm, count: 1 } as const;
  const edge = { tier: 'edge', depth: 0.04 * mm, width: 4 * mm, land: 2 * mm, count: 1 } as const;
  const outletOf = (table: MoldTable, cavity: number) =>
    moldLayout(table).vents.find((vent) => vent.tier === 'outlet' && vent.cavity === cavity)!;

  test('an outlet goes straight on to the edge, or turns aside by what a clear way takes', () => {
    const tip = [60 * mm, 0] as const;
    const place = { ...bait, tips: [tip], x: 30 * mm, y: 30 * mm };
    const alone = { ...mold, cavities: [place], pins: undefined, vents: [edge, outlet] };
    const straight = outletOf(alone, 0);
    expect([straight.open, straight.to[0], straight.to[1]]).toEqual([
      true,
      expect.closeTo(mold.block.length, 9),
      expect.closeTo(straight.from[1], 9),
    ]);
    // A second bait lies across the way straight on; its nose and tail leave 30 degrees up or down too little room.
    const wall = { ...bait, x: 105 * mm, y: 5 * mm, turn: Math.PI / 2 };
    const block = { ...mold.block, width: 75 * mm };
    const aside = outletOf(
      { ...alone, block, gate: { ...mold.gate, at: 'nose' }, cavities: [place, wall] },
      0,
    );
    expect(aside.open).toBe(true);
    const [x, y] = aside.to;
    expect(Math.min(x, y, block.length - x, block.width - y)).toBeCloseTo(0, 9);
    expect(Math.abs(Math.atan2(aside.to[1] - aside.from[1], aside.to[0] - aside.from[0]))).toBeGreaterThan(
      0.5,
    );
  });

  test('a tier without room is noted, not squeezed in', () => {
    const vents = [{ tier: 'edge', depth: 0.04 * mm, width: 3 * mm, land: 40 * mm, count: 3 }] as const;
    const { notes } = moldLayout({ ...mold, vents });
    expect(notes).toEqual([expect.stringMatching(/^vents: [01] of 3 edge vents on cavity 1 found room/u)]);
  });
});

describe('refuses', () => {
  const two = (y: number): MoldTable => ({
    ...mold,
    block: { ...mold.block, width: 120 * mm },
    cavities: [
      { ...bait, x: 40 * mm, y: 40 * mm },
      { ...bait, x: 40 * mm, y: y * mm },
    ],
  });
  test.each<[string, MoldTable, string]>([
    ['cavities that overlap', two(46), 'cavities 1 and 2: want metal between them'],
    [
      'a cavity that leaves the block',
      two(118),
      'cavity 2: wants to lie inside the block, got 4 mm beyond its edge',
    ],
    ['a thin wall to the edge', two(112), "cavity 2: wants 3 mm of metal to the block's edge, got 2 mm"],
    [
      'a thin floor',
      { ...mold, block: { ...mold.block, thickness: 14 * mm } },
      'cavity 1: wants 3 mm of metal under it, got 2 mm; make the block at least 16 mm thick',
    ],
    ['a block without room', { ...mold, cavities: times(8) }, 'block: wants'],
    [
      'several cavities without a runner',
      { ...mold, cavities: times(2), runner: undefined },
      'runner: wants one for 2 cavities',
    ],
    [
      'places for some cavities only',
      { ...mold, cavities: [bait, { ...bait, x: 40 * mm, y: 20 * mm }] },
      'cavities: wants x and y of every cavity or of none',
    ],
    ['pins without room', { ...mold, pins: { count: 12, diameter: 20 * mm } }, 'pins: wants room for 12'],
    [
      'a sprue through a cavity',
      { ...mold, cavities: [{ ...bait, x: 12 * mm, y: 30 * mm }] },
      'sprue: wants to reach cavity 1 through its gate only',
    ],
  ])('%s', async (_, table, message) => {
    await expect(moldHalves(table)).rejects.toThrow(message);
  });
});
