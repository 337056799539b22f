import type { Vec2 } from '../mesh/mesh.ts';
import { need, needPositive } from '../quantity/guard.ts';
import type { SideBody } from './side-body.ts';

/** Sizes of a hook [m]. */
export interface HookSizes {
  /** Point to shank. */
  readonly gape: number;
  /** Eye to the end of the bend. */
  readonly length: number;
  /** Throat: from the point's tip to the end of the bend, along the shank. */
  readonly bite: number;
  /** Wire diameter. */
  readonly wire: number;
  /** Eye to where the bend begins; length less bite when left out. */
  readonly shank?: number | undefined;
  /** How far the shank steps down from the eye; 0 of a straight one. */
  readonly offset?: number | undefined;
}

/** How the hook lies in the bait. */
export type HookLie = 'weedless' | 'threaded' | 'through the nose';

/** A hook lying in a body, in the frame of its side section [m]. */
export interface HookForm {
  readonly lie: HookLie;
  /** Middle line of the wire from eye to point. */
  readonly line: readonly Vec2[];
  readonly eye: { readonly at: Vec2; readonly radius: number };
  readonly point: Vec2;
  /** Foot of the gape: the shank square to the point. */
  readonly foot: Vec2;
  /** The end of the bend. */
  readonly bend: Vec2;
  /** How far the eye would have to leave the nose for the body to lie straight [m]; 0 when it lies straight. */
  readonly strain: number;
}

/** Sizes with nothing left out. */
type Whole = Required<{ [Key in keyof HookSizes]: number }>;

function whole(sizes: HookSizes): Whole {
  const { gape, length, bite, wire } = sizes;
  const shank = sizes.shank ?? length - bite;
  const offset = sizes.offset ?? 0;
  needPositive('hookForm', { gape, length, bite, wire, shank });
  need(
    bite < length && shank < length,
    'hookForm',
    'shank and throat shorter than the hook',
    `${shank}, ${bite}`,
  );
  need(offset >= 0, 'hookForm', 'an offset of 0 or more', offset);
  return { gape, length, bite, wire, shank, offset };
}

const STEPS = 24;

/** The bend from the shank round to the point: two quarter ellipses, `length − shank` and `bite` deep. */
function bendLine({ gape, length, bite, shank }: Whole): Vec2[] {
  return Array.from({ length: STEPS + 1 }, (_, step): Vec2 => {
    const angle = -Math.PI / 2 + (Math.PI * step) / STEPS;
    const depth = angle < 0 ? length - shank : bite;
    const from = length - depth;
    return [from + depth * Math.cos(angle), (gape / 2) * (1 + Math.sin(angle))];
  });
}

interface Laid {
  readonly line: Vec2[];
  readonly foot: Vec2;
  readonly strain: number;
}

const shifted = (line: readonly Vec2[], [x, y]: Vec2): Vec2[] => line.map(([u, v]) => [x + u, y + v]);

/** Eye in the nose, a step down through the belly, the shank along it, the point back up into the body. */
function weedless(sizes: Whole, body: SideBody, start: number): Laid {
  const { length, wire, offset, bite } = sizes;
  const x = body.nose[0] + start;
  const under = [0.3, 0.45, 0.6, 0.75].map((share) => body.bellyAt(x + share * length));
  const level = Math.min(...under) - wire / 2;
  const [low, high] = [body.bellyAt(x + 0.05 * length) + wire, body.backAt(x + 0.05 * length) - wire];
  const wanted = level + offset;
  const eye = Math.min(Math.max(wanted, Math.min(low, high)), Math.max(low, high));
  const drop = eye - level;
  const step: Vec2[] = [
    [0, drop],
    [0.07 * length, drop],
    [0.1 * length, 0.75 * drop],
    [0.15 * length, 0.15 * drop],
    [0.19 * length, 0],
  ];
  return {
    line: shifted([...step, ...bendLine(sizes)], [x, level]),
    foot: [x + length - bite, level],
    strain: Math.abs(wanted - eye),
  };
}

/** Shank along the middle of the body from an eye ahead of it, the point out of the back. */
function threaded(sizes: Whole, body: SideBody, start: number): Laid {
  const { length, bite } = sizes;
  const x = body.nose[0] + start;
  const level = (body.bellyAt(x + 0.05 * length) + body.backAt(x + 0.05 * length)) / 2;
  const eye = x - EYE_AHEAD * length;
  return {
    line: shifted([[0, 0], ...bendLine(sizes)], [eye, level]),
    foot: [eye + length - bite, level],
    strain: 0,
  };
}

/** Part of a threaded hook that stays ahead of the bait, for the head [share of its length]. */
export const EYE_AHEAD = 0.06;

/** Shank upright ahead of the nose, the bend below it, the point up through chin and snout. */
function throughNose(sizes: Whole, body: SideBody, start: number): Laid {
  const { gape, length, bite, wire } = sizes;
  const x = body.nose[0] + start;
  const out = 0.25 * Math.max(body.backAt(x) - body.bellyAt(x), wire);
  const point: Vec2 = [x, Math.max(body.backAt(x) + out, body.nose[1])];
  const upright = ([s, t]: Vec2): Vec2 => [point[0] - gape + t, point[1] + length - bite - s];
  return {
    line: [[0, 0] as Vec2, ...bendLine(sizes)].map(upright),
    foot: upright([length - bite, 0]),
    strain: 0,
  };
}

const LIES = { weedless, threaded, 'through the nose': throughNose } as const;

/**
 * A hook as it lies in a bait. No hook has a dimensional standard: its form is made from its sizes alone.
 *
 * @param sizes - of the hook [m]
 * @param lie - how it is rigged
 * @param body - of the bait [m]
 * @param start - where it enters, from the nose [m]
 * @returns middle line of the wire from eye to point, and its marks [m]
 * @throws {RangeError} when a size is not positive, or shank or throat are as long as the hook
 *
 * Valid: in the plane of the shank; barb and eye are not formed.
 * Cost: a few stations of the body.
 * Source: own construction: gape, throat, shank, offset and overall length are exact, the bend is of two ellipses.
 */
export function hookForm(sizes: HookSizes, lie: HookLie, body: SideBody, start = 0): HookForm {
  const full = whole(sizes);
  const { line, foot, strain } = LIES[lie](full, body, start);
  return {
    lie,
    line,
    eye: { at: line[0]!, radius: 1.6 * full.wire },
    point: line.at(-1)!,
    foot,
    bend: line.at(-1 - STEPS / 2)!,
    strain,
  };
}

/**
 * Centre of a wire of even thickness.
 *
 * @param line - its middle line, at least two points [m]
 * @returns centre of mass [m]
 * @throws {RangeError} when the line has no length
 *
 * Cost: linear in the points.
 * Source: centroid of a polyline; definition.
 */
export function wireCentroid(line: readonly Vec2[]): Vec2 {
  let [x, y, total] = [0, 0, 0];
  for (let i = 1; i < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i - 1]!, line[i]!];
    const length = Math.hypot(bx - ax, by - ay);
    x += (length * (ax + bx)) / 2;
    y += (length * (ay + by)) / 2;
    total += length;
  }
  need(total > 0, 'wireCentroid', 'a line with a length', total);
  return [x / total, y / total];
}

/** Parts that each piece of a wire is looked at in. */
const PIECES = 50;

/**
 * Where the wire leaves a body for the first time.
 *
 * @param line - middle line of the wire from eye to point [m]
 * @param body - belly and back by station [m]
 * @returns station from the nose [m]; null when it stays inside, or never was
 *
 * Valid: to a fiftieth of each piece of the line.
 * Cost: fifty stations for each piece.
 * Source: definition.
 */
export function wireExit(line: readonly Vec2[], body: SideBody): number | null {
  let inside = false;
  for (let i = 1; i < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i - 1]!, line[i]!];
    for (let k = 0; k <= PIECES; k++) {
      const [x, y] = [ax + ((bx - ax) * k) / PIECES, ay + ((by - ay) * k) / PIECES];
      const holds = x >= body.nose[0] && y >= body.bellyAt(x) && y <= body.backAt(x);
      if (inside && !holds) return x - body.nose[0];
      inside = holds;
    }
  }
  return null;
}
