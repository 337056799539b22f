import type { MeshFault } from './mesh.ts';

/** Bytes in the megabyte that limits are given in. */
export const MEGABYTE = 2 ** 20;

/**
 * What a mesh file may be. A file beyond any row is refused in one sentence that names the row.
 *
 * | row | limit | why |
 * | --- | --- | --- |
 * | `bytes` | 100 MB (of 2²⁰ bytes) | holds two million triangles of binary STL |
 * | `triangles` | 2 000 000 | far finer than any cutter follows |
 * | `seconds` | 30 s | wall time of reading one file in its worker |
 * | `heapMegabytes` | 1024 MB | JavaScript heap of that worker; buffers are bounded by `bytes` and `triangles` |
 * | `inlineBytes` | 2 MB | smaller files are read without a worker |
 * | `zipEntries` | 100 | files in a 3MF package |
 * | `zipBytes` | 200 MB | what a 3MF package may unpack to |
 * | `zipRatio` | 200 | unpacked over packed size of one part |
 * | `instances` | 10 000 | components placed while a 3MF build is put together |
 * | `componentDepth` | 16 | components within components |
 * | `weldShare` | 1e-5 | gap that is joined, over the diagonal of the box, when exact joining leaves the surface open |
 * | `planarShare` | 1e-3 | distance of a polygon's corner from its plane, over the polygon's size, that a fan may bridge |
 * | `polygonCorners` | 1 000 | corners of one OBJ polygon |
 * | `lengthShare` | 0.02 | gap between measured and stated length |
 */
export const MESH_LIMITS = {
  bytes: 100 * MEGABYTE,
  triangles: 2_000_000,
  seconds: 30,
  heapMegabytes: 1024,
  inlineBytes: 2 * MEGABYTE,
  zipEntries: 100,
  zipBytes: 200 * MEGABYTE,
  zipRatio: 200,
  instances: 10_000,
  componentDepth: 16,
  weldShare: 1e-5,
  planarShare: 1e-3,
  polygonCorners: 1000,
  lengthShare: 0.02,
} as const;

/**
 * The refusal of a file that is too large.
 *
 * @param size - of the file [bytes]
 * @returns a fault that names size and limit [MB]
 *
 * Cost: constant.
 * Source: `MESH_LIMITS`.
 */
export function fileSizeFault(size: number): MeshFault {
  const [has, limit] = [size / MEGABYTE, MESH_LIMITS.bytes / MEGABYTE];
  const message = `the file has ${has.toFixed(1)} MB, the limit is ${limit} MB; export a coarser mesh`;
  return { kind: 'limit', message };
}

/**
 * The refusal of a mesh with too many triangles.
 *
 * @param count - triangles found so far [-]
 * @returns a fault that names count and limit [-]
 *
 * Cost: constant.
 * Source: `MESH_LIMITS`.
 */
export function triangleLimitFault(count: number): MeshFault {
  const limit = MESH_LIMITS.triangles;
  const message = `the mesh has at least ${count} triangles, the limit is ${limit}; export it with a coarser tolerance`;
  return { kind: 'limit', message };
}
