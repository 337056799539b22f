import type { Vec2 } from '../core/mesh/mesh.ts';

/** Sizes of a hook [m]: gape between point and shank, overall length, bite from point to bend, wire diameter. */
export interface HookSizes {
  readonly gape: number;
  readonly length: number;
  readonly bite: number;
  readonly wire: number;
}

/** How the hook lies in the bait. */
export type HookLie = 'weedless' | 'threaded' | 'through the nose';

/** The body that a hook lies in: where the nose is, and its belly and back at a station [m]. */
export interface HookedBody {
  readonly nose: Vec2;
  readonly bellyAt: (x: number) => number;
  readonly backAt: (x: number) => number;
}

/** A generic hook: middle line of its wire from eye to point, and its eye [m]. */
export interface HookShape {
  readonly line: readonly Vec2[];
  readonly eye: { readonly at: Vec2; readonly radius: number };
  readonly point: Vec2;
  /** Where the shank lies against the point, for the gape [m]. */
  readonly shank: Vec2;
  /** The end of the bend. */
  readonly bend: Vec2;
}

/** Half an ellipse from the shank round the bend to the point: depth `bite`, height `gape`. */
function bendLine([x, y]: Vec2, { gape, bite }: HookSizes): Vec2[] {
  return Array.from({ length: 25 }, (_, step): Vec2 => {
    const angle = -Math.PI / 2 + (Math.PI * step) / 24;
    return [x + bite * Math.cos(angle), y + (gape / 2) * (1 + Math.sin(angle))];
  });
}

/** Eye in the nose, a step down through the belly, the shank along it, the point back up into the body. */
function weedless(sizes: HookSizes, { nose, bellyAt }: HookedBody): Vec2[] {
  const { length, bite, wire } = sizes;
  const under = [0.3, 0.45, 0.6, 0.75].map((share) => bellyAt(nose[0] + share * length));
  const level = Math.min(...under) - wire / 2;
  const step: Vec2[] = [
    nose,
    [nose[0] + 0.07 * length, nose[1]],
    [nose[0] + 0.1 * length, nose[1] + 0.25 * (level - nose[1])],
    [nose[0] + 0.15 * length, nose[1] + 0.85 * (level - nose[1])],
    [nose[0] + 0.19 * length, level],
  ];
  return [...step, ...bendLine([nose[0] + length - bite, level], sizes)];
}

/** Shank along the middle of the body from an eye ahead of the nose, the point out of the back. */
function threaded(sizes: HookSizes, { nose }: HookedBody): Vec2[] {
  const eye: Vec2 = [nose[0] - 0.06 * sizes.length, nose[1]];
  return [eye, ...bendLine([eye[0] + sizes.length - sizes.bite, nose[1]], sizes)];
}

/** Shank upright ahead of the nose, the bend below it, the point up through chin and snout. */
function throughNose(sizes: HookSizes, { nose, bellyAt, backAt }: HookedBody): Vec2[] {
  const x = nose[0] + 0.25 * sizes.gape;
  const out = 0.25 * Math.max(backAt(x) - bellyAt(x), sizes.wire);
  const point: Vec2 = [x, Math.max(backAt(x) + out, nose[1])];
  const upright = bendLine([0, 0], sizes).map(([s, t]): Vec2 => [point[0] - sizes.gape + t, point[1] - s]);
  const eye: Vec2 = [point[0] - sizes.gape, point[1] + sizes.length - sizes.bite];
  return [eye, ...upright];
}

const LIES = { weedless, threaded, 'through the nose': throughNose } as const;

/**
 * A generic hook in a bait. No hook has a dimensional standard: the form is drawn from gape, length, bite and wire only.
 *
 * @param sizes - of the hook [m]
 * @param lie - how it is rigged
 * @param body - of the bait [m]
 */
export function hookShape(sizes: HookSizes, lie: HookLie, body: HookedBody): HookShape {
  const line = LIES[lie](sizes, body);
  const start = line[0] ?? body.nose;
  const point = line.at(-1) ?? start;
  const bend = line.at(-13) ?? point;
  const shank = line.at(-25) ?? start;
  return { line, eye: { at: start, radius: 1.6 * sizes.wire }, point, shank, bend };
}

/**
 * The wire as an area: the middle line with its width, drawn out to a tip over the last eighth.
 *
 * @param line - middle line [m or mm]
 * @param width - of the wire, same unit
 */
export function wireRing(line: readonly Vec2[], width: number): Vec2[] {
  const steps = line.map((point, index) => {
    const before = line[index - 1] ?? point;
    return Math.hypot(point[0] - before[0], point[1] - before[1]);
  });
  const total = steps.reduce((sum, step) => sum + step, 0);
  let gone = 0;
  const sides = line.map((point, index): [Vec2, Vec2] => {
    gone += steps[index] ?? 0;
    const [a, b] = [line[index - 1] ?? point, line[index + 1] ?? point];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    const half = (width / 2) * Math.min(1, (8 * (total - gone)) / total + 0.05);
    const [nx, ny] = [(-(b[1] - a[1]) / length) * half, ((b[0] - a[0]) / length) * half];
    return [
      [point[0] + nx, point[1] + ny],
      [point[0] - nx, point[1] - ny],
    ];
  });
  return [...sides.map(([one]) => one), ...sides.map(([, other]) => other).reverse()];
}
