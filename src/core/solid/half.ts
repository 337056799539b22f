import type { Mesh, Vec2, Vec3 } from '../mesh/mesh.ts';
import { loadKernel, type Solid, type Workshop } from './kernel.ts';
import { moldLayout } from './mold-layout.ts';
import { LEAST_WALL, type MoldLayout, type MoldTable, type PlanBar, type VentTable } from './mold-table.ts';

/** One half of a mold: its metal and how much of it. */
export interface MoldHalf {
  readonly mesh: Mesh;
  readonly volume: number;
}

/** Hollow volumes of a mold [m³]; what two of them share is counted in the first. */
export interface HollowVolumes {
  readonly cavities: number;
  readonly gates: number;
  readonly runner: number;
  readonly sprue: number;
  readonly vents: Readonly<Record<VentTable['tier'], number>>;
  readonly pins: number;
}

/** Two mold halves cut from the block, and what was cut [m, m³]. */
export interface MoldHalves {
  /** Below the parting plane z = 0; vents are cut into this one. */
  readonly lower: MoldHalf;
  readonly upper: MoldHalf;
  /** The lower half with fewer triangles, for pictures. */
  readonly shown: Mesh;
  readonly hollow: HollowVolumes;
  /** Volume of the bait of each cavity, for the shot check. */
  readonly baits: readonly number[];
  readonly layout: MoldLayout;
}

/** Triangles of a bait are merged within this before it is cut: a tenth of what a mill holds [m]. */
export const MERGED_WITHIN = 2e-6;
/** Triangles of the half for pictures are merged within this: vents are some three times as deep [m]. */
const SHOWN_WITHIN = 1e-5;
const TIERS = ['edge', 'collector', 'outlet'] as const;

/**
 * Both halves of a mold as solids: the block less cavities, gates, runner, sprue, vents and pin holes.
 *
 * @param mold - the mold [m, rad]
 * @returns halves in the block's frame (x from the left edge, y from the lower edge, parting plane z = 0) [m],
 * volumes [m³] and the layout
 * @throws {RangeError} in plain words when cavities overlap, a channel cuts through one, or the block is too small
 *
 * Valid: baits within 2 µm of their meshes.
 * Cost: about 0.3 s a cavity of 30 000 triangles.
 * Source: own derivation; booleans by the kernel.
 */
export async function moldHalves(mold: MoldTable): Promise<MoldHalves> {
  const layout = moldLayout(mold);
  const kernel = await loadKernel();
  return kernel.work((shop) => cut(shop, mold, layout));
}

function cut(shop: Workshop, mold: MoldTable, layout: MoldLayout): MoldHalves {
  const baits = baitSolids(shop, mold, layout);
  checkApart(shop, baits, layout);
  const cavities = shop.union(baits);
  const sprue = sprueSolid(shop, mold, layout);
  const runner = runnerSolid(shop, mold, layout);
  checkChannels(shop, baits, { sprue, runner });
  const block = blockSolid(shop, mold, -1, 1);
  const vents = TIERS.map((tier) => ventSolid(shop, layout, tier, block));
  const gates = gateSolids(shop, mold, layout);
  checkGates(shop, baits, gates);
  const parts = [shop.union(gates), runner, sprue, ...vents, pinSolid(shop, layout)];
  const [volumes, hollow] = shares(shop, cavities, parts);
  const metal = (low: number, high: number) => shop.difference(blockSolid(shop, mold, low, high), [hollow]);
  const half = (solid: Solid): MoldHalf => ({ mesh: shop.mesh(solid), volume: shop.volume(solid) });
  const lower = metal(-1, 0);
  const [inGates = 0, inRunner = 0, inSprue = 0, edge = 0, collector = 0, outlet = 0, pins = 0] = volumes;
  return {
    lower: half(lower),
    upper: half(metal(0, 1)),
    shown: shop.mesh(shop.simplify(lower, SHOWN_WITHIN)),
    hollow: {
      cavities: shop.volume(cavities),
      gates: inGates,
      runner: inRunner,
      sprue: inSprue,
      vents: { edge, collector, outlet },
      pins,
    },
    baits: baits.map((bait) => shop.volume(bait)),
    layout,
  };
}

/** The block between two heights, in halves of its thickness. */
function blockSolid(shop: Workshop, { block }: MoldTable, low: number, high: number): Solid {
  const half = block.thickness / 2;
  return shop.box([0, 0, low * half], [block.length, block.width, high * half]);
}

/**
 * What each part adds to the cavities and the parts before it, and the union of all of them. The cavities have most of
 * the triangles, so what they share with the parts is cut out of them once.
 */
function shares(shop: Workshop, cavities: Solid, parts: readonly (Solid | undefined)[]): [number[], Solid] {
  const all = shop.union(parts.filter((part) => part !== undefined));
  const before: Solid[] = [shop.intersection(cavities, all)];
  const volumes = parts.map((part) => {
    if (!part) return 0;
    const own = shop.volume(shop.difference(part, before));
    before.push(part);
    return own;
  });
  return [volumes, shop.union([cavities, all])];
}

/** Every bait where it lies; baits of one mesh share their triangles. */
function baitSolids(shop: Workshop, mold: MoldTable, layout: MoldLayout): Solid[] {
  const merged = new Map<Mesh, Solid>();
  return mold.cavities.map(({ mesh }, i) => {
    const solid = merged.get(mesh) ?? shop.simplify(shop.solid(mesh), MERGED_WITHIN);
    merged.set(mesh, solid);
    const { x, y, turn, mirrored } = layout.cavities[i]!;
    return shop.place(solid, { mirrored, turn, shift: [x, y, 0] });
  });
}

function checkApart(shop: Workshop, baits: readonly Solid[], layout: MoldLayout): void {
  const boxes = layout.cavities.map(({ outline }) => outline.flat());
  for (let i = 0; i < baits.length; i++) {
    for (let j = 0; j < i; j++) {
      if (boxesApart(boxes[i]!, boxes[j]!)) continue;
      const shared = shop.volume(shop.intersection(baits[i]!, baits[j]!));
      if (shared > 0) {
        throw new RangeError(
          `cavities ${j + 1} and ${i + 1}: want metal between them, got ${(shared * 1e9).toFixed(1)} mm³ in common; move them apart`,
        );
      }
    }
  }
}

function boxesApart(a: readonly Vec2[], b: readonly Vec2[]): boolean {
  return ([0, 1] as const).some((axis) => {
    const ends = [a, b].map((points) => {
      const values = points.map((point) => point[axis]);
      return [values.reduce((x, y) => Math.min(x, y)), values.reduce((x, y) => Math.max(x, y))] as const;
    });
    return ends[0]![1] < ends[1]![0] || ends[1]![1] < ends[0]![0];
  });
}

function checkChannels(
  shop: Workshop,
  baits: readonly Solid[],
  channels: Record<string, Solid | undefined>,
): void {
  for (const [name, channel] of Object.entries(channels)) {
    const index = channel ? baits.findIndex((bait) => shop.volume(shop.intersection(channel, bait)) > 0) : -1;
    if (index >= 0) {
      throw new RangeError(
        `${name}: wants to reach cavity ${index + 1} through its gate only, got one that cuts into it; move the cavity`,
      );
    }
  }
}

function checkGates(shop: Workshop, baits: readonly Solid[], gates: readonly Solid[]): void {
  const index = baits.findIndex((bait, i) => !(shop.volume(shop.intersection(bait, gates[i]!)) > 0));
  if (index >= 0) {
    throw new RangeError(
      `gate: wants to open into cavity ${index + 1}, got one that misses it; gate the bait at another place`,
    );
  }
}

const flat = ([x, y]: Vec2): Vec3 => [x, y, 0];

function sprueSolid(shop: Workshop, { sprue }: MoldTable, { sprue: place }: MoldLayout): Solid {
  return shop.cone(flat(place.mouth), flat(place.end), [sprue.mouth / 2, sprue.end / 2]);
}

function runnerSolid(shop: Workshop, { runner }: MoldTable, layout: MoldLayout): Solid | undefined {
  if (!runner || layout.runner.length === 0) return undefined;
  const radius = runner.diameter / 2;
  return shop.union(
    layout.runner.flatMap(({ from, to }) => [
      shop.cone(flat(from), flat(to), [radius, radius]),
      shop.ball(flat(from), radius),
      shop.ball(flat(to), radius),
    ]),
  );
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
  { vents }: MoldLayout,
  tier: VentTable['tier'],
  block: Solid,
): Solid | undefined {
  const bars = vents.filter((vent) => vent.tier === tier);
  if (bars.length === 0) return undefined;
  const solids = bars.map((vent) => {
    const from = ahead(vent, -Math.min(vent.width, LEAST_WALL) / 2);
    const to = vent.open ? ahead({ ...vent, from: vent.to, to: vent.from }, -vent.width) : vent.to;
    return barSolid(shop, { ...vent, from, to }, -vent.depth, 0);
  });
  return shop.intersection(shop.union(solids), block);
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
