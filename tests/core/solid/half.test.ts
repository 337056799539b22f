import { describe, expect, test } from 'vitest';
import { isClosedSurface } from '../../../src/core/mesh/edges.ts';
import { massProperties, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { silhouette } from '../../../src/core/section/silhouette.ts';
import { bodyOf } from '../../../src/core/solid/body.ts';
import { moldHalves, type MoldHalves } from '../../../src/core/solid/half.ts';
import { loft } from '../../../src/core/solid/loft.ts';
import { moldLayout } from '../../../src/core/solid/mold-layout.ts';
import { LEAST_WALL, type CavityTable, type MoldTable } from '../../../src/core/solid/mold-table.ts';
import { outlineBox, outlineDistance } from '../../../src/core/solid/plan.ts';
import { once } from '../../support/once.ts';

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
const baitMade = once(async (): Promise<CavityTable> => {
  const mesh = loft(bodyOf({ stations, noseRounding: 3 * mm }), { around: 32, along: 20 });
  return { mesh, plan: await silhouette(mesh, 'plan') };
});
const times = (count: number, bait: CavityTable): CavityTable[] => Array.from({ length: count }, () => bait);

/** A mold for one bait, with changes. */
const moldFor = (bait: CavityTable, changes: Partial<MoldTable> = {}): MoldTable => ({
  cavities: [bait],
  block: BLOCK,
  sprue: { mouth: 12 * mm, end: 7 * mm, length: 20 * mm },
  runner: { diameter: 6 * mm },
  gate: GATE,
  vents: [
    { tier: 'edge', depth: 0.038 * mm, width: 3 * mm, land: 4 * mm, count: 3 },
    { tier: 'collector', depth: 0.25 * mm, width: 4 * mm, land: 5 * mm, count: 2 },
    { tier: 'outlet', depth: 0.5 * mm, width: 5 * mm, land: 6 * mm, count: 2 },
  ],
  pins: { count: 2, diameter: 5 * mm },
  ...changes,
});
const BLOCK = { length: 120 * mm, width: 60 * mm, thickness: 24 * mm };
const GATE = { width: 4 * mm, depth: 2 * mm, length: 3 * mm, at: 'nose' } as const;

const blockVolume = ({ block }: MoldTable) => block.length * block.width * block.thickness;
const flatHollow = ({ hollow: { vents, ...rest } }: MoldHalves) => ({ ...rest, ...vents });

type Change = (bait: CavityTable) => Partial<MoldTable>;
const MOLDS: [string, Change][] = [
  ['one cavity', () => ({})],
  ['one cavity without runner, vents and pins', () => ({ runner: undefined, vents: [], pins: undefined })],
  ['two in a row, one mirrored', (bait) => ({ cavities: [bait, { ...bait, mirrored: true }] })],
  [
    'six in two rows',
    (bait) => ({
      cavities: times(6, bait),
      block: { length: 170 * mm, width: 90 * mm, thickness: 24 * mm },
    }),
  ],
  ['gated at the tail', () => ({ gate: { ...GATE, at: 'tail' } })],
  ['gated at the side', () => ({ block: { ...BLOCK, width: 90 * mm }, gate: { ...GATE, at: 'side' } })],
  [
    'placed by hand, turned and mirrored',
    (bait) => ({
      block: { ...BLOCK, width: 100 * mm },
      cavities: [
        { ...bait, x: 40 * mm, y: 25 * mm, turn: 0.1 },
        { ...bait, x: 40 * mm, y: 70 * mm, turn: -0.1, mirrored: true },
      ],
    }),
  ],
];

describe.each(MOLDS)('%s', (_, change) => {
  const made = once(async () => {
    const bait = await baitMade();
    const table = moldFor(bait, change(bait));
    return { table, halves: await moldHalves(table) };
  });

  test('metal, baits and what else was cut make up the lower half of the block', async () => {
    const { table, halves } = await made();
    const { metal, besides, baits } = halves.cut;
    // Corners of merged baits are of single precision, seven digits.
    expect((metal + besides + baits) / (blockVolume(table) / 2)).toBeCloseTo(1, 6);
  });

  test('the cavities hold the baits, the merged ones nearly', async () => {
    const { table, halves } = await made();
    const wanted = table.cavities.map((cavity) => meshVolume(cavity.mesh));
    const total = wanted.reduce((sum, volume) => sum + volume, 0);
    expect(halves.hollow.cavities / total).toBeCloseTo(1, 12);
    expect(Math.abs(halves.cut.merged / total - 1)).toBeLessThan(5e-3);
    // The bait is the same above and below the plane.
    expect(Math.abs(halves.cut.baits / (total / 2) - 1)).toBeLessThan(5e-3);
    // Both reach into gates and vents, where merging by 10 µm moves some square millimetres of surface.
    const { gates, runner, sprue, pins, edge, collector, outlet } = flatHollow(halves);
    const added = (gates + runner + sprue + pins) / 2 + edge + collector + outlet;
    expect(Math.abs(halves.cut.besides - added) / (10e-6 * wanted.length * 30 * mm ** 2)).toBeLessThan(1);
  });

  test('the half that is shown is closed, and own sums of it agree with the kernel', async () => {
    const { halves } = await made();
    expect(isClosedSurface(halves.shown)).toBe(true);
    expect(meshVolume(halves.shown) / halves.cut.metal - 1).toBeCloseTo(0, 6);
  });

  test('every cavity keeps its wall, every pin stands in metal', async () => {
    const { table, halves } = await made();
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

describe('channels', () => {
  const made = once(async () => {
    const bait = await baitMade();
    return moldHalves(moldFor(bait, { block: { ...BLOCK, width: 90 * mm }, cavities: times(2, bait) }));
  });

  test('the sprue is its frustum less what the runner already took', async () => {
    const { hollow } = await made();
    // V = πL/3·(R² + Rr + r²); half of the round runner crosses it, where it is at most 7.75 mm wide.
    const frustum = ((Math.PI * 20) / 3) * (36 + 6 * 3.5 + 12.25) * mm ** 3;
    const crossing = (Math.PI / 2) * 9 * 7.75 * mm ** 3;
    expect(hollow.sprue).toBeLessThan(frustum);
    expect(hollow.sprue).toBeGreaterThan(frustum - crossing);
  });

  test('without a runner the sprue is its frustum exactly', async () => {
    const plain = { runner: undefined, vents: [], pins: undefined };
    const single = await moldHalves(moldFor(await baitMade(), plain));
    const frustum = ((Math.PI * 20) / 3) * (36 + 6 * 3.5 + 12.25) * mm ** 3;
    expect(single.hollow.sprue / frustum).toBeCloseTo(1, 8);
    const gate = 4 * 2 * 3 * mm ** 3;
    expect(single.hollow.gates).toBeGreaterThan(gate * (1 - 1e-9));
    expect(single.hollow.gates).toBeLessThan(gate * 1.6);
  });

  test('the runner is a round bar with half a ball at either end', async () => {
    const { hollow, layout } = await made();
    const bar = Math.PI * (3 * mm) ** 2 * layout.runnerLength;
    const ends = (4 / 3) * Math.PI * (3 * mm) ** 3;
    expect(hollow.runner).toBeGreaterThan(bar * 0.98);
    expect(hollow.runner).toBeLessThan(bar + ends);
  });

  test('pin holes are bored into both halves', async () => {
    const { hollow, layout } = await made();
    const holes = layout.pins.reduce(
      (sum, { diameter, depth }) => sum + (Math.PI / 4) * diameter ** 2 * 2 * depth,
      0,
    );
    expect(layout.pins).toHaveLength(2);
    expect(hollow.pins / holes).toBeCloseTo(1, 8);
  });

  test('vents: as many as stated, of the stated size, the tail first, cut into the lower half alone', async () => {
    const { hollow, layout, cut, channels } = await made();
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
    // What is cut below the plane is half of all but the vents, and all of them.
    const others = hollow.gates + hollow.runner + hollow.sprue + hollow.pins;
    expect((cut.besides - others / 2) / vents).toBeCloseTo(1, 2);
    const deepest = massProperties(channels).box;
    expect(deepest.min[2]).toBeCloseTo(-deepest.max[2], 9);
  });

  test('vents go to the tips of thin parts first', async () => {
    const bait = await baitMade();
    const tip = [30 * mm, 5.5 * mm] as const;
    const { vents, cavities } = moldLayout(moldFor({ ...bait, tips: [tip] }));
    const { x, y } = cavities[0]!;
    expect(Math.hypot(vents[0]!.from[0] - x - tip[0], vents[0]!.from[1] - y - tip[1])).toBeLessThan(2 * mm);
  });

  const outlet = { tier: 'outlet', depth: 0.5 * mm, width: 5 * mm, land: 6 * mm, count: 1 } as const;
  const edge = { tier: 'edge', depth: 0.04 * mm, width: 4 * mm, land: 2 * mm, count: 1 } as const;
  const outletOf = (table: MoldTable, cavity: number) =>
    moldLayout(table).vents.find((vent) => vent.tier === 'outlet' && vent.cavity === cavity)!;

  test('an outlet goes straight on to the edge, or turns aside by what a clear way takes', async () => {
    const bait = await baitMade();
    const tip = [60 * mm, 0] as const;
    const place = { ...bait, tips: [tip], x: 30 * mm, y: 30 * mm };
    const alone = moldFor(place, { pins: undefined, vents: [edge, outlet] });
    const straight = outletOf(alone, 0);
    expect([straight.open, straight.to[0], straight.to[1]]).toEqual([
      true,
      expect.closeTo(BLOCK.length, 9),
      expect.closeTo(straight.from[1], 9),
    ]);
    // A second bait lies across the way straight on; its nose and tail leave 30 degrees up or down too little room.
    const wall = { ...bait, x: 105 * mm, y: 5 * mm, turn: Math.PI / 2 };
    const block = { ...BLOCK, width: 75 * mm };
    const aside = outletOf({ ...alone, block, cavities: [place, wall] }, 0);
    expect(aside.open).toBe(true);
    const [x, y] = aside.to;
    expect(Math.min(x, y, block.length - x, block.width - y)).toBeCloseTo(0, 9);
    expect(Math.abs(Math.atan2(aside.to[1] - aside.from[1], aside.to[0] - aside.from[0]))).toBeGreaterThan(
      0.5,
    );
  });

  test('a tier without room is noted, not squeezed in', async () => {
    const vents = [{ tier: 'edge', depth: 0.04 * mm, width: 3 * mm, land: 40 * mm, count: 3 }] as const;
    const { notes } = moldLayout(moldFor(await baitMade(), { vents }));
    expect(notes).toEqual([expect.stringMatching(/^vents: [01] of 3 edge vents on cavity 1 found room/u)]);
  });
});

describe('refuses', () => {
  const two =
    (y: number) =>
    (bait: CavityTable): Partial<MoldTable> => ({
      block: { ...BLOCK, width: 120 * mm },
      cavities: [
        { ...bait, x: 40 * mm, y: 40 * mm },
        { ...bait, x: 40 * mm, y: y * mm },
      ],
    });
  test.each<[string, Change, string]>([
    ['cavities that overlap', two(46), 'cavities 1 and 2: want metal between them'],
    [
      'a cavity that leaves the block',
      two(118),
      'cavity 2: wants to lie inside the block, got 4 mm beyond its edge',
    ],
    ['a thin wall to the edge', two(112), "cavity 2: wants 3 mm of metal to the block's edge, got 2 mm"],
    [
      'a thin floor',
      () => ({ block: { ...BLOCK, thickness: 14 * mm } }),
      'cavity 1: wants 3 mm of metal under it, got 2 mm; make the block at least 16 mm thick',
    ],
    ['a block without room', (bait) => ({ cavities: times(8, bait) }), 'block: wants'],
    [
      'several cavities without a runner',
      (bait) => ({ cavities: times(2, bait), runner: undefined }),
      'runner: wants one for 2 cavities',
    ],
    [
      'places for some cavities only',
      (bait) => ({ cavities: [bait, { ...bait, x: 40 * mm, y: 20 * mm }] }),
      'cavities: wants x and y of every cavity or of none',
    ],
    ['pins without room', () => ({ pins: { count: 12, diameter: 20 * mm } }), 'pins: wants room for 12'],
    [
      'a sprue through a cavity',
      (bait) => ({ cavities: [{ ...bait, x: 12 * mm, y: 30 * mm }] }),
      'sprue: wants to reach cavity 1 through its gate only',
    ],
  ])('%s', async (_, change, message) => {
    const bait = await baitMade();
    await expect(moldHalves(moldFor(bait, change(bait)))).rejects.toThrow(message);
  });
});
