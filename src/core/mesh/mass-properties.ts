import type { Box, Mesh, Vec3 } from './mesh.ts';

/** ∫x_i·x_j dV of a solid, about a stated point [m⁵]. */
export interface SecondMoments {
  readonly xx: number;
  readonly yy: number;
  readonly zz: number;
  readonly xy: number;
  readonly yz: number;
  readonly zx: number;
}

/** Size, place and spread of a solid. */
export interface MassProperties {
  /** Negative for a solid that is inside out [m³]. */
  readonly volume: number;
  /** [m²] */
  readonly surface: number;
  /** [m] */
  readonly centroid: Vec3;
  /** About the centroid [m⁵]. */
  readonly moments: SecondMoments;
  readonly box: Box;
}

/**
 * Axis-aligned box of all points of a mesh.
 *
 * @param mesh - at least one point [m]
 * @returns least and greatest coordinates [m]
 * @throws {RangeError} when the mesh has no points
 *
 * Cost: one pass over the points.
 * Source: definition.
 */
export function meshBox({ positions: p }: Mesh): Box {
  if (p.length < 3) throw new RangeError('meshBox: wants at least one point, got 0');
  let x0 = p[0]!;
  let y0 = p[1]!;
  let z0 = p[2]!;
  let x1 = x0;
  let y1 = y0;
  let z1 = z0;
  for (let row = 3; row < p.length; row += 3) {
    const x = p[row]!;
    const y = p[row + 1]!;
    const z = p[row + 2]!;
    if (x < x0) x0 = x;
    else if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    else if (y > y1) y1 = y;
    if (z < z0) z0 = z;
    else if (z > z1) z1 = z;
  }
  return { min: [x0, y0, z0], max: [x1, y1, z1] };
}

/**
 * Centre of a box.
 *
 * @param box - any box [m]
 * @returns its middle point [m]
 *
 * Cost: constant.
 * Source: definition.
 */
export function boxCentre({ min, max }: Box): Vec3 {
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
}

/**
 * Volume inside a closed mesh and its surface in one pass, V = Σ (a-o)·(b-a)×(c-a)/6 about the centre o of its box and
 * A = Σ ½|(b-a)×(c-a)|.
 *
 * @param mesh - closed and consistently wound [m]
 * @returns volume, negative when the mesh is inside out [m³], and surface [m²]
 * @throws {RangeError} when the mesh has no points
 *
 * Cost: one pass over the points, one over the triangles, no allocation.
 * Source: B. Mirtich, "Fast and accurate computation of polyhedral mass properties", J. Graphics Tools 1(2), 1996, 31-50.
 */
export function meshSize(mesh: Mesh): { volume: number; surface: number } {
  const { positions: p, triangles } = mesh;
  const [ox, oy, oz] = boxCentre(meshBox(mesh));
  let sixfold = 0;
  let twofold = 0;
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const i = 3 * triangles[corner]!;
    const j = 3 * triangles[corner + 1]!;
    const k = 3 * triangles[corner + 2]!;
    const ax = p[i]!;
    const ay = p[i + 1]!;
    const az = p[i + 2]!;
    const bx = p[j]! - ax;
    const by = p[j + 1]! - ay;
    const bz = p[j + 2]! - az;
    const cx = p[k]! - ax;
    const cy = p[k + 1]! - ay;
    const cz = p[k + 2]! - az;
    const nx = by * cz - bz * cy;
    const ny = bz * cx - bx * cz;
    const nz = bx * cy - by * cx;
    sixfold += (ax - ox) * nx + (ay - oy) * ny + (az - oz) * nz;
    twofold += Math.sqrt(nx * nx + ny * ny + nz * nz);
  }
  return { volume: sixfold / 6, surface: twofold / 2 };
}

/**
 * Volume inside a closed mesh.
 *
 * @param mesh - closed and consistently wound [m]
 * @returns volume, negative when the mesh is inside out [m³]
 * @throws {RangeError} when the mesh has no points
 *
 * Cost: as {@link meshSize}, which gives the surface too.
 * Source: as {@link meshSize}.
 */
export function meshVolume(mesh: Mesh): number {
  return meshSize(mesh).volume;
}

/**
 * Surface of a mesh.
 *
 * @param mesh - any mesh [m]
 * @returns area of all triangles [m²]
 * @throws {RangeError} when the mesh has no points
 *
 * Cost: as {@link meshSize}, which gives the volume too.
 * Source: as {@link meshSize}.
 */
export function meshSurface(mesh: Mesh): number {
  return meshSize(mesh).surface;
}

/**
 * Volume, surface, centroid, second moments and box of the solid inside a closed mesh.
 *
 * With det = a·(b×c) and s = a+b+c: V = Σ det/6, C = Σ det·s/24 / V, ∫x_i x_j dV = Σ det(a_i a_j + b_i b_j + c_i c_j +
 * s_i s_j)/120, all about the centre of the box, then moved to the centroid.
 *
 * @param mesh - closed and consistently wound [m]
 * @returns volume [m³], surface [m²], centroid [m], moments about the centroid [m⁵], box [m]
 * @throws {RangeError} when the mesh has no points or encloses no volume
 *
 * Cost: two passes over the triangles.
 * Source: B. Mirtich, J. Graphics Tools 1(2), 1996, 31-50; D. Eberly, "Polyhedral mass properties (revisited)", Geometric
 * Tools, 2002/2009 (from memory); M. Kallay, J. Graphics Tools 11(2), 2006, 51-57.
 */
export function massProperties(mesh: Mesh): MassProperties {
  const box = meshBox(mesh);
  const centre = boxCentre(box);
  const sums = solidSums(mesh, centre);
  const volume = sums[0]! / 6;
  if (volume === 0) throw new RangeError('massProperties: wants a mesh that encloses volume, got 0');
  const [x, y, z] = [sums[1]!, sums[2]!, sums[3]!].map((sum) => sum / 24 / volume) as [
    number,
    number,
    number,
  ];
  const about = (sum: number, product: number) => sum / 120 - volume * product;
  return {
    volume,
    surface: meshSurface(mesh),
    centroid: [centre[0] + x, centre[1] + y, centre[2] + z],
    moments: {
      xx: about(sums[4]!, x * x),
      yy: about(sums[5]!, y * y),
      zz: about(sums[6]!, z * z),
      xy: about(sums[7]!, x * y),
      yz: about(sums[8]!, y * z),
      zx: about(sums[9]!, z * x),
    },
    box,
  };
}

/** Σ det, Σ det·s (3), Σ det·(products) in the order xx, yy, zz, xy, yz, zx. */
function solidSums({ positions: p, triangles }: Mesh, [ox, oy, oz]: Vec3): Float64Array {
  const sums = new Float64Array(10);
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const i = 3 * triangles[corner]!;
    const j = 3 * triangles[corner + 1]!;
    const k = 3 * triangles[corner + 2]!;
    const ax = p[i]! - ox;
    const ay = p[i + 1]! - oy;
    const az = p[i + 2]! - oz;
    const bx = p[j]! - ox;
    const by = p[j + 1]! - oy;
    const bz = p[j + 2]! - oz;
    const cx = p[k]! - ox;
    const cy = p[k + 1]! - oy;
    const cz = p[k + 2]! - oz;
    const sx = ax + bx + cx;
    const sy = ay + by + cy;
    const sz = az + bz + cz;
    const det = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    sums[0] = sums[0]! + det;
    sums[1] = sums[1]! + det * sx;
    sums[2] = sums[2]! + det * sy;
    sums[3] = sums[3]! + det * sz;
    sums[4] = sums[4]! + det * (ax * ax + bx * bx + cx * cx + sx * sx);
    sums[5] = sums[5]! + det * (ay * ay + by * by + cy * cy + sy * sy);
    sums[6] = sums[6]! + det * (az * az + bz * bz + cz * cz + sz * sz);
    sums[7] = sums[7]! + det * (ax * ay + bx * by + cx * cy + sx * sy);
    sums[8] = sums[8]! + det * (ay * az + by * bz + cy * cz + sy * sz);
    sums[9] = sums[9]! + det * (az * ax + bz * bx + cz * cx + sz * sx);
  }
  return sums;
}

/**
 * Second moments about another point, by the parallel-axis theorem.
 *
 * @param properties - of a solid [SI]
 * @param point - where to take them [m]
 * @returns ∫(x-p)_i(x-p)_j dV [m⁵]
 *
 * Cost: constant.
 * Source: parallel-axis (Steiner) theorem.
 */
export function momentsAbout({ volume, centroid, moments }: MassProperties, point: Vec3): SecondMoments {
  const x = centroid[0] - point[0];
  const y = centroid[1] - point[1];
  const z = centroid[2] - point[2];
  return {
    xx: moments.xx + volume * x * x,
    yy: moments.yy + volume * y * y,
    zz: moments.zz + volume * z * z,
    xy: moments.xy + volume * x * y,
    yz: moments.yz + volume * y * z,
    zx: moments.zx + volume * z * x,
  };
}

/**
 * Moments of inertia of a solid of uniform density, from its second moments about the same point.
 *
 * @param moments - ∫x_i x_j dV [m⁵]
 * @param density - [kg/m³]
 * @returns I = ρ(tr(S)·1 - S), the tensor's six entries, products with their sign in the tensor [kg·m²]
 *
 * Cost: constant.
 * Source: B. Mirtich, J. Graphics Tools 1(2), 1996, 31-50, with its sign correction of 27 May 1997.
 */
export function inertiaTensor(moments: SecondMoments, density: number): SecondMoments {
  const { xx, yy, zz, xy, yz, zx } = moments;
  return {
    xx: density * (yy + zz),
    yy: density * (zz + xx),
    zz: density * (xx + yy),
    xy: -density * xy,
    yz: -density * yz,
    zx: -density * zx,
  };
}
