import type { MeshFault } from '../../src/core/mesh/mesh.ts';
import { isMeshFault } from '../../src/core/mesh/result.ts';
import type { ReadMesh } from '../../src/core/mesh/result.ts';

/** The solid that was read; fails the test when it was refused. */
export function solidOf(result: ReadMesh | MeshFault): ReadMesh {
  if (isMeshFault(result)) throw new Error(`refused: ${result.message}`);
  return result;
}

/** The refusal; fails the test when a solid was read. */
export function faultOf(result: object): MeshFault {
  if (!isMeshFault(result)) throw new Error('read, and should have been refused');
  return result;
}
