import type { Mesh } from '../core/mesh/mesh.ts';
import type { Camera, Size } from './camera.ts';
import type { Material } from './material.ts';
import { cornerNormals } from './normals.ts';

/** A solid of one material in a scene [mm]. */
export interface Part {
  readonly mesh: Mesh;
  /** Of every corner of every face: shape (T, 3, 3). */
  readonly normals: Float32Array;
  readonly material: Material;
}

/** Solids that rest on level ground, and who looks at them [mm]. */
export interface Scene {
  readonly parts: readonly Part[];
  /** Height of the ground. */
  readonly ground: number;
  readonly camera: Camera;
  readonly size: Size;
}

/** Faces that meet at less than this belong to one smooth surface [rad]. */
const CREASE = (38 * Math.PI) / 180;

/** A part of a scene from a solid in metres. */
export function partOf(solid: Mesh, material: Material): Part {
  const mesh = { positions: solid.positions.map((value) => value * 1000), triangles: solid.triangles };
  return { mesh, normals: cornerNormals(mesh, CREASE), material };
}
