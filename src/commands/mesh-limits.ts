import { MEGABYTE, MESH_LIMITS } from '../core/mesh/limits.ts';

const grouped = (count: number) => count.toString().replace(/\B(?=(?:\d{3})+$)/gu, ' ');
const megabytes = (bytes: number) => `${bytes / MEGABYTE} MB`;

const { bytes, triangles, seconds, heapMegabytes, lengthShare } = MESH_LIMITS;

const LIMITS: readonly (readonly [string, string, string])[] = [
  ['size of a file', megabytes(bytes), 'two million triangles of binary STL'],
  ['triangles', grouped(triangles), 'far finer than any cutter follows'],
  ['time to read one file', `${seconds} s`, 'a hundred times what the largest file takes'],
  [
    'memory to read one file',
    `${heapMegabytes} MB`,
    'the file is read beside the build, which goes on without it',
  ],
  [
    'unpacked 3MF',
    megabytes(MESH_LIMITS.zipBytes),
    `and up to ${MESH_LIMITS.zipRatio} times the packed size`,
  ],
  ['files in a 3MF', grouped(MESH_LIMITS.zipEntries), ''],
  [
    'placed parts of a 3MF',
    grouped(MESH_LIMITS.instances),
    `nested up to ${MESH_LIMITS.componentDepth} deep`,
  ],
  ['corners of an OBJ polygon', grouped(MESH_LIMITS.polygonCorners), ''],
  [
    'gap that is joined',
    `${MESH_LIMITS.weldShare} of the box's diagonal`,
    'only where exact joining leaves the surface open; `npm run check` says so',
  ],
  ['measured against stated length', `${100 * lengthShare} %`, 'a wrong unit is off by far more'],
];

/** The chapter on mesh files: formats, units, what is repaired, and every limit in one table, as Markdown. */
export function meshLimitsText(): string {
  return [
    '## Mesh files',
    '',
    'A bait may come as STL (binary or ASCII), OBJ or 3MF. STL and OBJ carry no unit: state the one they were exported in.',
    'A 3MF states its own. STEP is not read: export one of the three from the CAD program. The mesh must be one closed body',
    'that faces outwards. Only what is certain is repaired: equal points are welded, triangles without area dropped, gaps',
    'below the limit joined; `npm run check` says what was done. Anything else is refused in one line with its place.',
    '',
    '| what | limit | why |',
    '| --- | --- | --- |',
    ...LIMITS.map(([what, limit, why]) => `| ${what} | ${limit} | ${why} |`),
    '',
  ].join('\n');
}
