import { MESH_LIMITS, fileSizeFault } from './limits.ts';
import type { MeshFault } from './mesh.ts';
import { parsedObj } from './obj.ts';
import { counted, isMeshFault, meshFault } from './result.ts';
import type { FileMesh, MeshUnit, ReadMesh } from './result.ts';
import { checkedSolid } from './solid-check.ts';
import { parsedStl } from './stl.ts';
import { parsedThreeMf } from './three-mf.ts';
import { pointIndex } from './weld.ts';

/** Mesh formats that are read. */
export type MeshFormat = 'stl' | 'obj' | '3mf';

/**
 * The format that a file's name announces.
 *
 * @param name - file name or path
 * @returns the format, or a fault that names what to export instead [-]
 *
 * Cost: constant.
 * Source: definition.
 */
export function meshFormat(name: string): { format: MeshFormat } | MeshFault {
  const ending = /\.([^./\\]*)$/u.exec(name)?.[1]?.toLowerCase() ?? '';
  if (ending === 'stl' || ending === 'obj' || ending === '3mf') return { format: ending };
  const wanted = 'export STL (with its unit stated), 3MF or OBJ';
  if (ending === 'stp' || ending === 'step') {
    return meshFault('format', `STEP files are not read; ${wanted} from the CAD program`);
  }
  return meshFault('format', `"${ending.slice(0, 20)}" is no mesh format that is read; ${wanted}`);
}

/**
 * Reads a mesh file into a solid in metres: closed, one body, facing outwards; or says in one sentence why not.
 *
 * @param bytes - the whole file
 * @param options - the format, and the unit of the file's numbers: compulsory for STL and OBJ, which carry none; for 3MF it
 * may be left out and must agree with the file
 * @returns mesh [m], number of triangles [-], repairs; or one fault
 * @throws {RangeError} when `format` is none of the formats
 *
 * Valid: whatever bytes come. Does not look for triangles that pass through each other.
 * Cost: linear in the file; about 0.2 µs a triangle of binary STL.
 * Source: own derivation; formats as stated at each parser.
 */
export function readMesh(
  bytes: Uint8Array,
  { format, unit }: { format: MeshFormat; unit?: MeshUnit | undefined },
): ReadMesh | MeshFault {
  if (bytes.length > MESH_LIMITS.bytes) return fileSizeFault(bytes.length);
  if (bytes.length === 0) return meshFault('format', 'the file is empty; export it again');
  if (format === '3mf') return readThreeMf(bytes, unit);
  if (format !== 'stl' && format !== 'obj') {
    throw new RangeError(`readMesh: wants format stl, obj or 3mf, got ${String(format)}`);
  }
  if (unit === undefined) {
    const name = format.toUpperCase();
    return meshFault(
      'unit',
      `an ${name} file carries no unit; state the one it was exported in, for example "unit: mm"`,
    );
  }
  if (format === 'stl') {
    const file = parsedStl(bytes, unit);
    return isMeshFault(file) ? file : checkedSolid(file);
  }
  const file = parsedObj(bytes, unit);
  return isMeshFault(file) ? file : weldedSolid(file, []);
}

function readThreeMf(bytes: Uint8Array, stated: MeshUnit | undefined): ReadMesh | MeshFault {
  const parsed = parsedThreeMf(bytes);
  if (isMeshFault(parsed)) return parsed;
  const { file, notes } = parsed;
  if (stated !== undefined && stated !== file.unit) {
    return meshFault(
      'unit',
      `the 3MF file states its unit as ${file.unit}, the entry says ${stated}; leave "unit" out`,
    );
  }
  return weldedSolid(file, notes);
}

/** Joins equal points that the file gives different numbers, drops points that no triangle uses, then checks. */
function weldedSolid(file: FileMesh, notes: readonly string[]): ReadMesh | MeshFault {
  const { positions: p, triangles: given, unit } = file;
  const index = pointIndex(p.length / 3);
  const used = new Uint8Array(p.length / 3);
  const triangles = given.map((vertex) => {
    used[vertex] = 1;
    return index.numberOf(p[3 * vertex]!, p[3 * vertex + 1]!, p[3 * vertex + 2]!);
  });
  const positions = index.points();
  const joined = used.reduce((sum, one) => sum + one, 0) - positions.length / 3;
  const welded = joined > 0 ? [`${counted(joined, 'duplicate point')} welded`] : [];
  return checkedSolid({ positions, triangles, unit }, [...notes, ...welded]);
}
