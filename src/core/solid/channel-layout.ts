import type { Vec2 } from '../mesh/mesh.ts';
import type { MoldLayout, MoldTable, PlacedCavity, PlanBar } from './mold-table.ts';

/** Gates, runner tree and sprue of a mold [m]. */
export type Channels = Pick<MoldLayout, 'gates' | 'runner' | 'runnerLength' | 'sprue'>;

const step = (from: Vec2, way: Vec2, length: number): Vec2 => [
  from[0] + way[0] * length,
  from[1] + way[1] * length,
];
const apart = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/**
 * The channels that feed placed cavities: a gate out of each, branches to a straight trunk, and a sprue from the
 * block's edge: from the side that all gates face, else along the trunk.
 *
 * @param mold - the mold [m]
 * @param cavities - as they lie in the block [m]
 * @returns gates, stretches of the runner and the sprue [m]
 * @throws {RangeError} when several cavities have no runner
 *
 * Valid: channels in the parting plane.
 * Cost: linear in the cavities.
 * Source: own derivation.
 */
export function channelsOf(mold: MoldTable, cavities: readonly PlacedCavity[]): Channels {
  const { runner, gate } = mold;
  if (!runner && cavities.length > 1) {
    throw new RangeError(
      `runner: wants one for ${cavities.length} cavities, got none; add "runner" to the mold`,
    );
  }
  const radius = runner ? runner.diameter / 2 : 0;
  const gates = cavities.map(({ gate: { at, out } }): PlanBar => ({
    from: at,
    to: step(at, out, gate.length + radius),
    width: gate.width,
  }));
  const ends = gates.map(({ to }) => to);
  const ways = cavities.map((cavity) => cavity.gate.out);
  const tree = treeOf(mold, ends, ways);
  const stretches = tree.stretches.filter(({ from, to }) => apart(from, to) > 1e-6);
  return {
    gates,
    runner: stretches,
    runnerLength: stretches.reduce((sum, { from, to }) => sum + apart(from, to), 0),
    sprue: tree.sprue,
  };
}

interface Tree {
  readonly stretches: readonly { from: Vec2; to: Vec2 }[];
  readonly sprue: MoldLayout['sprue'];
}

function treeOf(mold: MoldTable, ends: readonly Vec2[], ways: readonly Vec2[]): Tree {
  const first = ways[0]!;
  const oneWay = ways.every((way) => apart(way, first) < 1e-6);
  const square = Math.abs(first[0]) > 1 - 1e-9 || Math.abs(first[1]) > 1 - 1e-9;
  const axis = Math.abs(first[0]) >= Math.abs(first[1]) ? 0 : 1;
  return oneWay && square ? sideways(mold, ends, axis, first[axis] < 0) : lengthways(mold, ends, axis);
}

const pair = (axis: 0 | 1, along: number, beside: number): Vec2 =>
  axis === 0 ? [along, beside] : [beside, along];

/** All gates face one edge: the trunk lies across, the sprue comes straight in from that edge. */
function sideways(mold: MoldTable, ends: readonly Vec2[], axis: 0 | 1, low: boolean): Tree {
  const size = axis === 0 ? mold.block.length : mold.block.width;
  const edge = low ? 0 : size;
  const inner = low ? mold.sprue.length : size - mold.sprue.length;
  const alongs = ends.map((end) => end[axis]);
  // The trunk lies where the sprue ends, or at the gate that reaches furthest out.
  const trunk = low ? Math.max(inner, Math.min(...alongs)) : Math.min(inner, Math.max(...alongs));
  const besides = ends.map((end) => end[1 - axis]!);
  const [least, most] = [Math.min(...besides), Math.max(...besides)];
  const middle = (least + most) / 2;
  const branches = ends.map((end) => ({ from: pair(axis, trunk, end[1 - axis]!), to: end }));
  const across = cuts([least, middle, most]).map(([a, b]) => ({
    from: pair(axis, trunk, a),
    to: pair(axis, trunk, b),
  }));
  const lead = { from: pair(axis, inner, middle), to: pair(axis, trunk, middle) };
  return {
    stretches: [lead, ...across, ...branches],
    sprue: { mouth: pair(axis, edge, middle), end: pair(axis, inner, middle) },
  };
}

/** Gates face several ways: the trunk lies between them, the sprue comes in along it from the lower or left edge. */
function lengthways(mold: MoldTable, ends: readonly Vec2[], axis: 0 | 1): Tree {
  const trunk = ends.reduce((sum, end) => sum + end[axis], 0) / ends.length;
  const besides = ends.map((end) => end[1 - axis]!);
  const inner = mold.sprue.length;
  const branches = ends.map((end) => ({ from: pair(axis, trunk, end[1 - axis]!), to: end }));
  const along = cuts([inner, ...besides]).map(([a, b]) => ({
    from: pair(axis, trunk, a),
    to: pair(axis, trunk, b),
  }));
  return {
    stretches: [...along, ...branches],
    sprue: { mouth: pair(axis, trunk, 0), end: pair(axis, trunk, inner) },
  };
}

/** Neighbouring pairs of sorted numbers. */
function cuts(numbers: readonly number[]): [number, number][] {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted.slice(1).map((number, i) => [sorted[i]!, number]);
}
