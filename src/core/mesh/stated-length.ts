import { MESH_LIMITS } from './limits.ts';
import type { MeshFault } from './mesh.ts';
import { meshFault, meshUnitLength } from './result.ts';
import type { MeshUnit } from './result.ts';

/** The units that an author may state come first. */
const UNITS = ['mm', 'in', 'cm', 'm', 'um', 'ft'] as const;
const STATABLE = 4;

/** A measured length, the length that was stated for it, and the unit that was assumed. */
export interface LengthClaim {
  /** [m] */
  readonly measured: number;
  /** [m] */
  readonly stated: number;
  readonly unit: MeshUnit;
  /** True where the file itself names its unit (3MF). */
  readonly unitInFile?: boolean;
}

/**
 * Whether a solid is as long as its author says, within `MESH_LIMITS.lengthShare`; where it is not and the ratio is that
 * of two units, the unit that would make it right.
 *
 * @param claim - measured and stated length [m], and the unit of the file
 * @returns nothing when they agree, else a fault that names both lengths, their ratio and the remedy
 * @throws {RangeError} when a length is not positive and finite
 *
 * Cost: constant.
 * Source: unit ratios from NIST SP 811 (2008) Appendix B.
 */
export function statedLengthFault({
  measured,
  stated,
  unit,
  unitInFile = false,
}: LengthClaim): MeshFault | undefined {
  for (const [name, value] of Object.entries({ measured, stated })) {
    if (!(value > 0 && value < Infinity)) {
      throw new RangeError(`statedLengthFault: wants ${name} positive and finite, got ${value}`);
    }
  }
  const ratio = measured / stated;
  if (alike(ratio, 1)) return undefined;
  const units = unitInFile ? UNITS : UNITS.slice(0, STATABLE);
  const meant = units.find((other) => alike(ratio, meshUnitLength(unit) / meshUnitLength(other)));
  const lengths = `measures ${lengthIn(measured, unit)}, ${compared(ratio)} the stated ${lengthIn(stated, unit)}`;
  if (!meant) return meshFault('unit', `${lengths}; correct the stated length or the file`);
  const remedy = unitInFile ? `export it again with the unit ${meant}` : `set unit: ${meant}`;
  return meshFault('unit', `${lengths}: the file is in ${meant}; ${remedy}`);
}

function alike(a: number, b: number): boolean {
  return Math.abs(a / b - 1) <= MESH_LIMITS.lengthShare;
}

function lengthIn(length: number, unit: MeshUnit): string {
  return `${Number((length / meshUnitLength(unit)).toPrecision(4))} ${unit}`;
}

/** "25.4 times", "1/10 of", "5.5 % less than". */
function compared(ratio: number): string {
  if (ratio > 0.5 && ratio < 2) {
    const share = Number((100 * Math.abs(ratio - 1)).toPrecision(2));
    return `${share} % ${ratio > 1 ? 'more' : 'less'} than`;
  }
  return ratio >= 1 ? `${Number(ratio.toPrecision(3))} times` : `1/${Number((1 / ratio).toPrecision(3))} of`;
}
