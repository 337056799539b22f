import { traceOf, workerCount, workerPool, workerSource } from '../../io/worker-pool.ts';
import type { HostReply, HostTask } from './apart.ts';
import type { Outcome } from './work.ts';
import type { GroupTask } from './worker.ts';

const send = (reply: HostReply): void => void process.send?.(reply);

async function work({ tasks, data }: HostTask): Promise<void> {
  const source = workerSource('src/site/analysis/worker.ts');
  const pool = workerPool<GroupTask, Outcome>(source, data, workerCount(tasks.length));
  try {
    await Promise.all(tasks.map(async (task, index) => send({ index, outcome: await pool.run(task) })));
  } catch (error) {
    send({ trace: traceOf(error) });
  }
}

// Without the one who asked there is no one to work for.
process.on('disconnect', () => process.exit(1));
process.once('message', (task: HostTask) => void work(task));
