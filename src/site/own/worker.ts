import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parentPort, workerData } from 'node:worker_threads';
import sharp from 'sharp';
import { diskStore } from '../../io/cache.ts';
import { traceOf, type PoolReply } from '../../io/worker-pool.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import type { Shared } from '../analysis/groups.ts';
import { keptSheet } from '../analysis/work.ts';
import type { OwnFile } from './own-file.ts';

/** What every thread knows from the start. */
export interface OwnWorkerData {
  readonly shared: Shared;
  /** Where the site is put together. */
  readonly folder: string;
}

/** Whose files to write. */
export interface OwnTask {
  readonly kind: 'molds' | 'baits';
  readonly id: string;
  /** The sheet that they are written from, and what it is stored under. */
  readonly mold: string;
  readonly address: string;
}

const { shared, folder } = workerData as OwnWorkerData;
const store = diskStore();

// It keeps what it read and made lately, in case it is asked for once more; nothing here is.
sharp.cache(false);

// Drawings and cards take the shop's accent from this name, as the bundler gives it to pages, once they are loaded.
Object.assign(globalThis, { PARTLINE_ACCENT: shared.shop.look.accent });
const { moldFiles } = await import('./mold-files.ts');
const { baitFiles } = await import('./bait-files.ts');

async function filesOf(kind: OwnTask['kind'], sheet: Sheet): Promise<OwnFile[]> {
  return kind === 'molds' ? moldFiles(sheet, shared) : baitFiles(sheet);
}

async function written({ kind, id, mold, address }: OwnTask): Promise<number> {
  const sheet = keptSheet(store, { address }, mold);
  if (!sheet) throw new RangeError(`own files: wants the sheet of ${mold} in the cache, got none`);
  const own = join(folder, kind, id);
  mkdirSync(own, { recursive: true });
  const files = await filesOf(kind, sheet);
  for (const { name, make } of files) writeFileSync(join(own, name), await make());
  return files.length;
}

async function reply(task: OwnTask): Promise<PoolReply<number>> {
  try {
    return { answer: await written(task) };
  } catch (error) {
    return { trace: traceOf(error) };
  }
}

parentPort?.on('message', (task: OwnTask) => {
  void reply(task).then((answer) => parentPort?.postMessage(answer));
});
