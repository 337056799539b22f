import { workerCount, workerPool, workerSource } from '../../io/worker-pool.ts';
import type { OwnTask, OwnWorkerData } from './worker.ts';

/**
 * Writes the files of molds and baits on every core.
 *
 * @param tasks - whose
 * @param data - what they share, and where they are written to
 * @param signal - stops the work
 */
export async function writeOwnFiles(
  tasks: readonly OwnTask[],
  data: OwnWorkerData,
  signal: AbortSignal,
): Promise<void> {
  if (tasks.length === 0) return;
  const source = workerSource('src/site/own/worker.ts');
  const pool = workerPool<OwnTask, number>(source, data, workerCount(tasks.length));
  const stopped = new Promise<never>((_, reject) => {
    signal.addEventListener('abort', () => reject(signal.reason as Error), { once: true });
  });
  try {
    await Promise.race([Promise.all(tasks.map((task) => pool.run(task))), stopped]);
  } finally {
    await pool.close();
  }
}
