import type { Vec2, Vec3 } from '../mesh/mesh.ts';
import type { Solid, Workshop } from './kernel.ts';
import { LEAST_WALL, type MoldLayout, type MoldTable, type PlanBar, type VentTable } from './mold-table.ts';
import { stretchDistance } from './plan.ts';

/** Solids of everything that is cut from a block besides its cavities; what a mold has none of is left out. */
export interface ChannelSolids {
  /** One bar a cavity. */
  readonly gates: readonly Solid[];
  readonly runner: Solid | undefined;
  readonly sprue: Solid;
  readonly vents: Readonly<Record<VentTable['tier'], Solid | undefined>>;
  readonly pins: Solid | undefined;
}

/**
 * Gates, runner, sprue, vents and pin holes as solids in the block's frame.
 *
 * @param shop - the kernel at work
 * @param mold - their sizes [m]
 * @param layout - where they lie [m]
 * @returns solids; gates and vents are bars of level and upright faces
 *
 * Cost: some 15 ms with a runner, 1 ms without.
 * Source: own derivation.
 */
export function channelSolids(shop: Workshop, mold: MoldTable, layout: MoldLayout): ChannelSolids {
  const vents = (tier: VentTable['tier']) => ventSolid(shop, mold, layout, tier);
  return {
    gates: gateSolids(shop, mold, layout),
    runner: runnerSolid(shop, mold, layout),
    sprue: sprueSolid(shop, mold, layout),
    vents: { edge: vents('edge'), collector: vents('collector'), outlet: vents('outlet') },
    pins: pinSolid(shop, layout),
  };
}

/**
 * The block between two heights, in halves of its thickness.
 *
 * @param shop - the kernel at work
 * @param mold - its sizes [m]
 * @param low - −1 is the lower face, 0 the parting plane, 1 the upper face [1]
 * @param high - as `low` [1]
 * @returns a box
 *
 * Cost: constant.
 * Source: definition.
 */
export function blockSolid(shop: Workshop, { block }: MoldTable, low: number, high: number): Solid {
  const half = block.thickness / 2;
  return shop.box([0, 0, low * half], [block.length, block.width, high * half]);
}

const flat = ([x, y]: Vec2): Vec3 => [x, y, 0];

function sprueSolid(shop: Workshop, { sprue }: MoldTable, { sprue: place }: MoldLayout): Solid {
  return shop.cone(flat(place.mouth), flat(place.end), [sprue.mouth / 2, sprue.end / 2]);
}

/** Round bars with a ball at every end that no other bar goes through. */
function runnerSolid(shop: Workshop, { runner }: MoldTable, layout: MoldLayout): Solid | undefined {
  if (!runner || layout.runner.length === 0) return undefined;
  const radius = runner.diameter / 2;
  const runs = straightRuns(layout.runner);
  const ends = new Map(runs.flatMap(({ from, to }) => [from, to]).map((end) => [end.join(), end]));
  const open = [...ends.values()].filter((end) => !runs.some((run) => goesThrough(run, end)));
  return shop.union([
    ...runs.map(({ from, to }) => shop.cone(flat(from), flat(to), [radius, radius])),
    ...open.map((end) => shop.ball(flat(end), radius)),
  ]);
}

type Run = MoldLayout['runner'][number];

/** Points are the same, and lines straight, within this [m]. */
const SAME = 1e-9;
const apart = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Whether a run goes on beyond a point on it both ways. */
function goesThrough({ from, to }: Run, point: Vec2): boolean {
  const nearest = Math.min(apart(from, point), apart(to, point));
  return nearest > SAME && stretchDistance(from, to, point) < SAME;
}

/** Stretches that go straight on from one another, in one. */
function straightRuns(stretches: readonly Run[]): Run[] {
  const runs: Run[] = [];
  for (const { from, to } of stretches) {
    const before = runs.findIndex(
      (run) => apart(run.to, from) < SAME && goesThrough({ from: run.from, to }, from),
    );
    if (before < 0) runs.push({ from, to });
    else runs[before] = { from: runs[before]!.from, to };
  }
  return runs;
}

/** Gates reach into the cavity by their own width, where a rounded nose draws back from them. */
function gateSolids(shop: Workshop, { gate }: MoldTable, { gates }: MoldLayout): Solid[] {
  return gates.map((bar) =>
    barSolid(shop, { ...bar, from: ahead(bar, -gate.width) }, -gate.depth / 2, gate.depth / 2),
  );
}

/** Vents are cut into the lower half; they reach into the cavity and beyond the block's edge, where they are cut off. */
function ventSolid(
  shop: Workshop,
  mold: MoldTable,
  { vents }: MoldLayout,
  tier: VentTable['tier'],
): Solid | undefined {
  const bars = vents.filter((vent) => vent.tier === tier);
  if (bars.length === 0) return undefined;
  const solids = bars.map((vent) => {
    const from = ahead(vent, -Math.min(vent.width, LEAST_WALL) / 2);
    const to = vent.open ? ahead({ ...vent, from: vent.to, to: vent.from }, -vent.width) : vent.to;
    return barSolid(shop, { ...vent, from, to }, -vent.depth, 0);
  });
  return shop.intersection(shop.union(solids), blockSolid(shop, mold, -1, 1));
}

function pinSolid(shop: Workshop, { pins }: MoldLayout): Solid | undefined {
  if (pins.length === 0) return undefined;
  return shop.union(
    pins.map(({ at: [x, y], diameter, depth }) =>
      shop.cone([x, y, -depth], [x, y, depth], [diameter / 2, diameter / 2]),
    ),
  );
}

/** A point on a bar's middle line, `by` beyond its start. */
function ahead({ from, to }: PlanBar, by: number): Vec2 {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  return [from[0] + ((to[0] - from[0]) * by) / length, from[1] + ((to[1] - from[1]) * by) / length];
}

function barSolid(shop: Workshop, { from, to, width }: PlanBar, low: number, high: number): Solid {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const bar = shop.box([0, -width / 2, low], [Math.hypot(dx, dy), width / 2, high]);
  return shop.place(bar, { turn: Math.atan2(dy, dx), shift: flat(from) });
}
