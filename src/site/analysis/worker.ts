import { parentPort, workerData } from 'node:worker_threads';
import { analysisTools } from '../../io/analysis-tools.ts';
import { diskStore } from '../../io/cache.ts';
import { traceOf, type PoolReply } from '../../io/worker-pool.ts';
import { catalogueOf, type Group, type Shared } from './groups.ts';
import { workOut, type Outcome } from './work.ts';

/** What every thread knows from the start. */
export interface WorkerData {
  /** The catalogue. */
  readonly folder: string;
  readonly shared: Shared;
}

/** A group to work out. */
export type GroupTask = Pick<Group, 'own' | 'address' | 'ids'>;

const { folder, shared } = workerData as WorkerData;
const tools = analysisTools(folder);
const store = diskStore();

async function reply(task: GroupTask): Promise<PoolReply<Outcome>> {
  try {
    return { answer: await workOut(catalogueOf(shared, task.own), task, tools, store) };
  } catch (error) {
    return { trace: traceOf(error) };
  }
}

parentPort?.on('message', (task: GroupTask) => {
  void reply(task).then((answer) => parentPort?.postMessage(answer));
});
