import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';

/**
 * Room for young objects in each thread: a third of what Node.js takes by itself, which a thread would not give back. It costs
 * no time that could be measured.
 */
const LIMITS = { maxYoungGenerationSizeMb: 16 } as const;

/** What a worker is sent, and what it sends back: the answer, or the trace of a mistake of the program. */
export type PoolReply<Answer> = { readonly answer: Answer } | { readonly trace: string };

/** Trace of whatever was thrown. */
export const traceOf = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error);

/** Threads that take tasks from one queue. */
export interface Pool<Task, Answer> {
  /** Queues a task; answers may come in any order. */
  readonly run: (task: Task) => Promise<Answer>;
  /** Lets more threads work from now on; fewer than there are makes no difference. */
  readonly widen: (count: number) => void;
  /** Stops every thread; what is still under way is lost. */
  readonly close: () => Promise<void>;
}

interface Job<Task, Answer> {
  readonly task: Task;
  readonly resolve: (answer: Answer) => void;
  readonly reject: (error: Error) => void;
}

/** Threads worth starting: one a core, or as many as `PARTLINE_WORKERS` says. */
export function workerCount(tasks: number): number {
  const wanted = Number(process.env['PARTLINE_WORKERS']) || availableParallelism();
  return Math.max(1, Math.min(tasks, wanted));
}

/** Where a worker's source lies: the project's own file, also when this code was bundled elsewhere. */
export function workerSource(path: string): URL {
  const root = pathToFileURL(`${process.cwd()}/`);
  const source = new URL(path, root);
  if (!existsSync(source)) throw new RangeError(`workerSource: wants a file of the project, got ${path}`);
  return source;
}

/**
 * Starts threads on a module that answers each message with one `PoolReply`.
 *
 * @param source - the module
 * @param data - handed to every thread as its `workerData`
 * @param count - how many threads
 */
export function workerPool<Task, Answer>(source: URL, data: unknown, count: number): Pool<Task, Answer> {
  let most = count;
  const queue: Job<Task, Answer>[] = [];
  const idle: Worker[] = [];
  const busy = new Map<Worker, Job<Task, Answer>>();

  const next = (worker: Worker): void => {
    const job = queue.shift();
    if (!job) return void idle.push(worker);
    busy.set(worker, job);
    worker.postMessage(job.task);
  };
  const settle = (worker: Worker): Job<Task, Answer> | undefined => {
    const job = busy.get(worker);
    busy.delete(worker);
    return job;
  };
  const start = (): Worker => {
    const worker = new Worker(source, { workerData: data, resourceLimits: LIMITS });
    worker.on('message', (reply: PoolReply<Answer>) => {
      const job = settle(worker);
      if ('answer' in reply) job?.resolve(reply.answer);
      else job?.reject(new Error(reply.trace));
      next(worker);
    });
    worker.on('error', (error: Error) => {
      settle(worker)?.reject(error);
      const at = idle.indexOf(worker);
      if (at >= 0) idle.splice(at, 1);
      if (queue.length > 0) next(start());
    });
    return worker;
  };

  return {
    run: (task) =>
      new Promise((resolve, reject) => {
        queue.push({ task, resolve, reject });
        const worker = idle.shift() ?? (busy.size < most ? start() : undefined);
        if (worker) next(worker);
      }),
    widen: (wider) => {
      most = Math.max(most, wider);
      while (queue.length > 0 && busy.size < most) next(idle.shift() ?? start());
    },
    close: async () => {
      await Promise.all([...idle, ...busy.keys()].map((worker) => worker.terminate()));
    },
  };
}
