import { join } from 'node:path';
import type { MeshFault } from '../core/mesh/mesh.ts';
import type { MeshUnit, ReadMesh } from '../core/mesh/result.ts';
import { readMeshFile } from './mesh-file.ts';

/** A reader of the mesh files of one catalogue: takes the path below its folder and the unit that the entry states. */
export function meshesIn(folder: string) {
  return (path: string, unit: MeshUnit | undefined): Promise<ReadMesh | MeshFault> =>
    readMeshFile(join(folder, path), unit);
}
