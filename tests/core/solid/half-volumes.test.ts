// Bars with flat faces, so that every hollow is known in closed form.
import { describe, expect, test } from 'vitest';
import { massProperties, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import { moldHalves } from '../../../src/core/solid/half.ts';
import type { CavityTable, MoldTable, VentTable } from '../../../src/core/solid/mold-table.ts';
import { box } from '../../support/solids.ts';

const mm = 1e-3;
const mm3 = 1e-9;
const inMetres = (points: readonly (readonly number[])[]): Vec2[] =>
  points.map(([x, y]) => [x! * mm, y! * mm]);
/** 60 × 10 × 8 mm, its gate in the middle of its nose, its first vent in the middle of its tail. */
const bar: CavityTable = {
  mesh: box([60 * mm, 10 * mm, 8 * mm], [0, -5 * mm, -4 * mm]),
  plan: [inMetres([[0, 0], [0, -5], [60, -5], [60, 5], [0, 5]])], // prettier-ignore
  tips: inMetres([[60, 0]]),
};
const vent = (tier: VentTable['tier'], depth: number, width: number, land: number): VentTable => ({
  ...{ tier, count: 1 },
  ...{ depth: depth * mm, width: width * mm, land: land * mm },
});
const mold: MoldTable = {
  cavities: [bar],
  block: { length: 120 * mm, width: 60 * mm, thickness: 24 * mm },
  sprue: { mouth: 12 * mm, end: 7 * mm, length: 20 * mm },
  gate: { width: 4 * mm, depth: 2 * mm, length: 3 * mm, at: 'nose' },
  vents: [vent('edge', 0.04, 4, 4), vent('collector', 0.25, 4, 5), vent('outlet', 0.5, 5, 6)],
};
/** V = πL/3·(R² + Rr + r²). */
const frustum = ((Math.PI * 20) / 3) * (36 + 6 * 3.5 + 12.25);

test('one bar, one gate, one chain of vents: every hollow and both halves', async () => {
  const { hollow, cut, shown } = await moldHalves(mold);
  const near = (volume: number): number => expect.closeTo(volume * mm3, 15) as number;
  // The bar lies from 23 to 83 mm, so the vents are 4, 5 and 28 mm long; each reaches 1.5 mm back into what came before it
  // and adds there what it is deeper and wider.
  const vents = {
    edge: 4 * 4 * 0.04,
    collector: 4 * 5 * 0.25 + 1.5 * 4 * 0.21,
    outlet: 5 * 28 * 0.5 + 1.5 * (2.5 - 1),
  };
  expect(hollow).toEqual({
    cavities: near(4800),
    gates: near(4 * 2 * 3),
    runner: 0,
    sprue: near(frustum),
    vents: { edge: near(vents.edge), collector: near(vents.collector), outlet: near(vents.outlet) },
    pins: 0,
  });
  // All but the vents is cut in halves by the parting plane; the vents lie in the lower half alone.
  const plain = (120 * 60 * 24 - 4800 - 24 - frustum) / 2;
  const vented = vents.edge + vents.collector + vents.outlet;
  expect(cut).toEqual({
    metal: near(plain - vented),
    besides: near((24 + frustum) / 2 + vented),
    baits: near(2400),
    merged: near(4800),
  });
  const corner = (x: number, y: number, z: number) =>
    [x, y, z].map((side) => expect.closeTo(side * mm, 12) as number);
  expect(massProperties(shown).box).toEqual({ min: corner(0, 0, -12), max: corner(120, 60, 0) });
});

test('vents narrower than 3 mm reach back by half their width', async () => {
  const vents = [vent('edge', 0.04, 2, 4), vent('collector', 0.25, 2, 5)];
  const { hollow } = await moldHalves({ ...mold, vents });
  expect(hollow.vents.edge).toBeCloseTo(2 * 4 * 0.04 * mm3, 15);
  expect(hollow.vents.collector).toBeCloseTo((2 * 5 * 0.25 + 1 * 2 * 0.21) * mm3, 15);
  expect(hollow.vents.outlet).toBe(0);
});

test('turned askew, gate and vents keep their sizes', async () => {
  const cavity = { ...bar, x: 40 * mm, y: 25 * mm, turn: Math.PI / 6 };
  const block = { ...mold.block, width: 90 * mm };
  const { hollow } = await moldHalves({ ...mold, block, vents: mold.vents.slice(0, 2), cavities: [cavity] });
  expect(hollow.gates).toBeCloseTo(24 * mm3, 15);
  expect(hollow.vents.edge).toBeCloseTo(0.64 * mm3, 15);
  expect(hollow.vents.collector).toBeCloseTo(6.26 * mm3, 15);
});

test('two gates and the runner between them', async () => {
  const { hollow, layout, channels } = await moldHalves({
    ...mold,
    cavities: [bar, bar],
    runner: { diameter: 6 * mm },
    vents: [],
  });
  // Gates end on the runner's middle line, 3 mm further on.
  expect(hollow.gates).toBeCloseTo(2 * 4 * 2 * 6 * mm3, 15);
  // A round bar with half a ball at either end, less what the gates took: half of each in the bar, at the depth
  // √(9 − z²), and half in the ball, at √(9 − z² − v²); by the midpoint rule.
  const steps = Array.from({ length: 200 }, (_, i) => (i + 0.5) / 200);
  const taken = steps
    .flatMap((v) => steps.map((z) => Math.sqrt(9 - z ** 2) + Math.sqrt(9 - z ** 2 - (2 * v) ** 2)))
    .reduce((sum, depth) => sum + depth * (2 / 200) * (2 / 200), 0);
  const length = layout.runnerLength / mm;
  expect(length).toBeCloseTo(70 / 3, 9);
  const runner = Math.PI * 9 * length + (4 / 3) * Math.PI * 27 - 2 * taken;
  expect(hollow.runner / (runner * mm3)).toBeCloseTo(1, 2);
  // All channels together, with what of the gates lies in the bars: 4 mm of each.
  const sprue = hollow.sprue + hollow.runner + hollow.gates + 2 * 4 * 4 * 2 * mm3;
  expect(meshVolume(channels) / sprue).toBeCloseTo(1, 9);
});

test('pins are bored into both halves, whichever stands where', async () => {
  const { hollow, cut } = await moldHalves({
    ...mold,
    vents: [],
    pins: { count: 3, diameter: 4 * mm },
  });
  // Two diameters deep in either half, of flats that enclose the circle's own area.
  expect(hollow.pins).toBeCloseTo(3 * Math.PI * 4 * 16 * mm3, 15);
  const channels = hollow.gates + hollow.sprue + hollow.pins;
  expect(cut.besides).toBeCloseTo(channels / 2, 15);
});

describe('refuses', () => {
  const placed = (x: number, y: number, turn = 0): CavityTable => ({ ...bar, x: x * mm, y: y * mm, turn });
  const several: MoldTable = {
    ...mold,
    vents: [],
    runner: { diameter: 6 * mm },
    block: { ...mold.block, width: 90 * mm },
  };
  /** One whose silhouette begins 10 mm before its mesh. */
  const short: CavityTable = { ...bar, mesh: box([50 * mm, 10 * mm, 8 * mm], [10 * mm, -5 * mm, -4 * mm]) };
  test.each<[string, MoldTable, string]>([
    [
      'cavities that overlap by 60 × 1 × 8 mm',
      { ...several, cavities: [placed(40, 30), placed(40, 39)] },
      'cavities 1 and 2: want metal between them, got 480.0 mm³ in common; move them apart',
    ],
    [
      'the first and the third that overlap',
      { ...several, cavities: [placed(40, 30), placed(40, 60), placed(40, 22)] },
      'cavities 1 and 3: want metal between them, got 960.0 mm³ in common',
    ],
    [
      'one that overlaps end to end by 5 mm',
      {
        ...several,
        block: { ...several.block, length: 160 * mm },
        cavities: [placed(30, 30), placed(85, 30)],
      },
      'cavities 1 and 2: want metal between them, got 400.0 mm³ in common',
    ],
    // Gates face both ways: the trunk goes up half way between them, through the first.
    [
      'a runner through a cavity',
      { ...several, cavities: [placed(26, 35), placed(100, 60, Math.PI)] },
      'runner: wants to reach cavity 1 through its gate only, got one that cuts into it; move the cavity',
    ],
    [
      'a gate that misses its bait',
      { ...several, cavities: [bar, short] },
      'gate: wants to open into cavity 2, got one that misses it; gate the bait at another place',
    ],
  ])('%s', async (_, table, message) => {
    await expect(moldHalves(table)).rejects.toThrow(message);
  });
});
