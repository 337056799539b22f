import type { MeshFault } from '../core/mesh/mesh.ts';
import type { Ledger } from '../schema/published.ts';
import type { MeshUnit, ReadMesh } from '../core/mesh/result.ts';

/**
 * Gives the result of `make`, or the one kept from an earlier run with the same inputs.
 * `inputs` is plain data and holds everything that the result depends on but the program itself. Where `what` is the
 * name of a module of this room, a change of the program counts only when that module runs the changed source.
 */
export type Remember = <Result>(
  what: string,
  inputs: unknown,
  make: () => Result | Promise<Result>,
) => Promise<Result>;

/** What the analysis needs from outside: mesh files, and a memory. */
export interface Tools {
  /** Reads a mesh file by its path below the catalogue, in the unit that the entry states. */
  readonly readMesh: (path: string, unit: MeshUnit | undefined) => Promise<ReadMesh | MeshFault>;
  /** A text that differs when the bytes of the file do. */
  readonly fingerprint: (path: string) => Promise<string>;
  readonly remember: Remember;
  /** What has been published from the catalogue. */
  readonly ledgers: () => Promise<readonly Ledger[]>;
}

/** No memory: everything is worked out anew. */
export const forgetful: Remember = async (_what, _inputs, make) => make();
