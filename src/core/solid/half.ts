import type { Mesh, Vec2 } from '../mesh/mesh.ts';
import { blockSolid, channelSolids, type ChannelSolids } from './channel-solids.ts';
import { loadKernel, type Solid, type Workshop } from './kernel.ts';
import { mergedBaits, type MergedBait } from './merged-bait.ts';
import { moldLayout } from './mold-layout.ts';
import type { MoldLayout, MoldTable, PlacedCavity, VentTable } from './mold-table.ts';
import { meshFromBlock, outlineBox, type PlanBox } from './plan.ts';
import type { SharedVolumes } from './shared-volume.ts';

/** Hollow volumes of a mold [m³]; what two of them share is counted in the first. */
export interface HollowVolumes {
  readonly cavities: number;
  readonly gates: number;
  readonly runner: number;
  readonly sprue: number;
  readonly vents: Readonly<Record<VentTable['tier'], number>>;
  readonly pins: number;
}

/** What cutting the lower half from the block left, done with merged baits: all of it below the parting plane [m³]. */
export interface CutVolumes {
  readonly metal: number;
  /** What channels, vents and pin holes add to the merged baits. */
  readonly besides: number;
  readonly baits: number;
  /** All of the merged baits, below the plane and above it. */
  readonly merged: number;
}

/** Two mold halves cut from the block, and what was cut [m, m³]. */
export interface MoldHalves {
  readonly hollow: HollowVolumes;
  readonly cut: CutVolumes;
  /** The lower half, below the parting plane z = 0, for pictures. */
  readonly shown: Mesh;
  /** Everything that is cut besides the cavities. */
  readonly channels: Mesh;
  readonly layout: MoldLayout;
}

/**
 * A mold cut from its block: the block less cavities, gates, runner, sprue, vents and pin holes.
 *
 * Hollow volumes are those of the baits' own meshes, above the parting plane and below it. The lower half, into which all of
 * that but the vents reaches as into the upper, is cut as a solid with merged baits, and what that left is told beside them.
 *
 * @param mold - the mold [m, rad]
 * @returns the lower half in the block's frame (x from the left edge, y from the lower edge, parting plane z = 0) [m],
 * volumes [m³] and the layout
 * @throws {RangeError} in plain words when cavities overlap, a channel cuts through one, or the block is too small
 *
 * Valid: `cut` and `shown` within `MERGED_WITHIN` of the baits' meshes.
 * Cost: about 0.2 s for four cavities of 60 000 triangles; 1 µs a triangle of each bait, the rest by cavities.
 * Source: own derivation; booleans by the kernel.
 */
export async function moldHalves(mold: MoldTable): Promise<MoldHalves> {
  const layout = moldLayout(mold);
  const kernel = await loadKernel();
  return kernel.work((shop) => cut(shop, mold, layout));
}

function cut(shop: Workshop, mold: MoldTable, layout: MoldLayout): MoldHalves {
  const baits = mergedBaits(shop, mold);
  const placed = (solids: readonly Solid[]) => placedSolids(shop, solids, layout);
  const whole = placed(baits.map((bait) => bait.whole));
  const channels = channelSolids(shop, mold, layout);
  checkApart(shop, whole, layout);
  checkChannels(shop, whole, { mold, layout }, channels);
  const { gates, runner, sprue, vents, pins } = channels;
  checkGates(shop, baits, layout, gates);
  const bars = [shop.union(gates), vents.edge, vents.collector, vents.outlet];
  const parts = [bars[0], runner, sprue, ...bars.slice(1), pins].map((solid) => ({
    solid,
    bar: bars.includes(solid),
  }));
  const { all, added } = joined(shop, parts);
  const own = added(baits.map((bait) => bait.own.shared), layout.cavities); // prettier-ignore
  // The channels first, they are small; the baits are apart from one another, so that they are cut at once.
  const lower = shop.difference(
    shop.difference(blockSolid(shop, mold, -1, 0), [all]),
    placed(baits.map((bait) => bait.lower)),
  );
  const [inGates = 0, inRunner = 0, inSprue = 0, edge = 0, collector = 0, outlet = 0, inPins = 0] = own;
  return {
    hollow: {
      cavities: sumOf(baits.map((bait) => bait.own.volume)),
      gates: inGates,
      runner: inRunner,
      sprue: inSprue,
      vents: { edge, collector, outlet },
      pins: inPins,
    },
    cut: {
      metal: shop.volume(lower),
      besides: besidesBelow(shop, baits, layout, { all, bars: shop.union(bars.flatMap((bar) => bar ?? [])) }),
      baits: sumOf(baits.map((bait) => bait.below)),
      merged: sumOf(baits.map((bait) => bait.volume)),
    },
    shown: shop.mesh(lower, 'single'),
    channels: shop.mesh(all),
    layout,
  };
}

const sumOf = (volumes: readonly number[]): number => volumes.reduce((sum, volume) => sum + volume, 0);

function placedSolids(shop: Workshop, solids: readonly Solid[], { cavities }: MoldLayout): Solid[] {
  return solids.map((solid, i) => {
    const { x, y, turn, mirrored } = cavities[i]!;
    return shop.place(solid, { mirrored, turn, shift: [x, y, 0] });
  });
}

type Added = (shared: readonly SharedVolumes[], lies: readonly PlacedCavity[]) => number[];

interface Part {
  readonly solid: Solid | undefined;
  /** Reaches into baits, and has level and upright faces only. */
  readonly bar: boolean;
}

const NOTHING: Mesh = { positions: new Float64Array(), triangles: new Uint32Array() };

interface Channels {
  readonly all: Solid;
  readonly added: Added;
}

/** All parts in one, and what each adds to those before it and to baits that are given afterwards. */
function joined(shop: Workshop, parts: readonly Part[]): Channels {
  // Bars are few triangles and round parts many: those are joined with one another only.
  let [bars, round] = [shop.union([]), shop.union([])];
  const cuts = parts.map(({ solid, bar }) => {
    if (!solid) return { alone: 0, level: NOTHING };
    const own = shop.difference(solid, [bars]);
    const level = bar ? shop.mesh(own) : NOTHING;
    const alone = shop.volume(shop.difference(own, [round]));
    if (bar) bars = shop.union([bars, solid]);
    else round = shop.union([round, solid]);
    return { alone, level };
  });
  const added: Added = (shared, lies) => {
    const taken = shared.map((volumes, i) =>
      volumes(cuts.map(({ level }) => meshFromBlock(level, lies[i]!))),
    );
    return cuts.map(({ alone }, k) => taken.reduce((left, of) => left - of[k]!, alone));
  };
  return { all: shop.union([round, bars]), added };
}

/** What channels, of which bars reach into baits, add below the parting plane to merged baits [m³]. */
function besidesBelow(
  shop: Workshop,
  baits: readonly MergedBait[],
  { cavities }: MoldLayout,
  { all, bars }: { readonly all: Solid; readonly bars: Solid },
): number {
  const below = (solid: Solid) => shop.trim(solid, [0, 0, -1], 0);
  const level = shop.mesh(below(bars));
  const shared = baits.map((bait, i) => bait.shared([meshFromBlock(level, cavities[i]!)])[0]!);
  return shop.volume(below(all)) - sumOf(shared);
}

function checkApart(shop: Workshop, baits: readonly Solid[], { cavities }: MoldLayout): void {
  const boxes = cavities.map(({ outline }) => outlineBox(outline));
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

function boxesApart(a: PlanBox, b: PlanBox): boolean {
  return ([0, 1] as const).some((axis) => a.max[axis] < b.min[axis] || b.max[axis] < a.min[axis]);
}

function checkChannels(
  shop: Workshop,
  baits: readonly Solid[],
  { mold, layout }: { readonly mold: MoldTable; readonly layout: MoldLayout },
  { sprue, runner }: Pick<ChannelSolids, 'sprue' | 'runner'>,
): void {
  const { mouth, end } = layout.sprue;
  const channels = [
    { name: 'sprue', solid: sprue, boxes: [boxAbout([mouth, end], mold.sprue.mouth / 2)] },
    {
      name: 'runner',
      solid: runner,
      boxes: layout.runner.map(({ from, to }) => boxAbout([from, to], (mold.runner?.diameter ?? 0) / 2)),
    },
  ];
  const outlines = layout.cavities.map(({ outline }) => outlineBox(outline));
  for (const { name, solid, boxes } of channels) {
    const index = baits.findIndex(
      (bait, i) =>
        solid &&
        !boxes.every((box) => boxesApart(box, outlines[i]!)) &&
        shop.volume(shop.intersection(solid, bait)) > 0,
    );
    if (index >= 0) {
      throw new RangeError(
        `${name}: wants to reach cavity ${index + 1} through its gate only, got one that cuts into it; move the cavity`,
      );
    }
  }
}

/** Extents of points with room about them [m]. */
function boxAbout(points: readonly Vec2[], room: number): PlanBox {
  const { min, max } = outlineBox([points]);
  return { min: [min[0] - room, min[1] - room], max: [max[0] + room, max[1] + room] };
}

function checkGates(
  shop: Workshop,
  baits: readonly MergedBait[],
  { cavities }: MoldLayout,
  gates: readonly Solid[],
): void {
  const index = baits.findIndex(({ own }, i) => {
    const gate = meshFromBlock(shop.mesh(gates[i]!), cavities[i]!);
    return !(own.shared([gate])[0]! > 0);
  });
  if (index >= 0) {
    throw new RangeError(
      `gate: wants to open into cavity ${index + 1}, got one that misses it; gate the bait at another place`,
    );
  }
}
