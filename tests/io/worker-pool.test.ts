import { expect, test } from 'vitest';
import { workerPool } from '../../src/io/worker-pool.ts';

interface Told {
  readonly double: number;
  readonly thread: number;
}

/** Doubles numbers, and fails on those below 0. */
const source = new URL(
  `data:text/javascript,${encodeURIComponent(`
    import { parentPort, threadId, workerData } from 'node:worker_threads';
    parentPort.on('message', (number) =>
      parentPort.postMessage(
        number < 0 ? { trace: 'below zero' } : { answer: { double: workerData.times * number, thread: threadId } },
      ),
    );
  `)}`,
);
const numbers = Array.from({ length: 30 }, (_, i) => i);
const doubled = numbers.map((number) => 2 * number);

async function all(count: number): Promise<Told[]> {
  const pool = workerPool<number, Told>(source, { times: 2 }, count);
  try {
    return await Promise.all(numbers.map((number) => pool.run(number)));
  } finally {
    await pool.close();
  }
}

const threadsOf = (told: readonly Told[]) => [...new Set(told.map(({ thread }) => thread))];

test('answers come to those who asked, from as many threads as were wanted', async () => {
  const told = await all(2);
  expect(told.map(({ double }) => double)).toEqual(doubled);
  expect(threadsOf(told)).toHaveLength(2);
});

test('a pool that is widened takes more threads at once', async () => {
  const pool = workerPool<number, Told>(source, { times: 2 }, 1);
  const asked = numbers.map((number) => pool.run(number));
  pool.widen(3);
  const told = await Promise.all(asked);
  expect(told.map(({ double }) => double)).toEqual(doubled);
  expect(threadsOf(told).length).toBeGreaterThan(1);
  await pool.close();
});

test('a task that fails fails alone', async () => {
  const pool = workerPool<number, Told>(source, { times: 2 }, 1);
  await expect(pool.run(-1)).rejects.toThrow('below zero');
  expect((await pool.run(4)).double).toBe(8);
  await pool.close();
});
