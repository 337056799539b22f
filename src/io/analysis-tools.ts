import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { MeshUnit } from '../core/mesh/result.ts';
import { diskMemory } from './cache.ts';
import { readLedgers } from './ledger.ts';
import { readMeshFile } from './mesh-file.ts';

/** What the analysis of the catalogue in a folder needs: its mesh files, and the memory on disk. */
export function analysisTools(folder: string) {
  return {
    readMesh: (path: string, unit: MeshUnit | undefined) => readMeshFile(join(folder, path), unit),
    fingerprint: async (path: string): Promise<string> => {
      const bytes = await readFile(join(folder, path)).catch(() => new Uint8Array());
      return createHash('sha256').update(bytes).digest('hex');
    },
    remember: diskMemory(),
    ledgers: async () => (await readLedgers(folder)).ledgers,
  };
}
