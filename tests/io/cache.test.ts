import { readdir, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { diskMemory, pruneMemory } from '../../src/io/cache.ts';

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'memory-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const files = async () =>
  (await readdir(folder, { recursive: true, withFileTypes: true })).filter((f) => f.isFile());

function counter() {
  const state = { runs: 0 };
  const make = () => {
    state.runs += 1;
    return { numbers: Float64Array.of(1, 2.5, -0), far: Infinity };
  };
  return { state, make };
}

test('the same inputs are worked out once, across memories on the same folder', async () => {
  const { state, make } = counter();
  const first = await diskMemory(folder)('shape', { a: 1 }, make);
  const again = await diskMemory(folder)('shape', { a: 1 }, make);
  expect(state.runs).toBe(1);
  expect(again).toEqual(first);
});

test('other inputs and other work are kept apart', async () => {
  const { state, make } = counter();
  const remember = diskMemory(folder);
  await remember('shape', { a: 1 }, make);
  await remember('shape', { a: 2 }, make);
  await remember('heat', { a: 1 }, make);
  expect(state.runs).toBe(3);
});

test('a damaged result is worked out again', async () => {
  const { state, make } = counter();
  await diskMemory(folder)('shape', 1, make);
  for (const file of await files()) await writeFile(join(file.parentPath, file.name), 'not a result');
  expect(await diskMemory(folder)('shape', 1, make)).toEqual(make());
  expect(state.runs).toBe(3);
});

test('work that fails is not kept, and its error comes through', async () => {
  const remember = diskMemory(folder);
  await expect(
    remember('shape', 1, () => {
      throw new RangeError('shape: wants more');
    }),
  ).rejects.toThrow('shape: wants more');
  expect(await files()).toEqual([]);
});

test('a folder that cannot be written to costs time only', async () => {
  await writeFile(join(folder, 'shape'), '');
  const { state, make } = counter();
  const remember = diskMemory(folder);
  await remember('shape', 1, make);
  await remember('shape', 1, make);
  expect(state.runs).toBe(2);
});

test('what no run has asked for in thirty days is thrown away, the rest stays', async () => {
  const { make } = counter();
  const remember = diskMemory(folder);
  await remember('shape', 'old', make);
  const [old] = await files();
  const before = new Date(Date.now() - 31 * 86_400_000);
  await utimes(join(old!.parentPath, old!.name), before, before);
  await remember('shape', 'new', make);
  await pruneMemory(folder);
  expect(await files()).toHaveLength(1);
});
