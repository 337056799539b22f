import { workerCount, workerPool, workerSource } from '../../io/worker-pool.ts';
import type { OwnTask, OwnWorkerData } from './worker.ts';

/**
 * Writes the files of molds and baits: on all cores but one as long as another process works beside, then on every core.
 *
 * @param tasks - whose
 * @param data - what they share, and where they are written to
 * @param signal - stops the work
 * @param beside - settles when no other process works beside any more
 */
export async function writeOwnFiles(
  tasks: readonly OwnTask[],
  data: OwnWorkerData,
  signal: AbortSignal,
  beside: Promise<unknown>,
): Promise<void> {
  if (tasks.length === 0) return;
  const source = workerSource('src/site/own/worker.ts');
  const all = workerCount(tasks.length);
  const pool = workerPool<OwnTask, number>(source, data, Math.max(1, all - 1));
  const alone = () => pool.widen(all);
  beside.then(alone, alone);
  const stopped = new Promise<never>((_, reject) => {
    signal.addEventListener('abort', () => reject(signal.reason as Error), { once: true });
  });
  try {
    await Promise.race([Promise.all(tasks.map((task) => pool.run(task))), stopped]);
  } finally {
    await pool.close();
  }
}
