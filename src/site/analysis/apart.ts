import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { ALLOCATORS } from '../../io/allocators.ts';
import { childArguments, giveBack } from '../../io/v8.ts';
import { workerSource } from '../../io/worker-pool.ts';
import type { Outcome } from './work.ts';
import type { GroupTask, WorkerData } from './worker.ts';

/** What the process that hosts the threads is sent, once. */
export interface HostTask {
  readonly tasks: readonly GroupTask[];
  readonly data: WorkerData;
}

/** What it sends back: the outcome of one task after another, or the trace of a mistake of the program. */
export type HostReply = { readonly index: number; readonly outcome: Outcome } | { readonly trace: string };

/**
 * Works groups out on every core in a process of its own: the memory that this takes is given back before anything else is done.
 *
 * @param tasks - begun in this order
 * @param data - what they share
 * @param onDone - told of each as it is done
 * @returns their outcomes, in their order
 * @throws {Error} with the trace of a mistake of the program, or when the process ends before it is done
 */
export async function workedApart(
  tasks: readonly GroupTask[],
  data: WorkerData,
  onDone: (index: number) => void,
): Promise<Outcome[]> {
  if (tasks.length === 0) return [];
  giveBack();
  const host = fork(fileURLToPath(workerSource('src/site/analysis/apart-worker.ts')), {
    execArgv: childArguments(new Set(tasks.flatMap(({ ids }) => ids)).size),
    env: { ...process.env, ...ALLOCATORS },
    serialization: 'advanced',
  });
  const outcomes: Outcome[] = [];
  let done = 0;
  try {
    return await new Promise<Outcome[]>((resolve, reject) => {
      host.on('message', (reply: HostReply) => {
        if ('trace' in reply) return void reject(new Error(reply.trace));
        outcomes[reply.index] = reply.outcome;
        onDone(reply.index);
        if (++done === tasks.length) resolve(outcomes);
      });
      host.once('error', reject);
      host.once('exit', (code, signal) =>
        reject(
          new Error(
            `analysis: its process ended early (${signal ?? code}); where memory is short, set PARTLINE_WORKERS=1`,
          ),
        ),
      );
      host.send({ tasks, data } satisfies HostTask);
    });
  } finally {
    host.kill();
  }
}
