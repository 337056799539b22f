import type { Box, Mesh, Vec2, Vec3 } from '../mesh/mesh.ts';

/** Closed rings in a plane, outer ones counter-clockwise, holes clockwise; the last point is not repeated [m]. */
export type Outline = readonly (readonly Vec2[])[];

/** A named thin part, measured on the solid from where it joins the body to its tip. */
export interface FeatureMeasure {
  readonly name: string;
  readonly kind: 'curl-tail' | 'ribbon-tail' | 'paddle' | 'arm' | 'claw' | 'leg' | 'rib' | 'fin';
  /** Length along its middle line [m]. */
  readonly length: number;
  /** From root (s = 0) to tip, at least 8 of them: arc length, thickness (smaller) and width (larger) of the section [m], middle point. */
  readonly stations: readonly {
    readonly s: number;
    readonly thickness: number;
    readonly width: number;
    readonly at: Vec3;
  }[];
  readonly rootThickness: number;
  readonly tipThickness: number;
  /** Smallest thickness anywhere on it but the rounding of its very end [m], and where. */
  readonly thinnest: { readonly thickness: number; readonly at: Vec3 };
}

/** Everything that is measured on one revision of a bait, in the mold's frame [m, m², m³]. */
export interface BaitGeometry {
  readonly mesh: Mesh;
  readonly box: Box;
  readonly volume: number;
  readonly surface: number;
  readonly centroid: Vec3;
  /** Area of the silhouette on the parting plane. */
  readonly projectedArea: number;
  /** Silhouette on the parting plane: (x, y). */
  readonly plan: Outline;
  /** Silhouette seen across: (x, z). */
  readonly across: Outline;
  /** Section areas at even stations along x. */
  readonly areaCurve: readonly { readonly x: number; readonly area: number }[];
  /** Diameter of the largest inscribed sphere and its centre. */
  readonly thickest: { readonly thickness: number; readonly at: Vec3 };
  readonly features: readonly FeatureMeasure[];
  /** What was repaired on the way in: "12 duplicate points welded". */
  readonly repairs: readonly string[];
}
