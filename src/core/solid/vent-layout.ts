import type { Vec2 } from '../mesh/mesh.ts';
import type { Channels } from './channel-layout.ts';
import type { MoldLayout, MoldTable, PlacedCavity, PlacedVent, PlanBar, VentTable } from './mold-table.ts';
import {
  boxDistance,
  outlineBox,
  outlineDistance,
  stretchDistance,
  turnedDirection,
  type PlanBox,
} from './plan.ts';

/** Vents and what found no room. */
export interface VentLayout {
  readonly vents: readonly PlacedVent[];
  readonly notes: readonly string[];
}

/** A place on a cavity's edge and the way straight out of it. */
interface EdgePoint {
  readonly at: Vec2;
  readonly out: Vec2;
  /** How far from the gate it lies [m]; more than any cavity is long at a tip. */
  readonly far: number;
}

/** Metal left between a vent and anything it must not meet [m]. */
const CLEAR = 1e-3;
const TIERS = ['edge', 'collector', 'outlet'] as const;

const step = (from: Vec2, way: Vec2, length: number): Vec2 => [
  from[0] + way[0] * length,
  from[1] + way[1] * length,
];
const apart = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Everything that vents have to keep clear of. */
export interface VentScene {
  readonly mold: MoldTable;
  /** As they lie in the block [m]. */
  readonly cavities: readonly PlacedCavity[];
  readonly channels: Channels;
  readonly pins: MoldLayout['pins'];
}

/**
 * Where the vents lie: edge vents on each cavity's outline, at the tips of thin parts first, then farthest from the
 * gate and spread apart; collectors follow straight on; outlets lead to the block's edge, turned aside by as little as a
 * clear way takes.
 *
 * @param scene - mold, placed cavities, channels and pins [m]
 * @returns vents [m], and a sentence for each tier that found less room than stated or no way out
 *
 * Valid: any layout; a vent that would meet another cavity, a channel, a pin or the block's end is left out and noted.
 * Cost: candidate places × outline points, a few hundred each.
 * Source: common practice: vents go to the last places to fill; distance from the gate stands in for them.
 */
export function ventsOf(scene: VentScene): VentLayout {
  const boxed = { ...scene, boxes: scene.cavities.map(({ outline }) => outlineBox(outline)) };
  const layouts = scene.cavities.map((_, index) => ventsOfCavity(boxed, index));
  return { vents: layouts.flatMap(({ vents }) => vents), notes: layouts.flatMap(({ notes }) => notes) };
}

interface Scene extends VentScene {
  readonly boxes: readonly PlanBox[];
}

function ventsOfCavity(scene: Scene, index: number): VentLayout {
  const rows = TIERS.map((tier) => scene.mold.vents.filter((vent) => vent.tier === tier));
  const vents: PlacedVent[] = [];
  const notes: string[] = [];
  // Ends of the tier before, from which the next one goes on.
  let starts: EdgePoint[] | undefined;
  for (const tables of rows) {
    const ends: EdgePoint[] = [];
    for (const table of tables) {
      const points = starts ?? edgePoints(scene, index, table);
      const placed = tierFrom({ scene, index, table, outlet: rows[2]![0] }, points, starts === undefined);
      vents.push(...placed.map(({ vent }) => vent));
      ends.push(...placed.map(({ end }) => end));
      if (placed.length < table.count) notes.push(shortfall(table, placed.length, index));
      const blind = table.tier === 'outlet' ? placed.filter(({ vent }) => !vent.open).length : 0;
      if (blind > 0) notes.push(blindEnd(blind, index));
    }
    if (tables.length > 0) starts = ends;
  }
  return { vents, notes };
}

function shortfall({ tier, count }: VentTable, found: number, index: number): string {
  return `vents: ${found} of ${count} ${tier} vents on cavity ${index + 1} found room; turn the cavity or make the block larger`;
}

function blindEnd(count: number, index: number): string {
  return `vents: ${count === 1 ? 'an outlet' : `${count} outlets`} of cavity ${index + 1} found no way to the block's edge and let no air out; move the cavity or the pins`;
}

interface PlacedEnd {
  readonly vent: PlacedVent;
  readonly end: EdgePoint;
}

/** A tier of one cavity, and the outlet that goes on from its ends. */
interface Tier {
  readonly scene: Scene;
  readonly index: number;
  readonly table: VentTable;
  readonly outlet: VentTable | undefined;
}

/** Vents of a tier from given starts: first those that let air out, then the farthest; each keeps clear of those placed. */
function tierFrom(tier: Tier, starts: EdgePoint[], first: boolean): PlacedEnd[] {
  const { scene, index, table } = tier;
  const placed: PlacedEnd[] = [];
  for (const { least, blind } of first ? spreadOut(scene.cavities[index]!, table) : [OPEN, BLIND]) {
    for (const start of starts) {
      if (placed.length >= table.count) return placed;
      const near = placed.some(({ vent }) => apart(vent.from, start.at) < Math.max(least, table.width * 1.5));
      const vent = near ? undefined : ventAt(scene, index, table, start);
      if (!vent) continue;
      const end = { ...start, at: vent.to };
      if (blind || leadsOut(tier, vent, end)) placed.push({ vent, end });
    }
  }
  return placed;
}

/** Whether a vent lets air out: an outlet itself, a collector through the outlet that goes on from it. */
function leadsOut({ scene, index, table, outlet }: Tier, vent: PlacedVent, end: EdgePoint): boolean {
  if (table.tier === 'outlet') return vent.open;
  return outlet === undefined || ventAt(scene, index, outlet, end)?.open === true;
}

/** What a vent has to keep to in one round of the search: a distance from those placed [m], and a way out unless blind. */
interface Round {
  readonly least: number;
  readonly blind: boolean;
}

const OPEN: Round = { least: 0, blind: false };
const BLIND: Round = { least: 0, blind: true };

/** Rounds of the first tier: apart as if the vents went evenly round the cavity, then a half, a quarter, any way. */
function spreadOut({ outline }: PlacedCavity, { count }: VentTable): Round[] {
  const round = outline[0]!.reduce((sum, point, i, ring) => sum + apart(point, ring.at(i - 1)!), 0);
  const spread = round / (2 * count);
  return [spread, spread / 2, spread / 4, 0].map((least) => ({ least, blind: true }));
}

/** How far an outlet may turn aside to find a way to the block's edge, straight on first [rad]. */
const TURNS = [0, 1, -1, 2, -2, 3, -3].map((times) => (times * Math.PI) / 6);

/** A vent from a start: an outlet as the first clear way to the edge, else blind; the other tiers straight on. */
function ventAt(scene: Scene, index: number, table: VentTable, start: EdgePoint): PlacedVent | undefined {
  const { block } = scene.mold;
  if (table.tier === 'outlet') {
    for (const turn of TURNS) {
      const out = turnedDirection(start.out, { turn, mirrored: false });
      const open = barAt(scene, index, table, { ...start, out }, wayOut({ ...start, out }, block));
      if (open) return open;
    }
  }
  if (table.land > wayOut(start, block) + 1e-9) return undefined;
  return barAt(scene, index, table, start, table.land);
}

function barAt(
  scene: Scene,
  index: number,
  { tier, depth, width }: VentTable,
  { at, out }: EdgePoint,
  length: number,
): PlacedVent | undefined {
  const bar: PlanBar = { from: at, to: step(at, out, length), width };
  if (!isClear(scene, index, bar)) return undefined;
  return { ...bar, tier, depth, cavity: index, open: length > wayOut({ at, out }, scene.mold.block) - 1e-9 };
}

/** Distance to the block's edge along a way. */
function wayOut({ at, out }: Pick<EdgePoint, 'at' | 'out'>, block: MoldTable['block']): number {
  const toEdge = (place: number, way: number, size: number) =>
    way > 1e-9 ? (size - place) / way : way < -1e-9 ? -place / way : Infinity;
  return Math.min(toEdge(at[0], out[0], block.length), toEdge(at[1], out[1], block.width));
}

function isClear(scene: Scene, index: number, bar: PlanBar): boolean {
  const length = apart(bar.from, bar.to);
  const half = bar.width / 2;
  const count = Math.max(2, Math.ceil(length / half));
  for (let i = count; i >= 0; i--) {
    const point = step(bar.from, [(bar.to[0] - bar.from[0]) / count, (bar.to[1] - bar.from[1]) / count], i);
    // Its own cavity is left at once: further out the vent may not come back to it.
    const own = Math.min(half, (0.6 * i * length) / count) - 1e-5;
    if (!isClearPoint(scene, index, { point, half, own })) return false;
  }
  return true;
}

function isClearPoint(
  { mold, cavities, boxes, channels, pins }: Scene,
  index: number,
  { point, half, own }: { point: Vec2; half: number; own: number },
): boolean {
  const radius = (mold.runner?.diameter ?? 0) / 2;
  return (
    channels.runner.every(({ from, to }) => stretchDistance(from, to, point) > half + radius + CLEAR) &&
    stretchDistance(channels.sprue.mouth, channels.sprue.end, point) > half + mold.sprue.mouth / 2 + CLEAR &&
    pins.every(({ at, diameter }) => apart(at, point) > half + diameter / 2 + CLEAR) &&
    cavities.every(({ outline }, other) => {
      const wanted = other === index ? own : half + CLEAR;
      return boxDistance(boxes[other]!, point) > wanted || outlineDistance(outline, point) >= wanted;
    })
  );
}

/** Points of the outline and the ways out of it: those at tips first, then the farthest from the gate. */
function edgePoints({ mold, cavities, boxes }: Scene, index: number, { width }: VentTable): EdgePoint[] {
  const cavity = cavities[index]!;
  const { min, max } = boxes[index]!;
  const tips = (mold.cavities[index]!.tips ?? []).map((tip): Vec2 => {
    const [x, y] = turnedDirection(tip, cavity);
    return [x + cavity.x, y + cavity.y];
  });
  const points = cavity.outline.flatMap((ring) => evenRing(ring, Math.max(width / 4, apart(min, max) / 300)));
  return points
    .map(({ at, out }) => {
      const tip = Math.min(...tips.map((place) => apart(place, at)));
      return { at, out, far: tip < width ? 1 + width - tip : apart(at, cavity.gate.at) };
    })
    .filter(({ far }) => far > 2 * width)
    .sort((a, b) => b.far - a.far);
}

/** Even points on a counter-clockwise ring, with the way out across a stretch of `pitch` either side. */
function evenRing(ring: readonly Vec2[], pitch: number): { at: Vec2; out: Vec2 }[] {
  const points: Vec2[] = [];
  let left = 0;
  ring.forEach((to, i) => {
    const from = ring.at(i - 1)!;
    const length = apart(from, to);
    let along = left;
    for (; along < length; along += pitch)
      points.push(step(from, [(to[0] - from[0]) / length, (to[1] - from[1]) / length], along));
    left = along - length;
  });
  return points.map((at, i) => {
    const before = points.at((i - 2 + points.length) % points.length)!;
    const after = points.at((i + 2) % points.length)!;
    // A cutter runs along a few directions only: the way out is taken to the nearest 30 degrees.
    const turn =
      (Math.round(Math.atan2(before[0] - after[0], after[1] - before[1]) / (Math.PI / 6)) * Math.PI) / 6;
    return { at, out: [Math.cos(turn), Math.sin(turn)] as const };
  });
}
