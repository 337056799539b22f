/**
 * A triangle mesh.
 * `positions` has shape (V, 3), row by row [m]; `triangles` has shape (T, 3), indices of rows of `positions`,
 * counter-clockwise seen from outside.
 *
 * In the mold's frame: x runs along the bait from the nose (x = 0), the parting plane is z = 0, z points out of
 * the half that lies face up, y lies across in the parting plane.
 */
export interface Mesh {
  readonly positions: Float64Array;
  readonly triangles: Uint32Array;
}

/** A point or a vector [m]. */
export type Vec3 = readonly [number, number, number];

/** A point in a plane [m]. */
export type Vec2 = readonly [number, number];

/** Axis-aligned bounding box [m]. */
export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

/** Why a mesh was refused: a plain sentence, and where the trouble is [m, in the file's own frame]. */
export interface MeshFault {
  readonly kind:
    | 'format'
    | 'limit'
    | 'not finite'
    | 'index'
    | 'open'
    | 'inverted'
    | 'inconsistent'
    | 'degenerate'
    | 'several bodies'
    | 'unit';
  readonly message: string;
  readonly at?: Vec3;
}
