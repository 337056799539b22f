import type { Mesh, Vec2 } from '../mesh/mesh.ts';
import type { Outline } from '../section/geometry.ts';

/** One cavity: the bait that is cut in it and where; without x and y it is placed [m, rad]. */
export interface CavityTable {
  /** The bait in its own frame: nose at x = 0, parting plane z = 0. */
  readonly mesh: Mesh;
  /** Its silhouette on the parting plane. */
  readonly plan: Outline;
  /** Tips of its thin parts, in its own frame: the vents go there first. */
  readonly tips?: readonly Vec2[] | undefined;
  /** Where the nose lies, from the block's left edge. */
  readonly x?: number | undefined;
  /** Where the middle line lies, from the lower edge. */
  readonly y?: number | undefined;
  readonly turn?: number | undefined;
  readonly mirrored?: boolean | undefined;
}

/** A tier of vents as it is cut [m]. */
export interface VentTable {
  readonly tier: 'edge' | 'collector' | 'outlet';
  readonly depth: number;
  readonly width: number;
  readonly land: number;
  /** On each cavity. */
  readonly count: number;
}

/** What a mold is cut from and with [m]. */
export interface MoldTable {
  readonly cavities: readonly CavityTable[];
  /** Both halves together. */
  readonly block: { readonly length: number; readonly width: number; readonly thickness: number };
  readonly sprue: { readonly mouth: number; readonly end: number; readonly length: number };
  readonly runner?: { readonly diameter: number } | undefined;
  readonly gate: {
    readonly width: number;
    readonly depth: number;
    readonly length: number;
    readonly at: 'nose' | 'tail' | 'side';
  };
  readonly vents: readonly VentTable[];
  readonly pins?: { readonly count: number; readonly diameter: number } | undefined;
}

/** A bar of rectangular plan: from one point to another, of a width [m]. */
export interface PlanBar {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly width: number;
}

/** A cavity as it lies in the block [m, rad]. */
export interface PlacedCavity {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
  readonly mirrored: boolean;
  /** Its silhouette in the block's frame. */
  readonly outline: Outline;
  /** Where the gate enters it, and the way from there to the runner. */
  readonly gate: { readonly at: Vec2; readonly out: Vec2 };
}

/** A vent as it lies in the block [m]. */
export interface PlacedVent extends PlanBar {
  readonly tier: VentTable['tier'];
  readonly depth: number;
  /** Index of the cavity it serves. */
  readonly cavity: number;
  /** True when it ends at the block's edge. */
  readonly open: boolean;
}

/** Where everything lies in the closed block: x along it from the left edge, y from the lower edge [m]. */
export interface MoldLayout {
  readonly cavities: readonly PlacedCavity[];
  /** Round channels: stretches of the runner tree. */
  readonly runner: readonly { readonly from: Vec2; readonly to: Vec2 }[];
  readonly runnerLength: number;
  readonly gates: readonly PlanBar[];
  /** Mouth on the block's edge, end at the runner. */
  readonly sprue: { readonly mouth: Vec2; readonly end: Vec2 };
  readonly vents: readonly PlacedVent[];
  readonly pins: readonly { readonly at: Vec2; readonly diameter: number; readonly depth: number }[];
  /** For the maker: what found no room. */
  readonly notes: readonly string[];
}

/** Least metal left between a cavity and the block's edge, or between two cavities [m]. */
export const LEAST_WALL = 3e-3;
