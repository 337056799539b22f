import { join } from 'node:path';
import type { MeshUnit } from '../core/mesh/result.ts';
import { diskMemory, diskStore } from './cache.ts';
import { fingerprint } from './fingerprint.ts';
import { readLedgers } from './ledger.ts';
import { readMeshFile } from './mesh-file.ts';

/** What the analysis of the catalogue in a folder needs: its mesh files, and the memory on disk. */
export function analysisTools(folder: string) {
  const store = diskStore();
  let ledgers: ReturnType<typeof readLedgers> | undefined;
  return {
    readMesh: (path: string, unit: MeshUnit | undefined) => readMeshFile(join(folder, path), unit),
    fingerprint: (path: string) => fingerprint(join(folder, path), store),
    remember: diskMemory(),
    ledgers: async () => (await (ledgers ??= readLedgers(folder))).ledgers,
  };
}
