import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../../src/core/mesh/mesh.ts';
import { boxTree } from '../../../src/core/section/box-tree.ts';
import {
  aboutCube,
  cubeMiddle,
  cubeNear,
  thicknessAbout,
  voxelsIn,
  waysThrough,
  type Voxels,
} from '../../../src/core/section/voxels.ts';
import { once } from '../../support/once.ts';
import { box, joined } from '../../support/solids.ts';
import { voxelsOf } from '../../support/voxels.ts';

describe('a box of 4 by 2 by 8 in a room of its own size', () => {
  // 64 / 1000 = 0.4³: 10 × 5 × 20 cubes of 0.4.
  const [min, max]: [Vec3, Vec3] = [
    [10, -1, 3],
    [14, 1, 11],
  ];
  const found = once(() => voxelsIn(boxTree(box([4, 2, 8], min)), { min, max }, 1000));

  test('is a thousand cubes, column by column, each from the bottom up', () => {
    expect(found().origin).toEqual(min);
    expect(found().cell).toBeCloseTo(0.4, 12);
    expect(found().counts).toEqual([10, 5, 20]);
    const places = [0, 1, 2, 3, 4].flatMap((j) =>
      Array.from({ length: 10 }, (_, i) => Array.from({ length: 20 }, (_, k) => i + 10 * (j + 5 * k))).flat(),
    );
    expect([...found().cubes]).toEqual(places);
  });

  test('numbers lead back from places to cubes', () => {
    expect(found().numbers.length).toBe(1000);
    found().cubes.forEach((place, cube) => expect(found().numbers[place]).toBe(cube));
  });
});

/** Places of the cubes that boxes touch along z where the middle of their column lies in the box, in rising order. */
function touched(
  { origin, cell, counts }: Voxels,
  boxes: readonly (readonly [min: Vec3, max: Vec3])[],
  top: number,
): number[] {
  const places: number[] = [];
  for (let k = 0; k < counts[2]; k++)
    for (let j = 0; j < counts[1]; j++)
      for (let i = 0; i < counts[0]; i++) {
        const [x, y, z] = cubeMiddle(
          {
            origin,
            cell,
            counts,
            cubes: Int32Array.of(i + counts[0] * (j + counts[1] * k)),
            numbers: Int32Array.of(),
          },
          0,
        );
        const own = boxes.some(
          ([min, max]) =>
            x > min[0] &&
            x < max[0] &&
            y > min[1] &&
            y < max[1] &&
            min[2] <= top &&
            z + cell / 2 > min[2] &&
            z - cell / 2 <= max[2],
        );
        if (own) places.push(i + counts[0] * (j + counts[1] * k));
      }
  return places;
}

describe('boxes in a room: cubes whose column runs through them and that they touch along z', () => {
  test.each<[string, [Vec3, Vec3][], Vec3, Vec3]>([
    [
      'one in the middle',
      [
        [
          [3, 1.1, 1],
          [5, 3.1, 3],
        ],
      ],
      [0, 0, 0],
      [8, 4, 4],
    ],
    [
      'a plate thinner than a cube',
      [
        [
          [0, 0, 2.1],
          [8, 8, 2.11],
        ],
      ],
      [0, 0, 0],
      [8, 8, 8],
    ],
    [
      'two plates in one cube, counted once',
      [
        [
          [0, 0, 2.1],
          [8, 8, 2.11],
        ],
        [
          [0, 0, 2.13],
          [8, 8, 2.14],
        ],
      ],
      [0, 0, 0],
      [8, 8, 8],
    ],
    [
      'one that begins below the room, one that ends above it',
      [
        [
          [0, 0, -3],
          [4, 2, 1],
        ],
        [
          [0, 2, 3],
          [4, 4, 12],
        ],
      ],
      [0, 0, 0],
      [4, 4, 4],
    ],
    [
      'others wholly below and wholly above it',
      [
        [
          [0, 0, -3],
          [4, 4, -1],
        ],
        [
          [1, 1, 1],
          [3, 3, 2],
        ],
        [
          [0, 0, 5],
          [4, 4, 6],
        ],
      ],
      [0, 0, 0],
      [4, 4, 4],
    ],
    [
      'one just above the room, where the last cube still reaches',
      [
        [
          [0, 0, 1],
          [2, 4, 2],
        ],
        [
          [2, 0, 4.01],
          [4, 4, 6],
        ],
      ],
      [0, 0, 0],
      [4, 4, 4],
    ],
    [
      'away from the origin',
      [
        [
          [-7, 20.5, 103],
          [-5, 24, 107],
        ],
      ],
      [-8, 20, 100],
      [-4, 24, 110],
    ],
  ])('%s', (_, boxes, min, max) => {
    const solid = joined(
      ...boxes.map(([low, high]) => box([high[0] - low[0], high[1] - low[1], high[2] - low[2]], low)),
    );
    for (const target of [64, 300]) {
      const found = voxelsIn(boxTree(solid), { min, max }, target);
      expect([...found.cubes].sort((a, b) => a - b)).toEqual(touched(found, boxes, max[2]));
      expect(found.numbers.filter((cube) => cube >= 0).length).toBe(found.cubes.length);
      found.counts.forEach((count, axis) => {
        expect(count * found.cell).toBeGreaterThanOrEqual(max[axis]! - min[axis]! - 1e-6);
        expect((count - 1) * found.cell).toBeLessThan(max[axis]! - min[axis]!);
      });
    }
  });

  test('the first look counts cubes of the room, the second makes the wanted number of the solid', () => {
    // In cubes of ∛(128 / 125) the box of 2 × 2 × 2 is found to touch 2 × 2 × 3 of them, 12.288 in volume.
    const { cell } = voxelsIn(boxTree(box([2, 2, 2], [3, 1.1, 1])), { min: [0, 0, 0], max: [8, 4, 4] }, 125);
    expect(cell).toBeCloseTo(Math.cbrt((12 * 1.024) / 125), 12);
  });

  test('some 40 000 cubes when no number is given', () => {
    expect(voxelsIn(boxTree(box([4, 4, 4])), { min: [0, 0, 0], max: [4, 4, 4] }).cell).toBeCloseTo(
      Math.cbrt(64 / 40_000),
      2,
    );
  });

  test('a speck in a vast room: no more than four million cells', () => {
    const speck = boxTree(box([1, 1, 1], [40.5, 40.5, 40.5]));
    const { cell } = voxelsIn(speck, { min: [0, 0, 0], max: [100, 100, 100] }, 125_000);
    expect(cell).toBeCloseTo(Math.cbrt(1e6 / 4e6), 12);
  });
});

test('an empty room has no cubes, and is cut as coarsely as was wanted', () => {
  const found = voxelsIn(boxTree(box([1, 1, 1])), { min: [5, 5, 5], max: [7, 7, 7] }, 8);
  expect(found).toEqual({
    origin: [5, 5, 5],
    cell: 1,
    counts: [2, 2, 2],
    cubes: Int32Array.of(),
    numbers: new Int32Array(8).fill(-1),
  });
});

/** A wall with a gap at its end, in the middle of a room of one storey: `#` is solid. */
const ROOM = voxelsOf(['#####', '#####', '....#', '#####'], { origin: [1, 2, 3], cell: 0.5 });
const cubeAt = (voxels: Voxels, i: number, j: number, k = 0) =>
  voxels.numbers[i + voxels.counts[0] * (j + voxels.counts[1] * k)]!;

describe('ways', () => {
  test('through a room and round its wall, by steps along cubes and their diagonals', () => {
    const ways = waysThrough(ROOM, [cubeAt(ROOM, 0, 0)]);
    const diagonal = Math.SQRT2;
    const at = (i: number, j: number) => ways[cubeAt(ROOM, i, j)]! / 0.5;
    expect(at(0, 0)).toBe(0);
    expect(at(3, 0)).toBe(3);
    expect(at(1, 1)).toBeCloseTo(diagonal, 12);
    expect(at(3, 1)).toBeCloseTo(2 + diagonal, 12);
    // To the gap: three along and one across for each of two rows; then back under the wall.
    expect(at(4, 2)).toBeCloseTo(2 + 2 * diagonal, 12);
    expect(at(3, 3)).toBeCloseTo(2 + 3 * diagonal, 12);
    expect(at(0, 3)).toBeCloseTo(5 + 3 * diagonal, 12);
  });

  test('from several starts the nearest counts', () => {
    const ways = waysThrough(ROOM, [cubeAt(ROOM, 0, 0), cubeAt(ROOM, 0, 3)]);
    expect(ways[cubeAt(ROOM, 2, 3)]).toBe(1);
    expect(ways[cubeAt(ROOM, 2, 0)]).toBe(1);
  });

  test('only through the cubes that it may use', () => {
    const row = [0, 1, 2, 3].map((i) => cubeAt(ROOM, i, 1));
    const ways = waysThrough(ROOM, [row[0]!], row);
    expect([...ways]).toEqual(
      Array.from(ROOM.cubes.keys(), (cube) => (row.includes(cube) ? row.indexOf(cube) * 0.5 : Infinity)),
    );
  });

  test('none leads to what hangs together with nothing', () => {
    const two = voxelsOf(['#.#']);
    expect([...waysThrough(two, [0])]).toEqual([0, Infinity]);
  });

  test('they do not run round the edge of the grid into the next row or storey', () => {
    const rows = voxelsOf(['..#', '#..', '..#']);
    expect([...waysThrough(rows, [0])]).toEqual([0, Infinity, Infinity]);
    const storeys = voxelsOf(['...', '..#'], {}, ['#..', '...']);
    expect([...waysThrough(storeys, [0])]).toEqual([0, Infinity]);
  });

  test('up and across three axes at once: √3', () => {
    const stairs = voxelsOf(['#.', '..'], {}, ['..', '.#']);
    expect([...waysThrough(stairs, [0])]).toEqual([0, expect.closeTo(Math.sqrt(3), 12)]);
  });

  test('seeded rubble: as by relaxing every pair of neighbours until nothing changes', () => {
    const draw = (n: number) => Math.abs(Math.sin(n * 12.9898) * 43758.5453) % 1;
    const storey = (k: number) =>
      [0, 1, 2, 3, 4].map((j) =>
        [0, 1, 2, 3, 4, 5].map((i) => (draw(i + 6 * j + 30 * k + 1) < 0.6 ? '#' : '.')).join(''),
      );
    const rubble = voxelsOf(storey(0), {}, storey(1), storey(2), storey(3));
    const middles = Array.from(rubble.cubes.keys(), (cube) => cubeMiddle(rubble, cube));
    for (const start of [0, Math.floor(middles.length / 2), middles.length - 1]) {
      const ways = middles.map((_, cube) => (cube === start ? 0 : Infinity));
      for (let changed = true; changed;) {
        changed = false;
        middles.forEach((a, one) =>
          middles.forEach((b, other) => {
            const steps = a.map((value, axis) => Math.abs(value - b[axis]!));
            const longer = ways[one]! + Math.hypot(...steps);
            if (Math.max(...steps) > 1.01 || longer > ways[other]! - 1e-9) return;
            ways[other] = longer;
            changed = true;
          }),
        );
      }
      const got = waysThrough(rubble, [start]);
      ways.forEach((way, cube) =>
        way === Infinity ? expect(got[cube]).toBe(Infinity) : expect(got[cube]).toBeCloseTo(way, 9),
      );
    }
  });
});

describe('places', () => {
  const tower = voxelsOf(['##.', '##.'], { origin: [10, 20, 30], cell: 2 }, ['..#', '...']);

  test('the middle of a cube', () => {
    expect(Array.from(tower.cubes.keys(), (cube) => cubeMiddle(tower, cube))).toEqual([
      [11, 21, 31],
      [13, 21, 31],
      [11, 23, 31],
      [13, 23, 31],
      [15, 21, 33],
    ]);
  });

  test.each<[Vec3, number]>([
    [[11, 21, 31], 0],
    [[12.1, 21, 31], 1],
    [[0, 99, 31], 2],
    [[13, 23, 99], 4],
    [[15, 21.4, 31], 1],
    [[15.1, 20, 32.2], 4],
    [[14, 23.5, 31], 3],
  ])('the cube nearest to %j is number %i', (point, cube) => {
    expect(cubeNear(tower, point)).toBe(cube);
  });

  test('where there is no cube none is near', () => {
    expect(cubeNear(voxelsOf(['..']), [0, 0, 0])).toBe(-1);
  });

  test('cubes that touch one, be it at a corner, and not round the edge of the grid', () => {
    expect(aboutCube(tower, 0)).toEqual([1, 2, 3]);
    expect(aboutCube(tower, 1).sort()).toEqual([0, 2, 3, 4]);
    expect(aboutCube(tower, 2).sort()).toEqual([0, 1, 3]);
    expect(aboutCube(tower, 3).sort()).toEqual([0, 1, 2, 4]);
    expect(aboutCube(tower, 4).sort()).toEqual([1, 3]);
    const rows = voxelsOf(['..#', '#..', '..#'], {}, ['#..', '...', '#..']);
    expect(rows.cubes.length).toBe(5);
    // From (2, 0): (0, 0) above it and (0, 1) are two columns away.
    expect(Array.from(rows.cubes.keys(), (cube) => aboutCube(rows, cube))).toEqual([
      [],
      [3, 4],
      [],
      [1],
      [1],
    ]);
  });
});

describe('thickness about a cube: its shortest run along axes and diagonals', () => {
  test('in a block of 5 × 3 × 4: 3 across', () => {
    const storey = ['#####', '#####', '#####'];
    const block = voxelsOf(storey, {}, storey, storey, storey);
    for (const cube of block.cubes.keys()) {
      const [x, y, z] = cubeMiddle(block, cube);
      const [i, j, k] = [x - 0.5, y - 0.5, z - 0.5];
      // A corner's own diagonal is one cube of √2 or √3; runs along the axes are 5, 3 and 4.
      const runs = [5, 3, 4];
      for (let a = -1; a <= 1; a++)
        for (let b = -1; b <= 1; b++)
          for (let c = -1; c <= 1; c++) {
            if (Math.abs(a) + Math.abs(b) + Math.abs(c) < 2) continue;
            let run = 1;
            for (const sign of [1, -1])
              for (
                let n = sign;
                i + n * a >= 0 &&
                i + n * a < 5 &&
                j + n * b >= 0 &&
                j + n * b < 3 &&
                k + n * c >= 0 &&
                k + n * c < 4;
                n += sign
              )
                run++;
            runs.push(run * Math.hypot(a, b, c));
          }
      expect(thicknessAbout(block, cube)).toBeCloseTo(Math.min(...runs), 12);
    }
  });
  test('of a rod along each axis, two by two: 2 or the diagonal of one', () => {
    const along = {
      x: voxelsOf(['#####', '#####'], {}, ['#####', '#####']),
      y: voxelsOf(['##', '##', '##', '##'], {}, ['##', '##', '##', '##']),
    };
    for (const rod of Object.values(along)) expect(thicknessAbout(rod, 0)).toBeCloseTo(Math.SQRT2, 12);
    expect(thicknessAbout(voxelsOf(['#######']), 3)).toBe(1);
    expect(thicknessAbout(voxelsOf(['###', '###', '###']), 4)).toBe(1);
  });
});
