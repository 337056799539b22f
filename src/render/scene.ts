import type { Mesh } from '../core/mesh/mesh.ts';
import { meshInBlock, type PlanPlacement } from '../core/solid/plan.ts';
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

/** A bait's part where the bait lies in the block, whose lengths are metres. */
export function partInBlock({ mesh, normals, material }: Part, lie: PlanPlacement): Part {
  const turned = (rows: Float32Array, corners: Uint32Array): Mesh =>
    meshInBlock({ positions: new Float64Array(rows), triangles: corners }, { ...lie, x: 0, y: 0 });
  const { positions, triangles } = turned(normals.rows, normals.corners);
  const faces = turned(normals.faces, new Uint32Array());
  return {
    mesh: meshInBlock(mesh, { ...lie, x: 1000 * lie.x, y: 1000 * lie.y }),
    normals: {
      faces: new Float32Array(faces.positions),
      rows: new Float32Array(positions),
      corners: triangles,
    },
    material,
  };
}
