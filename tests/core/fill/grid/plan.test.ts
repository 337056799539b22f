import { describe, expect, test } from 'vitest';
import { coarsened } from '../../../../src/core/fill/grid/coarsened.ts';
import { cutCavity, fillPitch } from '../../../../src/core/fill/grid/cavity.ts';
import { featureCells } from '../../../../src/core/fill/grid/feature-cells.ts';
import { gateEntries } from '../../../../src/core/fill/grid/gate.ts';
import { planWidths, type CavityMap } from '../../../../src/core/fill/grid/plan-width.ts';
import { ellipseEigenvalue } from '../../../../src/core/heat/cooling-time.ts';
import { bait } from './maps.ts';

const CELL = 1e-3;
const MM = 1e-3;

/** A map from rows of digits, the first row at the low end of y; a digit is a height in mm, a dot none. */
function drawn(...rows: string[]): CavityMap {
  const nx = rows[0]!.length;
  const height = Float64Array.from(rows.join(''), (sign) => (sign === '.' ? 0 : Number(sign) * MM));
  return { nx, ny: rows.length, x0: 0, y0: 0, cell: CELL, height };
}

const open = (map: CavityMap): CavityMap => ({ ...map, width: map.height.map(() => 1) });

describe('plan widths', () => {
  /** Straight from the definition: the largest disc, centred on any cell inside, that reaches over a cell. */
  function plainly(map: CavityMap): number[] {
    const { nx, ny, height } = map;
    const inside = (a: number, b: number) => a >= 0 && b >= 0 && a < nx && b < ny && height[a + nx * b]! > 0;
    const reach = (i: number, j: number) => {
      let least = Infinity;
      for (let b = -1; b <= ny; b++) {
        for (let a = -1; a <= nx; a++)
          if (!inside(a, b)) least = Math.min(least, (a - i) ** 2 + (b - j) ** 2);
      }
      return least;
    };
    const discs = [...height.keys()].flatMap((place) => {
      const [i, j] = [place % nx, Math.floor(place / nx)];
      return inside(i, j) ? [{ i, j, squared: reach(i, j) }] : [];
    });
    return [...height.keys()].map((place) => {
      const [a, b] = [place % nx, Math.floor(place / nx)];
      if (!inside(a, b)) return 0;
      const over = discs.filter(({ i, j, squared }) => (a - i) ** 2 + (b - j) ** 2 < squared);
      return Math.max(...over.map(({ squared }) => (2 * Math.sqrt(squared) - 1) * map.cell));
    });
  }

  test.each([
    { name: 'a bait', map: bait(4e-3) },
    { name: 'a full map', map: drawn('111', '111', '111', '111') },
    { name: 'a ring', map: drawn('.1111.', '111111', '11..11', '111111', '111111', '.1111.') },
    { name: 'specks', map: drawn('1.1', '...', '1.1') },
    {
      name: 'a lane off a square',
      map: drawn('11111....', '111111111', '11111....', '11111....', '11111....'),
    },
  ])('$name: the largest disc over each cell', ({ map }) => {
    const exact = plainly(map);
    planWidths(map).forEach((width, place) => expect(width).toBeCloseTo(exact[place]!, 12));
  });

  test('a single cell is one cell wide, a row of them too', () => {
    expect([...planWidths(drawn('...', '.1.', '...'))]).toEqual([0, 0, 0, 0, CELL, 0, 0, 0, 0]);
    expect([...planWidths(drawn('111'))]).toEqual([CELL, CELL, CELL]);
  });

  test('a pitch of 0 is refused', () => {
    expect(() => planWidths({ ...drawn('1'), cell: 0 })).toThrow(
      'planWidths: cell: wants a finite number above 0',
    );
  });
});

describe('columns', () => {
  test('1500 cells cover the plan', () => {
    expect(fillPitch(1500e-6)).toBeCloseTo(1e-3, 15);
    expect(fillPitch(6000e-6)).toBeCloseTo(2e-3, 15);
    expect(() => fillPitch(0)).toThrow('fillPitch: projectedArea');
  });

  test('have their neighbours east, west, north, south, and −1 at every end', () => {
    const map = drawn('12.', '.31');
    const cavity = cutCavity(map, [0]);
    expect(cavity.count).toBe(4);
    expect([...cavity.cellAt].map((cell) => cell >= 0)).toEqual([true, true, false, false, true, true]);
    cavity.place.forEach((place, cell) => expect(cavity.cellAt[place]).toBe(cell));
    const around = (place: number) =>
      [...cavity.neighbours.subarray(4 * cavity.cellAt[place]!, 4 * cavity.cellAt[place]! + 4)].map(
        (other) => (other < 0 ? -1 : cavity.place[other]!),
      );
    expect(around(0)).toEqual([1, -1, -1, -1]);
    expect(around(1)).toEqual([-1, 0, 4, -1]);
    expect(around(4)).toEqual([5, -1, -1, 1]);
    expect(around(5)).toEqual([-1, 4, -1, -1]);
    expect([...cavity.volume].map((volume) => Math.round(volume * 1e12))).toEqual([1000, 2000, 3000, 1000]);
  });

  test('no row runs on into the next', () => {
    const cavity = cutCavity(drawn('..1', '1..', '1..'), [2]);
    expect([...cavity.place]).toEqual([2]);
    expect([...cavity.neighbours]).toEqual([-1, -1, -1, -1]);
  });

  test('stand in the order of distance over gap from the gate', () => {
    const map = open(bait(3e-3));
    const gate = gateEntries(map, { at: 'nose', width: 4e-3, depth: 3e-3 });
    const cavity = cutCavity(map, gate);
    // Relaxed over and over until nothing gets nearer: the definition.
    const cost = map.height.map((_, place) => (gate.includes(place) ? 0 : Infinity));
    const inside = (place: number) => (map.height[place] ?? 0) > 0;
    for (let moved = true; moved;) {
      moved = false;
      for (const place of map.height.keys()) {
        const beside = [place % map.nx > 0 ? place - 1 : -1, (place + 1) % map.nx > 0 ? place + 1 : -1];
        for (const other of [...beside, place - map.nx, place + map.nx]) {
          if (!inside(place) || !inside(other) || cost[other] === Infinity) continue;
          const by = cost[other]! + map.cell / cavity.gap[cavity.cellAt[place]!]!;
          if (by < cost[place]!) [cost[place], moved] = [by, true];
        }
      }
    }
    expect([...cavity.place].sort((a, b) => a - b)).toEqual(
      [...cost.keys()].filter((k) => cost[k]! < Infinity),
    );
    for (let cell = 1; cell < cavity.count; cell++) {
      expect(cost[cavity.place[cell]!]!).toBeGreaterThanOrEqual(cost[cavity.place[cell - 1]!]! - 1e-12);
    }
    expect(cavity.gate.map((cell) => cavity.place[cell])).toEqual(gate);
  });

  test('a rim is half as high as its highest neighbour at least, the inside as high as it is', () => {
    const map = open(drawn('19999', '19199', '11999'));
    const { gap, cellAt } = cutCavity(map, [4]);
    const at = (place: number) => gap[cellAt[place]!]!;
    expect(at(0)).toBeCloseTo(4.5 * MM, 12);
    expect(at(1)).toBeCloseTo(9 * MM, 12);
    expect(at(5)).toBeCloseTo(4.5 * MM, 12);
    // In the middle of the plan, beside nothing but cavity.
    expect(at(7)).toBeCloseTo(1 * MM, 12);
    // Beside 1 mm only.
    expect(at(10)).toBeCloseTo(1 * MM, 12);
  });

  test('the gap is the smaller of height and local thickness, or of height and plan width', () => {
    const map = drawn('555', '555', '555');
    const thickness = Float64Array.from([2, 2, 2, 2, 3, 2, 2, 2, 0], (mm) => mm * MM);
    const gapOf = (of: CavityMap, place: number) => {
      const { gap, cellAt } = cutCavity(of, [1]);
      return gap[cellAt[place]!]!;
    };
    expect(gapOf({ ...map, thickness }, 4)).toBeCloseTo(3 * MM, 12);
    expect(gapOf({ ...map, thickness }, 1)).toBeCloseTo(2 * MM, 12);
    // No thickness there: the plan is 3 mm wide.
    expect(gapOf({ ...map, thickness }, 8)).toBeCloseTo(3 * MM, 12);
    expect(gapOf(map, 4)).toBeCloseTo(3 * MM, 12);
    expect(gapOf({ ...map, thickness: thickness.map(() => 9 * MM) }, 4)).toBeCloseTo(5 * MM, 12);
  });

  // Hele-Shaw: h·g²/12 a metre of width; an oval of axes h and w conducts 1/(1 + (h/w)²) of that.
  test.each([
    {
      name: 'a slot without side walls',
      width: 1,
      height: 2,
      thickness: undefined,
      open: 8 / 12,
      flatness: 2e-3,
    },
    {
      name: 'an oval twice as wide as high',
      width: 4e-3,
      height: 2,
      thickness: undefined,
      open: 8 / 12 / 1.25,
      flatness: 0.5,
    },
    {
      name: 'a rib twice as high as wide',
      width: 2e-3,
      height: 4,
      thickness: 2,
      open: (4 * 4) / 12 / 1.25,
      flatness: 0.5,
    },
    {
      name: 'no section is narrower than its thickness',
      width: 1e-3,
      height: 4,
      thickness: 2,
      open: (4 * 4) / 12 / 1.25,
      flatness: 0.5,
    },
    {
      name: 'nor than a cell',
      width: 0.1e-3,
      height: 4,
      thickness: undefined,
      open: (4 * 0.01) / 12 / (1 + 1 / 16),
      flatness: 0.25,
    },
  ])('$name', ({ width, height, thickness, open: conductance, flatness }) => {
    const map: CavityMap = {
      ...drawn(String(height)),
      width: Float64Array.of(width),
      ...(thickness && { thickness: Float64Array.of(thickness * MM) }),
    };
    const cavity = cutCavity(map, [0]);
    expect(cavity.open[0]! / (conductance * MM ** 3)).toBeCloseTo(1, 5);
    const [flat, round, own] = [Math.PI ** 2 / 4, ellipseEigenvalue(1), ellipseEigenvalue(flatness)];
    expect(cavity.roundness[0]).toBeCloseTo((1 / flat - 1 / own) / (1 / flat - 1 / round), 12);
  });

  test('a rim that counts as thicker than it is high conducts by its gap', () => {
    const { open: conductance, cellAt } = cutCavity(open(drawn('18')), [1]);
    expect(conductance[cellAt[0]!]! / (4 ** 3 / 12) / MM ** 3).toBeCloseTo(1, 5);
  });

  test('gate entries outside the cavity do not count; none at all is refused', () => {
    const map = drawn('.11');
    expect(cutCavity(map, [0, 2]).gate).toEqual([0]);
    expect([...cutCavity(map, [0, 2]).place]).toEqual([2, 1]);
    expect(() => cutCavity(map, [0])).toThrow(
      'cutCavity: gate cells in the cavity: wants a number from 1 to 3, got 0',
    );
    expect(() => cutCavity({ ...map, cell: 0 }, [1])).toThrow('cutCavity: cell: wants');
  });
});

describe('gate entries', () => {
  const map = drawn('........', '..1221..', '.123321.', '.123321.', '..1221..', '........');

  test.each([
    { at: 'nose', width: 1e-3, depth: 1e-3, entries: [17, 25] },
    { at: 'nose', width: 1e-3, depth: 1.5e-3, entries: [18, 26] },
    { at: 'nose', width: 1e-3, depth: 2.5e-3, entries: [19, 27] },
    { at: 'tail', width: 1e-3, depth: 1e-3, entries: [22, 30] },
    { at: 'tail', width: 1e-3, depth: 2e-3, entries: [21, 29] },
    // Two lines on each side of its middle rather than one: 4 mm and 2 mm are as far from 3 mm.
    { at: 'nose', width: 3e-3, depth: 2e-3, entries: [11, 18, 26, 35] },
    { at: 'nose', width: 2.9e-3, depth: 2e-3, entries: [18, 26] },
  ] as const)(
    'of a cavity that is its own mirror image, alike on both sides: $at, $width m wide, $depth m deep',
    ({ at, width, depth, entries }) => {
      expect(gateEntries(map, { at, width, depth })).toEqual(entries);
    },
  );

  test('of another one, lines on each side of the line that it begins on', () => {
    const unlike = drawn('........', '..1221..', '.123321.', '.123331.', '..1221..', '........');
    // The lower of the two lines that begin alike; round((3 − 1)/2) to each side of it.
    expect(gateEntries(unlike, { at: 'nose', width: 1e-3, depth: 1e-3 })).toEqual([17]);
    expect(gateEntries(unlike, { at: 'nose', width: 3e-3, depth: 2e-3 })).toEqual([11, 18, 26]);
  });

  test('a gate wider than the bait takes every line that has cavity', () => {
    // Depth 3 mm is met by the middle two lines alone; the others give their highest entry nearest the tail.
    expect(gateEntries(map, { at: 'tail', width: 20e-3, depth: 3e-3 })).toEqual([12, 20, 28, 36]);
  });

  test('a side gate runs from high y down, on the line through the middle of the volume', () => {
    const bed = drawn('.....', '12321', '.121.', '.....');
    // The middle of the volume is line 2; from the top, row 2 is 2 mm high there and row 1 is 3 mm.
    expect(gateEntries(bed, { at: 'side', width: 1e-3, depth: 1e-3 })).toEqual([12]);
    expect(gateEntries(bed, { at: 'side', width: 1e-3, depth: 3e-3 })).toEqual([7]);
    const heavy = drawn('1111', '1119');
    // Moment (2·(0 + 1 + 2) + 3 + 27)/15 = 2.4: line 2.
    expect(gateEntries(heavy, { at: 'side', width: 1e-3, depth: 1e-3 })).toEqual([6]);
    expect(gateEntries(heavy, { at: 'side', width: 3e-3, depth: 1e-3 })).toEqual([5, 6, 7]);
    expect(gateEntries(heavy, { at: 'side', width: 9e-3, depth: 1e-3 })).toEqual([4, 5, 6, 7]);
  });

  test('the nose is where the cavity begins, wherever that line lies', () => {
    expect(gateEntries(drawn('...1', '.111', '..11'), { at: 'nose', width: 1e-3, depth: 1e-3 })).toEqual([5]);
    expect(gateEntries(drawn('1...', '111.', '11..'), { at: 'tail', width: 1e-3, depth: 1e-3 })).toEqual([6]);
    // Two lines begin alike: the lower of the middle pair.
    expect(gateEntries(drawn('.11', '111', '111'), { at: 'nose', width: 1e-3, depth: 1e-3 })).toEqual([3]);
    expect(gateEntries(drawn('111', '111', '111'), { at: 'nose', width: 1e-3, depth: 1e-3 })).toEqual([3]);
  });

  test('reaches in no further than three times its larger measure, and not over a gap', () => {
    const steps = drawn('1111111112');
    expect(gateEntries(steps, { at: 'nose', width: 1e-3, depth: 2e-3 })).toEqual([0]);
    expect(gateEntries(steps, { at: 'nose', width: 3.3e-3, depth: 2e-3 })).toEqual([9]);
    expect(gateEntries(steps, { at: 'nose', width: 3e-3, depth: 2e-3 })).toEqual([0]);
    const apart = drawn('121.9');
    expect(gateEntries(apart, { at: 'nose', width: 9e-3, depth: 5e-3 })).toEqual([1]);
    expect(gateEntries(apart, { at: 'nose', width: 1e-5, depth: 1e-5 })).toEqual([0]);
    expect(gateEntries(drawn('.12'), { at: 'nose', width: 1e-5, depth: 1e-5 })).toEqual([1]);
    expect(gateEntries(drawn('1222'), { at: 'nose', width: 1e-3, depth: 9e-3 })).toEqual([1]);
  });

  test('an empty map and a gate without measure are refused', () => {
    expect(() => gateEntries(drawn('..'), { at: 'nose', width: 1e-3, depth: 1e-3 })).toThrow(
      'gateEntries: highest',
    );
    expect(() => gateEntries(map, { at: 'nose', width: 1e-3, depth: 0 })).toThrow('gateEntries: depth');
    expect(() => gateEntries(map, { at: 'nose', width: 0, depth: 1e-3 })).toThrow('gateEntries: width');
  });
});

describe('cells of a feature', () => {
  const flat = drawn('1111111', '1111111', '1111111', '1111111', '1111111');
  const cavity = cutCavity({ ...flat, y0: -2e-3 }, [14]);
  const station = (s: number, at: readonly [number, number], width: number) => ({
    ...{ s: s * MM, thickness: 1e-3, width: width * MM },
    at: [at[0] * MM, at[1] * MM, 0] as const,
  });
  const placesOf = (stations: ReturnType<typeof station>[]) => {
    const { cells, root, name } = featureCells(cavity, { name: 'tail', stations });
    expect(name).toBe('tail');
    const places = (of: readonly number[]) => of.map((cell) => cavity.place[cell]!);
    return {
      cells: places(cells).sort((a, b) => a - b),
      ordered: places(cells),
      root: places(root).sort((a, b) => a - b),
    };
  };

  test('lie within half its width and half a cell of its middle line, none before its root', () => {
    const straight = placesOf([station(0, [2, 0], 1), station(4, [6, 0], 1)]);
    // Half a width and half a cell: 1 mm to each side, x from 2 mm on; the root is the first two cells.
    const columns = [2, 3, 4, 5, 6];
    expect(straight.cells).toEqual([1, 2, 3].flatMap((row) => columns.map((x) => 7 * row + x)));
    expect(straight.root).toEqual([1, 2, 3].flatMap((row) => [2, 3, 4].map((x) => 7 * row + x)));
    expect(straight.ordered.map((place) => place % 7)).toEqual(columns.flatMap((x) => [x, x, x]));
  });

  test('a tapering one keeps half of its width where the cell is', () => {
    // Half widths and half a cell: 2.5 mm at x = 0, 1.5 mm at 3, 0.5 mm at 6.
    const { cells } = placesOf([station(0, [0, 0], 4), station(6, [6, 0], 0)]);
    const within = (place: number) => Math.abs(Math.floor(place / 7) - 2) <= 2.5 - (place % 7) / 3 + 1e-9;
    expect(cells).toEqual([...flat.height.keys()].filter(within));
  });

  test('a bend and a slanted line are followed, and the tip is rounded off', () => {
    const { cells, ordered } = placesOf([
      station(0, [1, -2], 0),
      station(2, [1, 0], 0),
      station(5, [4, 0], 0),
    ]);
    expect(cells).toEqual([1, 8, 15, 16, 17, 18]);
    expect(ordered).toEqual([1, 8, 15, 16, 17, 18]);
    const slanted = placesOf([station(0, [0, -2], 0), station(5.7, [4, 2], 0)]);
    expect(slanted.cells).toEqual([0, 8, 16, 24, 32]);
  });

  test('stations in one place and none at all give what they can', () => {
    expect(placesOf([station(0, [3, 0], 0), station(0, [3, 0], 0)]).cells).toEqual([17]);
    expect(placesOf([]).cells).toEqual([]);
    expect(placesOf([station(0, [3, 0], 9)]).cells).toEqual([]);
  });
});

describe('a grid of twice the pitch', () => {
  test('thickness and width are the means of what lies in the cavity; an odd edge stands alone', () => {
    const map: CavityMap = {
      ...{ ...drawn('24.', '6.1', '8.3'), x0: 1e-3, y0: 2e-3 },
      thickness: Float64Array.from([1, 2, 9, 3, 9, 4, 5, 9, 6], (mm) => mm * MM),
      width: Float64Array.from([3, 6, 9, 9, 9, 2, 1, 9, 7], (mm) => mm * MM),
    };
    const coarse = coarsened({ map, gate: [0, 1, 3, 6] });
    expect(coarse.gate).toEqual([0]);
    expect(coarse.map).toMatchObject({ nx: 2, ny: 2, x0: 1.5e-3, y0: 2.5e-3, cell: 2e-3 });
    const mm = (values: Float64Array | undefined) =>
      [...values!].map((value) => Math.round(value * 1e6) / 1e3);
    expect(mm(coarse.map.height)).toEqual([4, 0, 0, 0]);
    expect(mm(coarse.map.thickness)).toEqual([2, 0, 0, 0]);
    expect(mm(coarse.map.width)).toEqual([6, 0, 0, 0]);
  });

  test('without widths and thicknesses the plan’s own widths are taken, and no thickness', () => {
    const map = drawn('1111', '1111');
    const coarse = coarsened({ map, gate: [0] });
    const own = planWidths(map);
    expect([...coarse.map.width!]).toEqual([
      (own[0]! + own[1]! + own[4]! + own[5]!) / 4,
      (own[2]! + own[3]! + own[6]! + own[7]!) / 4,
    ]);
    expect(coarse.map.thickness).toBeUndefined();
  });

  test('blocks of two cells stay, also beside the last row', () => {
    const coarse = coarsened({ map: open(drawn('11.', '..1', '111')), gate: [8, 6, 2] });
    // Blocks: 2 cells, 1 cell, 2 cells, 1 cell.
    expect([...coarse.map.height].map((height) => height > 0)).toEqual([true, false, true, false]);
    expect(coarse.gate).toEqual([2]);
  });
});
