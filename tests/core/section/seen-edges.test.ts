import { describe, expect, test } from 'vitest';
import type { Mesh, Vec2, Vec3 } from '../../../src/core/mesh/mesh.ts';
import { foldedMesh } from '../../../src/core/section/folded-edges.ts';
import { seenEdges, type SeenEdges, type Sight } from '../../../src/core/section/seen-edges.ts';
import { box, ellipsoid, flipped, joined, mapped, skinned, turned, uvSphere } from '../../support/solids.ts';

// Lengths in metres; expected lines are worked out from the shapes' own sizes.

const lengthOf = (line: readonly Vec2[]): number =>
  line.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - line[i]![0], y - line[i]![1]), 0);
const total = (lines: readonly (readonly Vec2[])[]): number =>
  lines.reduce((sum, line) => sum + lengthOf(line), 0);
const along = (line: readonly Vec2[]): [number, number] => {
  const xs = line.map(([x]) => x);
  return [Math.min(...xs), Math.max(...xs)];
};
const moved = (mesh: Mesh, [dx, dy, dz]: Vec3): Mesh => mapped(mesh, ([x, y, z]) => [x + dx, y + dy, z + dz]);

/** A bar along x with a convex section, its corners (y, z) turning from +y to +z. */
function bar(corners: readonly Vec2[], length: number, steps = 40): Mesh {
  const rings = Array.from({ length: steps + 1 }, (_, i) =>
    corners.map(([y, z]): Vec3 => [(i * length) / steps, y, z]),
  );
  return skinned([0, 0, 0.001], rings, [length, 0, 0.001]);
}

const ROOF = bar(
  [
    [0.005, 0],
    [0, 0.005],
    [-0.005, 0],
  ],
  0.04,
);

describe('creases', () => {
  test('the ridge of a roof is seen from above over its whole length, and not from below', () => {
    const { ridges, grooves, contours } = seenEdges(ROOF, 'plan');
    expect(ridges.length).toBe(1);
    expect(lengthOf(ridges[0]!)).toBeCloseTo(0.04, 12);
    expect(ridges[0]!.every(([, y]) => Math.abs(y) < 1e-12)).toBe(true);
    expect([...grooves, ...contours]).toEqual([]);
    const below = seenEdges(
      mapped(ROOF, ([x, y, z]) => [x, -y, -z]),
      'plan',
    );
    expect(total(below.ridges)).toBe(0);
  });

  test('a bar over the ridge hides it by its own width, to 7 µm at either edge', () => {
    const { ridges } = seenEdges(joined(ROOF, box([0.0073, 0.02, 0.002], [0.0111, -0.01, 0.01])), 'plan');
    const shown = ridges.filter((line) => line.every(([, y]) => Math.abs(y) < 1e-12)).map(along);
    shown.sort((a, b) => a[0] - b[0]);
    expect(shown.length).toBe(2);
    expect(Math.abs(shown[0]![1] - 0.0111)).toBeLessThan(7e-6);
    expect(Math.abs(shown[1]![0] - 0.0184)).toBeLessThan(7e-6);
  });

  test('a rounded ridge of several facets has one line, in the middle of its turn', () => {
    // A quarter of a circle of 1 mm in five facets between two slopes of 45°.
    const turn = Array.from({ length: 6 }, (_, i): Vec2 => {
      const angle = Math.PI / 4 + (Math.PI / 2) * (i / 5);
      return [0.001 * Math.cos(angle), 0.006 + 0.001 * Math.sin(angle)];
    });
    const [first, last] = [turn[0]!, turn.at(-1)!];
    const section: Vec2[] = [[first[0] + first[1], 0], ...turn, [last[0] - last[1], 0]];
    const { ridges } = seenEdges(bar(section, 0.03), 'plan');
    // Facets fold at the six corners; the two about the middle share the turn evenly.
    expect(total(ridges) / 0.03).toBeCloseTo(2, 6);
    for (const [, y] of ridges.flat()) expect(Math.abs(y)).toBeLessThan(0.00017);
  });

  test.each([10, 12, 16, 24, 48])('the facets of a rod of %i flats are no creases', (segments) => {
    const rod = turned(
      [
        [0, 0.0015],
        [0.03, 0.0015],
      ],
      segments,
    );
    expect(seenEdges(rod, 'plan').ridges).toEqual([]);
  });

  test('a rod with eight broad flats has edges', () => {
    const stations = [
      [0, 0.006],
      [0.03, 0.006],
    ] as const;
    expect(total(seenEdges(turned(stations, 8), 'plan').ridges)).toBeCloseTo(3 * 0.03, 9);
  });

  test.each([24, 64, 160])('a smooth body of %i bands has none, however finely it is meshed', (bands) => {
    const body = ellipsoid([0.05, 0.008, 0.007], bands, bands);
    const { ridges, grooves, contours } = seenEdges(body, 'plan');
    expect([...ridges, ...grooves, ...contours]).toEqual([]);
  });

  test('a V groove round a rod is a straight line across it, its shoulders beside it', () => {
    const [radius, depth, half] = [0.006, 0.001, 0.0012];
    const rod = turned(
      [
        [0, radius],
        [0.01 - half, radius],
        [0.01, radius - depth],
        [0.01 + half, radius],
        [0.02, radius],
      ],
      96,
    );
    const { ridges, grooves } = seenEdges(rod, 'plan');
    expect(grooves.length).toBe(1);
    expect(lengthOf(grooves[0]!)).toBeGreaterThan(1.9 * (radius - depth));
    expect(grooves[0]!.every(([x]) => Math.abs(x - 0.01) < 1e-12)).toBe(true);
    expect(ridges.map((line) => line[0]![0]).sort()).toEqual([0.01 - half, 0.01 + half]);
  });
});

describe('contours', () => {
  const plate = box([0.04, 0.002, 0.03], [0, 0, -0.015]);
  const proud = moved(uvSphere(0.004, 96, 96), [0.02, 0.0021, 0]);

  test('a half ball on a plate is a circle from its own side', () => {
    const { contours } = seenEdges(joined(plate, proud), 'across from +y');
    expect(Math.abs(total(contours) / (2 * Math.PI * 0.004) - 1)).toBeLessThan(2e-3);
    for (const [x, z] of contours.flat())
      expect(Math.abs(Math.hypot(x - 0.02, z) - 0.004)).toBeLessThan(1e-5);
  });

  test('and hidden from the other, where the plate stands before it', () => {
    expect(seenEdges(joined(plate, proud), 'across from -y').contours).toEqual([]);
  });

  test('the step of a shaft is seen where the shaft goes on behind it; beyond, it is the outline', () => {
    const shaft = turned(
      [
        [0, 0.004],
        [0.01, 0.004],
        [0.01, 0.007],
        [0.02, 0.007],
      ],
      64,
    );
    const { contours } = seenEdges(shaft, 'plan');
    const step = contours.filter((line) => line.every(([x]) => x === 0.01));
    expect(step.length).toBeGreaterThan(0);
    // Flats of a polygon of 64 sides end within 0.2 mm of the thinner circle's rim.
    for (const line of step) expect(Math.abs(lengthOf(line) / 0.008 - 1)).toBeLessThan(0.03);
  });

  test('the outline itself is not among them: a ring shows none', () => {
    expect(seenEdges(box([0.03, 0.02, 0.01]), 'plan')).toEqual({ contours: [], ridges: [], grooves: [] });
  });
});

test('a mirrored solid shows the same lines from the other side', () => {
  const { ridges } = seenEdges(ROOF, 'across from +y');
  const turnedOver = mapped(ROOF, ([x, y, z]) => [x, -y, z]);
  const mirrored: Mesh = {
    positions: turnedOver.positions,
    triangles: turnedOver.triangles.map((_, i, all) => all[i - (i % 3) + [0, 2, 1][i % 3]!]!),
  };
  expect(total(seenEdges(mirrored, 'across from -y').ridges)).toBeCloseTo(total(ridges), 12);
});

test('one folded mesh serves all sights, and each is the plan of the mesh turned that way', () => {
  // A block with a smaller one before each of its sides, none like another, and a roof on it.
  const solid = joined(
    box([0.05, 0.04, 0.03]),
    box([0.03, 0.02, 0.002], [0.01, 0.01, 0.035]),
    box([0.02, 0.002, 0.01], [0.02, -0.005, 0.01]),
    box([0.01, 0.002, 0.02], [0.005, 0.045, 0.005]),
    mapped(ROOF, ([x, y, z]) => [x + 0.004, y + 0.02, z + 0.04]),
  );
  const folded = foldedMesh(solid);
  const TURNED: [Sight, (mesh: Mesh) => Mesh][] = [
    ['plan', (mesh) => mesh],
    ['across from +y', (mesh) => flipped(mapped(mesh, ([x, y, z]) => [x, z, y]))],
    ['across from -y', (mesh) => mapped(mesh, ([x, y, z]) => [x, z, -y])],
  ];
  /** Ends of all stretches to a micrometre, whichever way they run. */
  const stretches = ({ contours, ridges, grooves }: SeenEdges) =>
    [contours, ridges, grooves].map((lines) =>
      lines
        .flatMap((line) =>
          line.slice(1).map((end, i) =>
            [line[i]!, end]
              .map((point) => point.map((side) => +(side * 1e6).toFixed(0) + 0).join())
              .sort()
              .join(' '),
          ),
        )
        .sort(),
    );
  for (const [sight, turn] of TURNED) {
    const seen = stretches(seenEdges(solid, sight, folded));
    expect(seen.flat().length).toBeGreaterThan(1);
    expect(seen).toEqual(stretches(seenEdges(turn(solid), 'plan')));
    expect(seen).toEqual(stretches(seenEdges(solid, sight)));
  }
});
