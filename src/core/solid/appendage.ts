import type { Mesh, Vec3 } from '../mesh/mesh.ts';
import type { FeatureMeasure } from '../section/geometry.ts';
import { monotoneCurve, type Curve } from './pchip.ts';
import { outlinePoint } from './loft.ts';
import { skin, type Ring } from './skin.ts';

/** Kinds of appendage. */
export type AppendageKind = FeatureMeasure['kind'];

/** A size that changes from root to tip [m]. */
export interface Taper {
  readonly root: number;
  readonly middle?: number | undefined;
  readonly tip: number;
}

/** What an appendage is described by [m, rad]. */
export interface AppendageTable {
  readonly name: string;
  readonly kind: AppendageKind;
  readonly root: {
    readonly at: number;
    readonly across?: number | undefined;
    readonly up?: number | undefined;
  };
  /** At the root, in the parting plane: 0 is straight back, π/2 is across. */
  readonly direction?: number | undefined;
  readonly length: number;
  /** In the parting plane. */
  readonly width: Taper;
  /** Out of the parting plane; left out, the same as the width. */
  readonly thickness?: Taper | undefined;
  /** How far the middle line turns from root to tip. */
  readonly curl?: number | undefined;
  readonly mirrored?: boolean | undefined;
  readonly count?: number | undefined;
  readonly pitch?: number | undefined;
}

/** A strip, arm or disc along its middle line, by arc length from the root [m]. */
export interface Sweep {
  readonly length: number;
  readonly pointAt: (s: number) => Vec3;
  /** Heading of the middle line in the parting plane [rad]. */
  readonly headingAt: (s: number) => number;
  readonly widthAt: Curve;
  readonly thicknessAt: Curve;
  /** Length over which the tip is rounded off. */
  readonly rounding: number;
  /** Exponent of its section [1]. */
  readonly roundness: number;
}

/** Section of each kind: tails are flat with round edges, limbs are round. */
const ROUNDNESS: Readonly<Record<AppendageKind, number>> = {
  'curl-tail': 3.5,
  'ribbon-tail': 3.5,
  paddle: 2.6,
  arm: 2,
  claw: 2.4,
  leg: 2,
  rib: 2,
  fin: 3,
};

/** Tails curl more and more towards their tip, limbs bend evenly: heading grows with this power of s. */
const CURL_POWER: Readonly<Record<AppendageKind, number>> = {
  'curl-tail': 2,
  'ribbon-tail': 2,
  paddle: 1,
  arm: 1,
  claw: 1,
  leg: 1,
  rib: 1,
  fin: 1,
};

const STEPS = 96;
const mm = (metres: number): string => `${Number((metres * 1e3).toFixed(2))} mm`;

/**
 * The smooth shape of an appendage: a section swept along a middle line that lies in a plane beside the parting
 * plane and turns by `curl` from root to tip; sizes follow a monotone curve; the tip is rounded in both directions.
 * A paddle that stands across the bait is one whose thickness (out of the parting plane) is its larger size.
 *
 * @param table - the appendage [m, rad], any kind but `rib`
 * @returns the sweep [m]
 * @throws {RangeError} when it curls tighter than its own width or runs into itself
 *
 * Valid: middle line in a plane z = constant.
 * Cost: a few hundred steps of quadrature.
 * Source: own derivation; a heading that grows with s² is Euler's spiral.
 */
export function sweepOf(table: AppendageTable): Sweep {
  const { length, kind } = table;
  const start = table.direction ?? 0;
  const curl = table.curl ?? 0;
  const power = CURL_POWER[kind];
  const headingAt = (s: number) => start + curl * (s / length) ** power;
  const sweep: Sweep = {
    length,
    headingAt,
    pointAt: lineOf(table, headingAt),
    widthAt: sizeOf(table.width, length),
    thicknessAt: sizeOf(table.thickness ?? table.width, length),
    rounding: Math.min(length, Math.max(table.width.tip, (table.thickness ?? table.width).tip)) / 2,
    roundness: ROUNDNESS[kind],
  };
  checkCurl(table.name, sweep, (s) => (curl * power * (s / length) ** (power - 1)) / length);
  return sweep;
}

/** A size along the sweep: monotone curve, then rounded off over half of itself at the tip. */
function sizeOf({ root, middle, tip }: Taper, length: number): Curve {
  const curve =
    middle === undefined
      ? monotoneCurve([0, length], [root, tip])
      : monotoneCurve([0, length / 2, length], [root, middle, tip]);
  const rounding = Math.min(tip / 2, length / 2);
  return (s) => {
    const t = (length - s) / rounding;
    return curve(s) * (t < 1 ? Math.sqrt(Math.max(0, t * (2 - t))) : 1);
  };
}

/** Middle line by Simpson's rule on its heading, linear between the tabulated points of a fine table. */
function lineOf(table: AppendageTable, headingAt: (s: number) => number): (s: number) => Vec3 {
  const count = 8 * STEPS;
  const step = table.length / count;
  const xs = [table.root.at];
  const ys = [table.root.across ?? 0];
  for (let i = 0; i < count; i++) {
    const headings = [i, i + 0.5, i + 1].map((at) => headingAt(at * step));
    const mean = (f: (angle: number) => number) =>
      (f(headings[0]!) + 4 * f(headings[1]!) + f(headings[2]!)) / 6;
    xs.push(xs[i]! + step * mean(Math.cos));
    ys.push(ys[i]! + step * mean(Math.sin));
  }
  const up = table.root.up ?? 0;
  return (s) => {
    const i = Math.min(count - 1, Math.floor(s / step));
    const t = s / step - i;
    return [xs[i]! + t * (xs[i + 1]! - xs[i]!), ys[i]! + t * (ys[i + 1]! - ys[i]!), up];
  };
}

function checkCurl(name: string, sweep: Sweep, curvatureAt: (s: number) => number): void {
  const stations = Array.from({ length: STEPS + 1 }, (_, i) => (i * sweep.length) / STEPS);
  for (const s of stations) {
    if (Math.abs(curvatureAt(s)) * sweep.widthAt(s) > 1.9) {
      throw new RangeError(
        `${name}: wants a bend wider than the part itself, got ${mm(sweep.widthAt(s))} of width on a radius of ${mm(1 / Math.abs(curvatureAt(s)))}; make it longer, narrower or less curled`,
      );
    }
  }
  const points = stations.map(sweep.pointAt);
  const widths = stations.map(sweep.widthAt);
  for (let i = 0; i < points.length; i++) {
    for (let j = i + 2; j < points.length; j++) {
      const reach = (widths[i]! + widths[j]!) / 2;
      const turned = Math.abs(sweep.headingAt(stations[j]!) - sweep.headingAt(stations[i]!));
      const gap = Math.hypot(points[j]![0] - points[i]![0], points[j]![1] - points[i]![1]);
      if (turned > Math.PI * 0.9 && gap < reach) {
        throw new RangeError(
          `${name}: wants a middle line that stays clear of itself, got two turns ${mm(gap)} apart where ${mm(reach)} is needed; curl it less or make it longer`,
        );
      }
    }
  }
}

/**
 * Closed mesh of a sweep.
 *
 * @param sweep - the appendage [m]
 * @param around - points round a section, a multiple of 4
 * @param along - steps from the root to where the tip's rounding begins
 * @returns closed mesh [m], wound outwards
 *
 * Valid: sweeps of `sweepOf`, which do not run into themselves.
 * Cost: linear in around × along.
 * Source: own derivation.
 */
export function sweepMesh(sweep: Sweep, around: number, along = STEPS): Mesh {
  return skin(levels(sweep, along, around / 4).map((s) => ringAt(sweep, s, around)));
}

/** Even steps, then crowded as a circle needs it in the rounded tip. */
function levels({ length, rounding }: Sweep, along: number, cap: number): number[] {
  const straight = Array.from({ length: along }, (_, i) => ((length - rounding) * i) / along);
  const round = Array.from(
    { length: 2 * cap + 1 },
    (_, i) => length - rounding * (1 - Math.sin((i * Math.PI) / (4 * cap))),
  );
  return [...straight, ...round];
}

function ringAt(sweep: Sweep, s: number, around: number): Ring {
  const middle = sweep.pointAt(s);
  const section = {
    halfWidth: sweep.widthAt(s) / 2,
    above: sweep.thicknessAt(s) / 2,
    below: sweep.thicknessAt(s) / 2,
    roundness: sweep.roundness,
  };
  if (section.halfWidth === 0) return { points: [middle], middle };
  const heading = sweep.headingAt(s);
  const points = Array.from({ length: around }, (_, i): Vec3 => {
    const quarters = (4 * i) / around;
    const [across, up] = outlinePoint(section, (quarters * Math.PI) / 2);
    const out = quarters % 2 === 1 ? 0 : across;
    return [
      middle[0] - out * Math.sin(heading),
      middle[1] + out * Math.cos(heading),
      middle[2] + (quarters % 2 === 0 ? 0 : up),
    ];
  });
  return { points, middle };
}
