import { expect, test } from 'vitest';
import { workedApart } from '../../src/site/analysis/apart.ts';
import type { GroupTask, WorkerData } from '../../src/site/analysis/worker.ts';

/** What no thread can work out: its catalogue is not one. */
const senseless = { own: {}, address: 'a', ids: ['b'] } as unknown as GroupTask;
const data = { folder: 'content', shared: {} } as unknown as WorkerData;

test('no work needs no process', async () => {
  expect(await workedApart([], data, () => undefined)).toEqual([]);
});

test('a mistake of the program comes back with its trace', async () => {
  const told: number[] = [];
  const work = workedApart([senseless, senseless], data, (index) => told.push(index));
  await expect(work).rejects.toThrow(/TypeError[^]*analysis/u);
  expect(told).toEqual([]);
});
