import { describe, expect, test } from 'vitest';
import type { Mesh, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree } from '../../../src/core/section/box-tree.ts';
import { middleLineInBox } from '../../../src/core/section/feature-box.ts';
import { measureFeature } from '../../../src/core/section/feature.ts';
import type { FeatureMeasure } from '../../../src/core/section/geometry.ts';
import { once } from '../../support/once.ts';
import { box, capsule, mapped, skinned, torus, turned, uvSphere, wedge } from '../../support/solids.ts';

const relative = (a: number, b: number) => Math.abs(a / b - 1);
const kind = 'fin';

/** A round rod of 48 flats from x = `from` to `length`, its radius given by x, with a flat cap at either end. */
function rod(length: number, radiusAt: (x: number) => number, bands = 120, from = 0): Mesh {
  const around = 48;
  const rings = Array.from({ length: bands + 1 }, (_, i) => {
    const x = from + ((length - from) * i) / bands;
    return Array.from({ length: around }, (_, turn): Vec3 => {
      const angle = (2 * Math.PI * turn) / around;
      return [x, radiusAt(x) * Math.cos(angle), radiusAt(x) * Math.sin(angle)];
    });
  });
  return skinned([from, 0, 0], rings, [length, 0, 0]);
}

/** Bends the x axis round a circle of radius `bend` about (0, bend): sections stay sections, arc length stays. */
const bent = (mesh: Mesh, bend: number): Mesh =>
  mapped(mesh, ([x, y, z]) => [(bend - y) * Math.sin(x / bend), bend - (bend - y) * Math.cos(x / bend), z]);

/** Lines begin this far along [m]. */
const START = 1e-4;

const arcPoints = (length: number, bend: number): Vec3[] =>
  Array.from({ length: 65 }, (_, i): Vec3 => {
    const angle = (START + ((length - START) * i) / 64) / bend;
    return [bend * Math.sin(angle), bend - bend * Math.cos(angle), 0];
  });

/** Circle inside a regular polygon of 48 sides over the circle about it. */
const FLATS = Math.cos(Math.PI / 48);

function holds(measure: FeatureMeasure, thicknessAt: (s: number) => number, tolerance: number): void {
  expect(measure.stations.length).toBeGreaterThanOrEqual(8);
  for (const { s, thickness } of measure.stations)
    expect(relative(thickness, thicknessAt(s))).toBeLessThan(tolerance);
}

describe('a fin that tapers straight', () => {
  // 20 mm long, 6 mm wide, from 2 mm to 0.5 mm thick.
  const thicknessAt = (s: number) => 0.002 - 0.075 * s;
  const fin = mapped(box([0.02, 0.006, 1], [0, -0.003, -0.5]), ([x, y, z]) => [x, y, z * thicknessAt(x)]);
  const tree = once(() => boxTree(fin));
  const drawn = once(() =>
    measureFeature(tree(), {
      name: 'fin',
      kind,
      middleLine: [
        [0.0001, 0, 0],
        [0.02, 0, 0],
      ],
    }),
  );
  const boxed = once(() =>
    measureFeature(tree(), {
      name: 'fin',
      kind,
      middleLine: middleLineInBox(
        tree(),
        'fin',
        { min: [0.0001, -0.01, -0.01], max: [0.03, 0.01, 0.01] },
        'front',
      ),
    }),
  );
  test.each([
    ['by its middle line', drawn],
    ['by a box', boxed],
  ] as const)('%s', (_, measured) => {
    const measure = measured();
    holds(measure, (s) => thicknessAt(s + 0.0001), 1.5e-3);
    expect(relative(measure.length, 0.0199)).toBeLessThan(1e-4);
    for (const { width } of measure.stations) expect(relative(width, 0.006)).toBeLessThan(1e-3);
  });
  test('its tip is measured one thickness from the end, its thinnest half a thickness from it', () => {
    // s = L − t(s) and s = L − t(s)/2 for a straight taper.
    const at = (share: number) => 0.0005 / (1 - 0.075 * share);
    expect(relative(drawn().tipThickness, at(1))).toBeLessThan(3e-3);
    expect(relative(drawn().thinnest.thickness, at(0.5))).toBeLessThan(3e-3);
    expect(drawn().thinnest.at[0]).toBeGreaterThan(0.0195);
  });
});

test('a knife edge counts as rounding over a two hundredth of the length', () => {
  const blade = mapped(wedge(0.02, 0.006, 0.002), ([x, y, z]) => [0.02 - x, y - 0.003, -z]);
  const measure = measureFeature(boxTree(blade), {
    name: 'edge',
    kind,
    middleLine: [
      [0, 0, 0],
      [0.02, 0, 0],
    ],
  });
  expect(relative(measure.thinnest.thickness, 0.002 / 200)).toBeLessThan(0.03);
});

describe('a round rod', () => {
  const radiusAt = (x: number) => 0.003 - 0.05 * x;
  test('that tapers: 2·r·cos(π/48) at every station', () => {
    const measure = measureFeature(boxTree(rod(0.03, radiusAt)), {
      name: 'arm',
      kind: 'arm',
      middleLine: [
        [0.0001, 0, 0],
        [0.03, 0, 0],
      ],
    });
    holds(measure, (s) => 2 * radiusAt(s + 0.0001) * FLATS, 2e-4);
    expect(relative(measure.length, 0.0299)).toBeLessThan(1e-4);
  });
  test('with a round end keeps its full thickness to the tip', () => {
    const measure = measureFeature(boxTree(capsule(0.002, 0.03, 64, 96)), {
      name: 'arm',
      kind: 'arm',
      middleLine: [
        [0, 0, 0],
        [0.017, 0, 0],
      ],
    });
    const full = 0.004 * Math.cos(Math.PI / 96);
    expect(relative(measure.tipThickness, full)).toBeLessThan(2e-4);
    expect(relative(measure.thinnest.thickness, full)).toBeLessThan(2e-3);
    expect(relative(measure.length, 0.017)).toBeLessThan(1e-3);
  });
  test('that is thinnest half-way says where', () => {
    const waist = (x: number) => 0.002 - 0.001 * Math.exp(-(((x - 0.012) / 0.004) ** 2));
    const measure = measureFeature(boxTree(rod(0.03, waist, 300)), {
      name: 'leg',
      kind: 'leg',
      middleLine: [
        [0.0001, 0, 0],
        [0.03, 0, 0],
      ],
    });
    expect(relative(measure.thinnest.thickness, 0.002 * FLATS)).toBeLessThan(0.01);
    expect(measure.thinnest.at[0]).toBeCloseTo(0.012, 3);
  });
});

describe('a curl', () => {
  test.each(['left', 'bottom'] as const)(
    'of three quarters of a turn, tapered, found in a box from its %s side',
    (root) => {
      const [length, bend] = [0.04, 0.04 / (1.5 * Math.PI)];
      const radiusAt = (x: number) => 0.0022 - 0.03 * x;
      const flat = bent(rod(length, radiusAt, 132, -0.004), bend);
      // Starts along x; stood on its root side so that the box cuts it there.
      const curl = mapped(flat, root === 'left' ? ([x, y, z]) => [-y, x, z] : ([x, y, z]) => [-y, -z, x]);
      const tree = boxTree(curl);
      const reach = 0.05;
      const low = root === 'left' ? ([-reach, 0.0002, -reach] as const) : ([-reach, -reach, 0.0002] as const);
      // Only its root may touch the root side: the box is cut where the curl comes back.
      const room = { min: low, max: [reach, reach, reach] as const };
      const line = middleLineInBox(tree, 'tail', room, root);
      const measure = measureFeature(tree, {
        name: 'tail',
        kind: 'curl-tail',
        middleLine: line,
        within: room,
      });
      // It leaves the box just before half a turn, where its middle comes back to the root side.
      expect(relative(measure.length, Math.PI * bend - 2 * 0.0002)).toBeLessThan(3e-3);
      holds(measure, (s) => 2 * radiusAt(s + 0.0002) * FLATS, 6e-3);
    },
  );
  test('of three quarters of a turn along its middle line', () => {
    const [length, bend] = [0.04, 0.04 / (1.5 * Math.PI)];
    const radiusAt = (x: number) => 0.0022 - 0.03 * x;
    const measure = measureFeature(boxTree(bent(rod(length, radiusAt, 132, -0.004), bend)), {
      name: 'tail',
      kind: 'curl-tail',
      middleLine: arcPoints(length, bend),
    });
    expect(relative(measure.length, length - START)).toBeLessThan(1e-3);
    holds(measure, (s) => 2 * radiusAt(s + START) * FLATS, 2e-3);
  });
  test('that is a quarter of a ring: π·R/2 long, 2·r thick throughout', () => {
    const tree = boxTree(torus(0.02, 0.002, 720, 48));
    const room = { min: [0, 0, -0.01], max: [0.03, 0.03, 0.01] } as const;
    const line = middleLineInBox(tree, 'tail', room, 'left');
    const measure = measureFeature(tree, { name: 'tail', kind: 'curl-tail', middleLine: line, within: room });
    expect(relative(measure.length, (Math.PI * 0.02) / 2)).toBeLessThan(2e-3);
    holds(measure, () => 0.004 * FLATS, 1e-3);
  });
});

test('the root is where the part leaves the body, when the line begins inside it', () => {
  // A rod that runs out of a ball: the ball is turned into its own half, then widened to the rod.
  const radiusAt = (x: number) =>
    x < 0.012 ? Math.max(0.002, Math.sqrt(Math.max(0, 0.01 ** 2 - x ** 2))) : 0.002;
  const measure = measureFeature(boxTree(rod(0.03, radiusAt, 600)), {
    name: 'arm',
    kind: 'arm',
    middleLine: [
      [0.0001, 0, 0],
      [0.03, 0, 0],
    ],
  });
  const leaves = Math.sqrt(0.01 ** 2 - 0.002 ** 2);
  expect(Math.abs(0.03 - measure.length - leaves)).toBeLessThan(0.03 / 48);
  expect(relative(measure.rootThickness, 0.004 * FLATS)).toBeLessThan(0.02);
});

test('a rib round a rod, shorter than it is thick, is measured from the rod to its crown', () => {
  const [foot, crown] = [0.005, 0.006];
  const ribbed = turned(
    [
      [0, foot],
      [0.01, foot],
      [0.01, crown],
      [0.0115, crown],
      [0.0115, foot],
      [0.02, foot],
    ],
    256,
  );
  const line: Vec3[] = [
    [0.01075, foot, 0],
    [0.01075, crown, 0],
  ];
  const measure = measureFeature(boxTree(ribbed), { name: 'rib', kind: 'rib', middleLine: line });
  expect(relative(measure.length, crown - foot)).toBeLessThan(0.05);
  holds(measure, () => 0.0015, 1e-3);
  // Chord of the crown's circle.
  const y = measure.stations[0]!.at[1];
  expect(relative(measure.stations[0]!.width, 2 * Math.sqrt(crown ** 2 - y ** 2))).toBeLessThan(2e-3);
  expect(measure.stations.at(-1)!.s).toBeGreaterThan(0.3 * measure.length);
});

describe('refuses in plain words', () => {
  const tree = once(() => boxTree(uvSphere(0.01, 16, 32)));
  test('an empty box', () => {
    expect(() =>
      middleLineInBox(tree(), 'tail', { min: [0.02, 0, 0], max: [0.03, 0.01, 0.01] }, 'front'),
    ).toThrow('tail: wants a box with a part of the bait in it, got an empty one; move or enlarge its box');
  });
  test('a line beside the solid', () => {
    expect(() =>
      measureFeature(tree(), {
        name: 'tail',
        kind,
        middleLine: [
          [0.02, 0, 0],
          [0.04, 0, 0],
        ],
      }),
    ).toThrow('tail: wants a middle line inside the solid, got one that runs through it at 0 of 49 places');
  });
  test('a line of one point', () => {
    expect(() =>
      measureFeature(tree(), {
        name: 'tail',
        kind,
        middleLine: [
          [0, 0, 0],
          [0, 0, 0],
        ],
      }),
    ).toThrow('middleLineOf: wants two different points or more, got 1');
  });
});
