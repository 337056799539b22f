import { MESH_LIMITS, triangleLimitFault } from './limits.ts';
import type { MeshFault } from './mesh.ts';
import { modelPart } from './model-part.ts';
import type { ModelObject, ModelPart, Placement, Transform } from './model-part.ts';
import { determinant } from './placement.ts';
import { isMeshFault, meshFault } from './result.ts';
import type { FileMesh } from './result.ts';
import { readXml } from './xml.ts';
import { zipContent, zipEntries } from './zip.ts';
import type { ZipEntry } from './zip.ts';

const RELATIONS = '_rels/.rels';
const MODEL_RELATION = 'http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel';

/**
 * Points and triangles of everything that a 3MF package builds, components placed, in the unit that its model states
 * (millimeter when it states none).
 *
 * @param bytes - the whole file [bytes]
 * @returns points [file's unit] and what was left out, or one fault
 *
 * Cost: linear in the unpacked parts and in what is placed; bounded by `MESH_LIMITS`.
 * Source: 3MF Consortium, 3D Manufacturing Format Core Specification 1.4, 2 to 4.
 */
export function parsedThreeMf(bytes: Uint8Array): { file: FileMesh; notes: readonly string[] } | MeshFault {
  const entries = zipEntries(bytes);
  if (isMeshFault(entries)) return entries;
  const start = startPart(bytes, entries);
  if (isMeshFault(start)) return start;
  const build = new Build(bytes, entries);
  const fault = build.addAll(start.name);
  if (fault) return fault;
  const { positions, triangles, unit } = build;
  const file = { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles), unit };
  return { file, notes: build.notes };
}

function partKey(path: string): string {
  return path.toLowerCase().replace(/^\/+/u, '');
}

/** Name of the part that holds the build. */
function startPart(bytes: Uint8Array, entries: ReadonlyMap<string, ZipEntry>): { name: string } | MeshFault {
  const relations = entries.get(RELATIONS);
  if (!relations)
    return meshFault('format', 'this is no 3MF file: its package has no list of relations; export it again');
  const content = zipContent(bytes, relations);
  if (isMeshFault(content)) return content;
  let target: string | undefined;
  const fault = readXml(content, RELATIONS, {
    open(_, { Type, Target }) {
      if (Type === MODEL_RELATION) target ??= Target;
      return undefined;
    },
  });
  if (fault) return fault;
  return target === undefined
    ? meshFault('format', 'this is no 3MF file: its package names no model; export it again')
    : { name: target };
}

/** Puts the build of a package together. */
class Build {
  readonly positions: number[] = [];
  readonly triangles: number[] = [];
  unit: FileMesh['unit'] = 'mm';
  readonly #bytes: Uint8Array;
  readonly #entries: ReadonlyMap<string, ZipEntry>;
  readonly #parts = new Map<string, ModelPart>();
  #instances = 0;
  #leftOut = 0;

  constructor(bytes: Uint8Array, entries: ReadonlyMap<string, ZipEntry>) {
    this.#bytes = bytes;
    this.#entries = entries;
  }

  get notes(): string[] {
    if (this.#leftOut === 0) return [];
    return [
      `${this.#leftOut} support or surface object${this.#leftOut === 1 ? '' : 's'} of the 3MF left out`,
    ];
  }

  addAll(start: string): MeshFault | undefined {
    const part = this.#part(start);
    if (isMeshFault(part)) return part;
    this.unit = part.unit;
    if (part.build.length === 0)
      return meshFault('format', 'the 3MF file builds nothing; export it again with the solid in it');
    for (const item of part.build) {
      const fault = this.#add(item, start, [], 0);
      if (fault) return fault;
    }
    return undefined;
  }

  #part(path: string): ModelPart | MeshFault {
    const known = this.#parts.get(partKey(path));
    if (known) return known;
    const name = `"${path.replace(/[^\x20-\x7e]/gu, '?').slice(0, 60)}" in the 3MF package`;
    const entry = this.#entries.get(partKey(path));
    if (!entry) return meshFault('format', `${name} is missing; export the file again`);
    const content = zipContent(this.#bytes, entry);
    if (isMeshFault(content)) return content;
    const part = modelPart(content, name);
    if (!isMeshFault(part)) this.#parts.set(partKey(path), part);
    return part;
  }

  #add(
    placement: Placement,
    from: string,
    above: readonly Transform[],
    depth: number,
  ): MeshFault | undefined {
    if (++this.#instances > MESH_LIMITS.instances) {
      return meshFault(
        'limit',
        `the 3MF file places more than ${MESH_LIMITS.instances} components; export one solid`,
      );
    }
    if (depth > MESH_LIMITS.componentDepth) {
      return meshFault(
        'limit',
        `the 3MF file nests components more than ${MESH_LIMITS.componentDepth} deep; export one solid`,
      );
    }
    const path = placement.path ?? from;
    const part = this.#part(path);
    if (isMeshFault(part)) return part;
    if (part.unit !== this.unit)
      return meshFault('unit', 'parts of the 3MF file state different units; export it again');
    const object = part.objects.get(placement.id);
    if (!object)
      return meshFault(
        'index',
        `the 3MF file places object "${placement.id.slice(0, 40)}", which it does not hold`,
      );
    const transforms = [placement.transform, ...above];
    const flat = transforms.find((transform) => handedness(transform) === 0);
    if (flat) return meshFault('format', 'the 3MF file flattens an object by its transform; export it again');
    if (object.type !== 'model') {
      this.#leftOut++;
      return undefined;
    }
    for (const component of object.components) {
      const fault = this.#add(component, path, transforms, depth + 1);
      if (fault) return fault;
    }
    return this.#addMesh(object, transforms);
  }

  #addMesh({ positions, triangles }: ModelObject, transforms: readonly Transform[]): MeshFault | undefined {
    const total = (this.triangles.length + triangles.length) / 3;
    if (total > MESH_LIMITS.triangles) return triangleLimitFault(total);
    const base = this.positions.length / 3;
    for (let row = 0; row < positions.length; row += 3) {
      let point: readonly number[] = [positions[row]!, positions[row + 1]!, positions[row + 2]!];
      for (const transform of transforms) point = moved(point, transform);
      this.positions.push(point[0]!, point[1]!, point[2]!);
    }
    // A mirrored object keeps facing outwards only when its triangles turn the other way.
    const mirrored = transforms.reduce((sign, transform) => sign * handedness(transform), 1) < 0;
    for (let corner = 0; corner < triangles.length; corner += 3) {
      const [a, b, c] = [
        base + triangles[corner]!,
        base + triangles[corner + 1]!,
        base + triangles[corner + 2]!,
      ];
      this.triangles.push(a, mirrored ? c : b, mirrored ? b : c);
    }
    return undefined;
  }
}

function handedness(t: Transform): number {
  return Math.sign(
    determinant([
      [t[0]!, t[1]!, t[2]!],
      [t[3]!, t[4]!, t[5]!],
      [t[6]!, t[7]!, t[8]!],
    ]),
  );
}

function moved(point: readonly number[], t: Transform): number[] {
  const [x, y, z] = [point[0]!, point[1]!, point[2]!];
  return [0, 1, 2].map((axis) => x * t[axis]! + y * t[3 + axis]! + z * t[6 + axis]! + t[9 + axis]!);
}
