import type { Vec2 } from '../../src/core/mesh/mesh.ts';
import type { BaitGeometry, FeatureMeasure, Outline } from '../../src/core/section/geometry.ts';
import type { SeenEdges } from '../../src/core/section/seen-edges.ts';
import type { Cut } from '../../src/drawing/bait-facts.ts';

/** A curl-tail grub made of closed forms [m]: an ellipse of revolution, then a strip that curls and thins. */
export const BODY = { length: 0.07, radius: 0.008 };
export const TAIL = { length: 0.075, root: 0.0032, tip: 0.0009, width: 0.011, turn: 4.1 };

const STEPS = 60;

function bodyRadius(x: number): number {
  const t = (2 * x) / BODY.length - 1;
  return BODY.radius * Math.sqrt(Math.max(0, 1 - t * t));
}

/** Middle line of the tail: straight back at first, then turning. */
export function tailLine(): { at: Vec2; heading: number; s: number }[] {
  let at: Vec2 = [BODY.length * 0.93, 0];
  const line = [];
  for (let step = 0; step <= STEPS; step++) {
    const share = step / STEPS;
    const heading = TAIL.turn * share * share;
    line.push({ at, heading, s: share * TAIL.length });
    const ds = TAIL.length / STEPS;
    at = [at[0] + ds * Math.cos(heading), at[1] + ds * Math.sin(heading)];
  }
  return line;
}

const tailThickness = (s: number) => TAIL.root + ((TAIL.tip - TAIL.root) * s) / TAIL.length;
const tailWidth = (s: number) => TAIL.width * Math.sin(Math.PI * (0.25 + (0.68 * s) / TAIL.length));

function plan(): Outline {
  const xs = Array.from(
    { length: STEPS + 1 },
    (_, step) => (BODY.length * 0.93 * (1 - Math.cos((Math.PI * step) / STEPS))) / 2,
  );
  const side = (sign: number): Vec2[] => [
    ...xs.map((x): Vec2 => [x, sign * bodyRadius(x)]),
    ...tailLine().map(({ at, heading, s }): Vec2 => [
      at[0] - (sign * Math.sin(heading) * tailWidth(s)) / 2,
      at[1] + (sign * Math.cos(heading) * tailWidth(s)) / 2,
    ]),
  ];
  return [[...side(-1), ...side(1).slice(1).reverse()]];
}

function across(): Outline {
  const end = Math.max(
    ...plan()
      .flat()
      .map(([x]) => x),
  );
  const height = (x: number) =>
    Math.max(bodyRadius(Math.min(x, BODY.length)), x > 0.06 ? tailThickness(x - 0.06) / 2 : 0);
  const xs = Array.from({ length: 121 }, (_, step) => (end * (1 - Math.cos((Math.PI * step) / 120))) / 2);
  const upper = xs.map((x): Vec2 => [x, height(x)]);
  return [[...xs.map((x): Vec2 => [x, -height(x)]), ...upper.slice(1).reverse()]];
}

function ellipse(a: number, b: number, y = 0): Vec2[] {
  return Array.from({ length: 72 }, (_, step): Vec2 => {
    const angle = (2 * Math.PI * step) / 72;
    return [y + a * Math.cos(angle), b * Math.sin(angle)];
  });
}

function tail(): FeatureMeasure {
  const line = tailLine();
  return {
    name: 'tail',
    kind: 'curl-tail',
    length: TAIL.length,
    stations: line.map(({ at, s }) => ({
      s,
      thickness: tailThickness(s),
      width: tailWidth(s),
      at: [at[0], at[1], 0],
    })),
    rootThickness: TAIL.root,
    tipThickness: TAIL.tip,
    thinnest: { thickness: TAIL.tip, at: [line.at(-1)!.at[0], line.at(-1)!.at[1], 0] },
  };
}

/** The grub as it is measured; its mesh is not needed by drawings. */
export function grub(): Pick<BaitGeometry, 'plan' | 'across' | 'box' | 'features' | 'thickest'> {
  const [flat, upright] = [plan(), across()];
  const ys = flat.flat().map(([, y]) => y);
  const xs = flat.flat().map(([x]) => x);
  return {
    plan: flat,
    across: upright,
    box: { min: [0, Math.min(...ys), -BODY.radius], max: [Math.max(...xs), Math.max(...ys), BODY.radius] },
    features: [tail()],
    thickest: { thickness: 2 * BODY.radius, at: [BODY.length / 2, 0, 0] },
  };
}

/** Section areas of the grub's body: circles of an ellipse of revolution. */
export function grubAreas(): BaitGeometry['areaCurve'] {
  const end = grub().box.max[0];
  return Array.from({ length: 128 }, (_, slice) => {
    const x = ((slice + 0.5) * end) / 128;
    return { x, area: Math.PI * bodyRadius(x) ** 2 };
  });
}

/** Cross-sections of the grub: through the middle of the body, and through the tail where it leaves the body. */
export function grubCuts(): Cut[] {
  const behind = 0.08;
  const s = behind - 0.06;
  return [
    { x: BODY.length / 2, outline: [ellipse(BODY.radius, BODY.radius)] },
    { x: behind, outline: [ellipse(tailWidth(s) / 2, tailThickness(s) / 2)] },
  ];
}

/** The grub and its title block, ready to draw. */
/** Ribs across the body every 4 mm, and an eye that hides a little of what is behind it [m]. */
export function grubEdges(): { readonly plan: SeenEdges; readonly across: SeenEdges } {
  const across = (x: number): Vec2[] => [
    [x, -bodyRadius(x)],
    [x, bodyRadius(x)],
  ];
  const eye = Array.from({ length: 25 }, (_, i): Vec2 => {
    const angle = (2 * Math.PI * i) / 24;
    return [0.01 + 0.0015 * Math.cos(angle), 0.003 + 0.0015 * Math.sin(angle)];
  });
  const grooves = [0.02, 0.024, 0.028, 0.032].map(across);
  const plan = { contours: [], ridges: [0.0204, 0.0264].map(across), grooves };
  return { plan, across: { ...plan, contours: [eye] } };
}

export const GRUB_TITLE = {
  owner: 'Thistledown Tooling',
  number: 'TT-GRUB-4',
  revision: 'c',
  date: '2026-03-14',
  title: 'Curl-tail grub, 4 in',
  documentType: 'Bait drawing',
} as const;

/** Thickness over the plan of the grub [m]: chord of the body, else of the tail; 0 beside it. */
export function grubGrid(cell = 0.0007) {
  const { box } = grub();
  const [x0, y0] = [box.min[0] + cell / 2, box.min[1] + cell / 2];
  const nx = Math.ceil((box.max[0] - box.min[0]) / cell);
  const ny = Math.ceil((box.max[1] - box.min[1]) / cell);
  const line = tailLine();
  const values = Float64Array.from({ length: nx * ny }, (_, place) => {
    const [x, y] = [x0 + (place % nx) * cell, y0 + Math.floor(place / nx) * cell];
    const chord = bodyRadius(x) ** 2 - y ** 2;
    const near = line.reduce((best, point) =>
      Math.hypot(point.at[0] - x, point.at[1] - y) < Math.hypot(best.at[0] - x, best.at[1] - y)
        ? point
        : best,
    );
    const inTail = Math.hypot(near.at[0] - x, near.at[1] - y) <= tailWidth(near.s) / 2;
    const inBody = x < BODY.length && chord > 0;
    return Math.max(inBody ? 2 * Math.sqrt(chord) : 0, inTail ? tailThickness(near.s) : 0);
  });
  return { nx, ny, x0, y0, cell, values };
}

/** A mold of two grubs side by side, laid out by hand [m]. */
export function grubMold() {
  const at = (y: number) => {
    const outline = plan().map((ring) => ring.map(([u, v]): Vec2 => [0.026 + u, y + v]));
    return {
      x: 0.026,
      y,
      turn: 0,
      mirrored: false,
      outline,
      gate: { at: [0.026, y] as const, out: [-1, 0] as const },
    };
  };
  const ys = [0.022, 0.072] as const;
  const mold = {
    block: { length: 0.15, width: 0.12, thickness: 0.032 },
    sprue: { mouth: 0.011, end: 0.007, length: 0.014 },
    runner: { diameter: 0.006 },
    gate: { width: 0.004, depth: 0.003, length: 0.003, at: 'nose' },
    vents: [
      { tier: 'edge', depth: 0.0000381, width: 0.005, land: 0.002, count: 1 },
      { tier: 'collector', depth: 0.0002, width: 0.003, land: 0.004, count: 1 },
      { tier: 'outlet', depth: 0.0005, width: 0.004, land: 0.015, count: 1 },
    ],
    pins: { count: 2, diameter: 0.006 },
  } as const;
  const vent = (tier: 'edge' | 'collector' | 'outlet', cavity: number, from: Vec2, to: Vec2) => {
    const { depth, width } = mold.vents.find((one) => one.tier === tier)!;
    return { tier, depth, width, cavity, from, to, open: tier === 'outlet' } as const;
  };
  const layout = {
    cavities: ys.map(at),
    runner: [{ from: [0.02, ys[0]] as const, to: [0.02, ys[1]] as const }],
    runnerLength: ys[1] - ys[0],
    gates: ys.map((y) => ({ from: [0.023, y] as const, to: [0.026, y] as const, width: mold.gate.width })),
    sprue: { mouth: [0, 0.047] as const, end: [0.014, 0.047] as const },
    vents: ys.flatMap((y, cavity) => [
      vent('edge', cavity, [0.1325, y + 0.016], [0.1345, y + 0.016]),
      vent('collector', cavity, [0.1345, y + 0.016], [0.1385, y + 0.016]),
      vent('outlet', cavity, [0.1385, y + 0.016], [0.15, y + 0.016]),
    ]),
    pins: [
      { at: [0.006, 0.006] as const, diameter: 0.006, depth: 0.012 },
      { at: [0.144, 0.114] as const, diameter: 0.006, depth: 0.012 },
    ],
    notes: [],
  };
  return { layout, mold };
}

/** The grub's mold cut across at the middle of the bodies: (y, z) [m]. */
export function grubMoldSection() {
  const { mold, layout } = grubMold();
  const half = mold.block.thickness / 2;
  const arc = (y: number, sign: number): Vec2[] =>
    Array.from({ length: 37 }, (_, step): Vec2 => {
      const angle = Math.PI * (1 - step / 36);
      return [y + BODY.radius * Math.cos(angle), sign * BODY.radius * Math.sin(angle)];
    });
  const ys = layout.cavities.map(({ y }) => y);
  const metal = (sign: number): Vec2[] => [
    [0, 0],
    ...ys.flatMap((y) => arc(y, sign)),
    [mold.block.width, 0],
    [mold.block.width, sign * half],
    [0, sign * half],
  ];
  return {
    lower: [metal(-1)],
    upper: [metal(1)],
    plastic: ys.map((y) => ellipse(BODY.radius, BODY.radius, y)),
  };
}

/** A hook for the grub [m]. */
export const HOOK = { gape: 0.0143, length: 0.05, bite: 0.012, wire: 0.0012, offset: 0.006 } as const;
