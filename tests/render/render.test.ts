import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../src/core/mesh/mesh.ts';
import { meshInBlock } from '../../src/core/solid/plan.ts';
import { framed, type Size } from '../../src/render/camera.ts';
import { colourOf, plasticOf } from '../../src/render/colours.ts';
import { pictureFiles } from '../../src/render/encode.ts';
import type { Raster } from '../../src/render/exposure.ts';
import { fragments } from '../../src/render/fragments.ts';
import { ALUMINIUM } from '../../src/render/material.ts';
import { rendered } from '../../src/render/render.ts';
import { partOf, type Part, type Scene } from '../../src/render/scene.ts';
import { baitScene, moldScene, nearestLie } from '../../src/render/subjects.ts';
import { FAMILIES } from '../../src/schema/bait.ts';
import { COLOURS } from '../../src/schema/colour.ts';
import { box, capsule, uvSphere } from '../support/solids.ts';

const size: Size = { width: 300, height: 200 };
const view = { azimuth: -1, elevation: 0.8 };

function sceneOf(mesh = uvSphere(0.01, 120, 240)): Scene {
  const part = partOf(mesh, plasticOf('white'));
  return { parts: [part], ground: -10, camera: framed(part.mesh.positions, view, size, 0.1), size };
}

const pixel = ({ data, width }: Raster, x: number, y: number) => [
  ...data.subarray(4 * (y * width + x), 4 * (y * width + x) + 4),
];

describe('a sphere', () => {
  const scene = sceneOf();
  const seen = fragments(scene);

  test('covers the area that a pinhole camera sees of it', () => {
    const { eye, focal } = scene.camera;
    // The tangent cone: radius f·r/√(d² − r²) in the picture.
    const radius = (focal * 10) / Math.sqrt(Math.hypot(...eye) ** 2 - 100);
    const covered = seen.share.subarray(0, seen.count).reduce((sum, share) => sum + share, 0);
    expect(Math.abs(covered / (Math.PI * radius ** 2) - 1)).toBeLessThan(2e-3);
  });

  test('is seen where it is, and faces straight out there', () => {
    for (let i = 0; i < seen.count; i += 7) {
      const place = seen.position.subarray(3 * i, 3 * i + 3);
      const normal = seen.normal.subarray(3 * i, 3 * i + 3);
      expect(Math.abs(Math.hypot(...place) - 10)).toBeLessThan(0.01);
      const straight = place.reduce((sum, part, axis) => sum + part * normal[axis]!, 0) / 10;
      expect(straight).toBeGreaterThan(0.998);
    }
  });
});

test('every pixel of a convex solid is covered once at most', () => {
  const scene = sceneOf(box([0.02, 0.01, 0.005]));
  const { count, pixel: at, share } = fragments(scene);
  const cover = new Float32Array(size.width * size.height);
  for (let i = 0; i < count; i++) cover[at[i]!]! += share[i]!;
  expect(Math.max(...cover)).toBe(1);
});

test('the level face of a box is lit evenly', () => {
  const { shown } = rendered(sceneOf(box([0.02, 0.02, 0.004])));
  const middle = pixel(shown, 150, 90);
  for (const [x, y] of [
    [140, 90],
    [160, 90],
    [150, 84],
    [150, 96],
  ] as const) {
    pixel(shown, x, y).forEach((value, k) => {
      expect(Math.abs(value - middle[k]!)).toBeLessThanOrEqual(2);
    });
  }
  expect(middle[3]).toBe(255);
});

test('the ground is clear', () => {
  const scene = sceneOf();
  const { data } = rendered(scene).shown;
  const { count, pixel: at } = fragments(scene);
  const seen = new Set(at.subarray(0, count));
  for (let i = 0; i < size.width * size.height; i++) expect(data[4 * i + 3]! > 0).toBe(seen.has(i));
});

test.each([
  ['red', [0, 1]],
  ['blue', [2, 0]],
  ['chartreuse', [1, 2]],
  ['amber', [0, 2]],
  ['watermelon', [1, 2]],
] as const)('%s plastic looks it', (colour, [most, least]) => {
  const { shown } = rendered(baitScene(partOf(capsule(0.006, 0.04, 24, 48), plasticOf(colour)), size));
  const sums = [0, 0, 0, 0];
  shown.data.forEach((value, i) => (sums[i % 4]! += shown.data[i - (i % 4) + 3] === 255 ? value : 0));
  expect(sums[most]).toBeGreaterThan(1.3 * sums[least]!);
});

test('every family has a colour, and an author may choose another', () => {
  for (const family of FAMILIES) expect(COLOURS).toContain(colourOf({ family }));
  expect(colourOf({ family: 'craw', colour: 'blue' })).toBe('blue');
});

describe('a mold half', () => {
  const half = box([0.1, 0.06, 0.01], [0, 0, -0.01]);
  const bait = partOf(capsule(0.004, 0.03, 12, 24), plasticOf('red'));
  const lies = [
    { x: 0.03, y: 0.045, turn: 0, mirrored: false },
    { x: 0.03, y: 0.02, turn: Math.PI / 2, mirrored: true },
  ];

  test('rests on the ground, with the bait where its cavity is', () => {
    const { parts, ground } = moldScene(half, size, { bait, lie: lies[1]! });
    expect(parts.map(({ material }) => material.kind)).toEqual([ALUMINIUM.kind, 'plastic']);
    expect(ground).toBeCloseTo(-10, 9);
    const along = (axis: number) => [...parts[1]!.mesh.positions].filter((_, i) => i % 3 === axis);
    const middle = [0, 1, 2].map((axis) => (Math.max(...along(axis)) + Math.min(...along(axis))) / 2);
    expect(middle).toEqual([30, 20, 0].map((value) => expect.closeTo(value, 6)) as unknown as Vec3);
    // Turned by a right angle: its length of 38 mm lies across.
    expect(Math.max(...along(1)) - Math.min(...along(1))).toBeCloseTo(38, 6);
  });

  test('shows that bait from outside: its normals are turned and mirrored with it', () => {
    const placed = moldScene(half, size, { bait, lie: lies[1]! }).parts[1]!;
    const anew = partOf(meshInBlock(capsule(0.004, 0.03, 12, 24), lies[1]!), placed.material);
    expect(placed.mesh.triangles).toEqual(anew.mesh.triangles);
    const facing = ({ normals: { rows, corners } }: Part) =>
      [...corners].flatMap((row) => [...rows.subarray(3 * row, 3 * row + 3)]);
    const close = (values: Iterable<number>) =>
      [...values].map((value) => expect.closeTo(value, 5) as number);
    expect(facing(placed)).toEqual(close(facing(anew)));
    expect([...placed.normals.faces]).toEqual(close(anew.normals.faces));
  });

  test('shows a bait in the cavity nearest to the eye', () => {
    expect(nearestLie(lies)).toBe(lies[1]);
  });
});

describe('files of a picture', async () => {
  const { shown } = rendered(
    baitScene(partOf(capsule(0.006, 0.04, 24, 48), plasticOf('pearl')), { width: 700, height: 467 }),
  );
  const files = await pictureFiles(shown);

  test('come in every size once, never larger than the picture', () => {
    expect(files.map(({ width }) => width)).toEqual([405, 700]);
    for (const { width, height } of files)
      expect(Math.abs(height - (width * 467) / 700)).toBeLessThanOrEqual(0.5);
  });

  test('are light enough for a list: at most 8 kB for a thumbnail', () => {
    for (const { width, data } of files) if (width === 405) expect(data.length).toBeLessThan(8 * 1024);
  });
});
