import { toSI } from '../quantity/units.ts';
import type { UnitCode } from '../quantity/units.ts';
import type { Mesh, MeshFault, Vec3 } from './mesh.ts';

/** A mesh file that was read: closed, one body, facing outwards. */
export interface ReadMesh {
  readonly mesh: Mesh;
  /** How many triangles the mesh has. */
  readonly triangles: number;
  /** What was repaired on the way in, one plain sentence each. */
  readonly repairs: readonly string[];
  /** The unit of the numbers in the file. */
  readonly unit: MeshUnit;
}

/** A unit in which a mesh file may be written. */
export type MeshUnit = 'um' | 'mm' | 'cm' | 'm' | 'in' | 'ft';

/** Mesh units by their UCUM codes. */
export const MESH_UNITS: Readonly<Record<MeshUnit, UnitCode>> = {
  um: 'um',
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  in: '[in_i]',
  ft: '[ft_i]',
};

/** Points and triangles as a file gives them: `positions` in the file's own unit, else as {@link Mesh}. */
export interface FileMesh extends Mesh {
  readonly unit: MeshUnit;
}

/**
 * Length of one file unit.
 *
 * @param unit - the file's unit
 * @returns its length [m]
 *
 * Cost: constant.
 * Source: NIST SP 811 (2008) Appendix B.
 */
export function meshUnitLength(unit: MeshUnit): number {
  return toSI(1, MESH_UNITS[unit]);
}

/**
 * Whether reading came to a refusal.
 *
 * @param result - what a reader of meshes returned [-]
 * @returns true for a refusal [-]
 *
 * Cost: constant.
 * Source: definition.
 */
export function isMeshFault<T extends object>(result: T | MeshFault): result is MeshFault {
  return 'kind' in result && 'message' in result;
}

/**
 * A refusal without a place.
 *
 * @param kind - what kind of trouble
 * @param message - a plain sentence: what is wrong and what to do
 * @returns the refusal [-]
 *
 * Cost: constant.
 * Source: definition.
 */
export function meshFault(kind: MeshFault['kind'], message: string): MeshFault {
  return { kind, message };
}

/**
 * A refusal at a place, printed as "x 12.30, y 4.00, z 0.00 mm" where the message says `{place}`.
 *
 * @param kind - what kind of trouble
 * @param message - a plain sentence: what is wrong and what to do
 * @param point - where [`unit`]
 * @param unit - unit of the file
 * @returns the refusal, its place in metres
 *
 * Cost: constant.
 * Source: definition.
 */
export function meshFaultAt(
  kind: MeshFault['kind'],
  message: string,
  point: Vec3,
  unit: MeshUnit,
): MeshFault {
  const [x, y, z] = point.map((value) => printed(value));
  const place = `x ${x}, y ${y}, z ${z} ${unit === 'um' ? 'µm' : unit}`;
  const metre = meshUnitLength(unit);
  const at: Vec3 = [point[0] * metre, point[1] * metre, point[2] * metre];
  return { kind, message: message.replace('{place}', place), at };
}

function printed(value: number): string {
  const text = Math.abs(value) < 1e6 ? value.toFixed(2) : value.toPrecision(4);
  return text === '-0.00' ? '0.00' : text;
}

/**
 * A count with its noun: "1 open edge", "14 open edges".
 *
 * @param count - how many [-]
 * @param one - the noun for one
 * @returns count and noun
 *
 * Cost: constant.
 * Source: definition.
 */
export function counted(count: number, one: string): string {
  return `${count} ${count === 1 ? one : `${one}s`}`;
}
