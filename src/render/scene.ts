import type { Mesh } from '../core/mesh/mesh.ts';
import type { Camera, Size } from './camera.ts';
import type { Material } from './material.ts';
import { normalsOf, type Normals } from './normals.ts';

/** A solid of one material in a scene [mm]. */
export interface Part {
  readonly mesh: Mesh;
  readonly normals: Normals;
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
  const positions = new Float64Array(solid.positions.length);
  for (let i = 0; i < positions.length; i++) positions[i] = solid.positions[i]! * 1000;
  const mesh = { positions, triangles: solid.triangles };
  return { mesh, normals: normalsOf(mesh, CREASE), material };
}
