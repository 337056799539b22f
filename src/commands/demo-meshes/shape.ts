import { loadKernel, type Solid, type Workshop } from '../../core/solid/kernel.ts';
import type { Mesh } from '../../core/mesh/mesh.ts';

/** A demo bait that comes as a mesh file. */
export interface DemoShape {
  readonly id: string;
  readonly build: (shop: Workshop) => Solid;
}

/** How far the surface may move when small triangles are merged [m]. */
const TOLERANCE = 1.6e-5;

/** The mesh of a shape [m]: one closed body, else an error. */
export async function demoMesh({ id, build }: DemoShape): Promise<Mesh> {
  const kernel = await loadKernel();
  return kernel.work((shop) => {
    const solid = shop.simplify(build(shop), TOLERANCE);
    const bodies = shop.pieces(solid).length;
    if (bodies !== 1) throw new Error(`${id}: wants one body, got ${bodies}`);
    return shop.mesh(solid);
  });
}

/** Binary STL in millimetres; a corner is written in single precision. */
export function binaryStl({ positions, triangles }: Mesh): Uint8Array {
  const count = triangles.length / 3;
  const bytes = new Uint8Array(84 + 50 * count);
  bytes.set(new TextEncoder().encode('Partline demo mesh, millimetres'));
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (let t = 0; t < count; t++) {
    const corners = [0, 1, 2].map((k) =>
      [0, 1, 2].map((axis) => positions[3 * triangles[3 * t + k]! + axis]! * 1e3),
    );
    [...normalOf(corners), ...corners.flat()].forEach((value, i) =>
      view.setFloat32(84 + 50 * t + 4 * i, value, true),
    );
  }
  return bytes;
}

function normalOf([a, b, c]: readonly (readonly number[])[]): number[] {
  const u = [0, 1, 2].map((i) => b![i]! - a![i]!);
  const v = [0, 1, 2].map((i) => c![i]! - a![i]!);
  const n = [u[1]! * v[2]! - u[2]! * v[1]!, u[2]! * v[0]! - u[0]! * v[2]!, u[0]! * v[1]! - u[1]! * v[0]!];
  const length = Math.hypot(...n) || 1;
  return n.map((value) => value / length);
}
