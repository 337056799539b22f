import type { Vec2 } from '../../src/core/mesh/mesh.ts';
import type { Outline } from '../../src/core/section/geometry.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';

/** Four capsules of 100 × 10 mm in a block of 150 × 110 × 40 mm, laid out by hand [m]. */
const ROWS = [0.02, 0.043, 0.067, 0.09];
const [NOSE, RADIUS, BLOCK] = [0.035, 0.005, { length: 0.15, width: 0.11, half: 0.02 }];

const circle = (y: number): Vec2[] =>
  Array.from({ length: 48 }, (_, step): Vec2 => {
    const angle = (2 * Math.PI * step) / 48;
    return [y + RADIUS * Math.cos(angle), RADIUS * Math.sin(angle)];
  });

/** One half cut across: a rectangle with a half round groove for each capsule. */
function metal(side: 1 | -1): Outline {
  const grooves = ROWS.flatMap((y) =>
    Array.from({ length: 25 }, (_, step): Vec2 => {
      const angle = Math.PI * (1 - step / 24);
      return [y + RADIUS * Math.cos(angle), side * RADIUS * Math.sin(angle)];
    }),
  );
  return [[[0, 0], ...grooves, [BLOCK.width, 0], [BLOCK.width, side * BLOCK.half], [0, side * BLOCK.half]]];
}

/** What the halves of the fake sheet's mold tell, around the outline of its bait. */
export function fakeHalves(plan: Outline, volume: number): Sheet['halves'] {
  const cavities = ROWS.map((y) => ({
    x: NOSE,
    y,
    turn: 0,
    mirrored: false,
    outline: plan.map((ring) => ring.map(([u, v]): Vec2 => [NOSE + u, y + v])),
    gate: { at: [NOSE, y] as const, out: [-1, 0] as const },
  }));
  const block = BLOCK.length * BLOCK.width * 2 * BLOCK.half;
  const hollow = {
    cavities: 4 * volume,
    gates: 96e-9,
    runner: 2.5e-6,
    sprue: 1e-6,
    vents: { edge: 1e-9, collector: 0, outlet: 1e-7 },
    pins: 1e-6,
  };
  return {
    layout: {
      cavities,
      runner: [{ from: [0.029, ROWS[0]!], to: [0.029, ROWS[3]!] }],
      runnerLength: 0.07,
      gates: ROWS.map((y) => ({ from: [0.032, y], to: [NOSE, y], width: 0.004 })),
      sprue: { mouth: [0, 0.055], end: [0.02, 0.055] },
      vents: ROWS.flatMap((y, cavity) => [
        { tier: 'edge', depth: 38e-6, width: 0.006, cavity, open: false, from: [0.135, y], to: [0.138, y] },
        { tier: 'outlet', depth: 0.5e-3, width: 0.006, cavity, open: true, from: [0.138, y], to: [0.15, y] },
      ]),
      pins: [
        { at: [0.01, 0.01], diameter: 0.006, depth: 0.012 },
        { at: [0.01, 0.1], diameter: 0.006, depth: 0.012 },
      ],
      notes: [],
    },
    block,
    metal: block - 4 * volume - 4.697e-6,
    hollow,
    cut: {
      metal: block / 2 - 2 * volume - 2.399e-6,
      besides: 2.399e-6,
      baits: 2 * volume,
      merged: 4 * volume,
    },
    shown: { positions: new Float64Array(), triangles: new Uint32Array() },
    section: { x: 0.085, lower: metal(-1), upper: metal(1), plastic: ROWS.map((y) => circle(y)) },
  };
}

/** Wall thickness over the plan of the fake sheet's bait: the chord of its capsule. */
export function fakeWalls(length: number, radius: number): Sheet['walls'] {
  const cell = 0.001;
  const [nx, ny] = [Math.round(length / cell), Math.round((2 * radius) / cell)];
  const [x0, y0] = [cell / 2, cell / 2 - radius];
  const values = Float64Array.from({ length: nx * ny }, (_, place) => {
    const [x, y] = [x0 + (place % nx) * cell, y0 + Math.floor(place / nx) * cell];
    const beyond = Math.max(radius - x, x - (length - radius), 0);
    return 2 * Math.sqrt(Math.max(0, radius ** 2 - y ** 2 - beyond ** 2));
  });
  return { nx, ny, x0, y0, cell, values };
}
