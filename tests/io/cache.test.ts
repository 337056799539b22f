import { readdir, readFile, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { diskMemory, diskStore, pruneMemory } from '../../src/io/cache.ts';

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

describe('a result is there only with all that is stored apart from it', () => {
  const heavy = (steps = [1, 2]) => ({
    shapes: steps.map((step) => ({ positions: Float64Array.from({ length: 5000 }, (_, i) => step * i) })),
    name: 'peg',
  });

  test('each part counts, and so do those of a result that holds none', () => {
    const store = diskStore(folder);
    store.write('sheet', 'aa', heavy());
    store.write('sheet', 'bb', { name: 'peg' });
    expect([store.has('sheet', 'aa'), store.has('sheet', 'bb'), store.has('sheet', 'cc')]).toEqual([
      true,
      true,
      false,
    ]);
  });

  test.each([0, 1])('part %i is gone', async (which) => {
    const store = diskStore(folder);
    store.write('sheet', 'aa', heavy());
    const parts = (await files()).filter(({ parentPath }) => parentPath.startsWith(join(folder, 'parts')));
    expect(parts).toHaveLength(2);
    const gone = parts[which]!;
    await rm(join(gone.parentPath, gone.name));
    expect(store.has('sheet', 'aa')).toBe(false);
    store.write('sheet', 'aa', heavy());
    expect(store.has('sheet', 'aa')).toBe(true);
    expect(store.read('sheet', 'aa')?.value).toEqual(heavy());
  });

  test('a part that was damaged is said to be, and is not there from then on', async () => {
    const store = diskStore(folder);
    store.write('sheet', 'aa', heavy([3, 4]));
    const [part] = (await files()).filter(({ parentPath }) => parentPath.startsWith(join(folder, 'parts')));
    const path = join(part!.parentPath, part!.name);
    const bytes = await readFile(path);
    bytes[bytes.length >> 1]! ^= 1;
    await writeFile(path, bytes);
    const { shapes } = store.read('sheet', 'aa')!.value as ReturnType<typeof heavy>;
    expect(() => shapes.map(({ positions }) => positions)).toThrow(/was damaged and is thrown away/u);
    expect(store.has('sheet', 'aa')).toBe(false);
  });

  test.each(['', 'abc', 'not a result', '\xff\xff\xff\xff'])('a file of %j is no result', async (text) => {
    const store = diskStore(folder);
    store.write('sheet', 'aa', heavy());
    await writeFile(join(folder, 'sheet', 'aa', 'aa'), text, 'latin1');
    expect(store.has('sheet', 'aa')).toBe(false);
    store.write('sheet', 'aa', heavy());
    expect(store.read('sheet', 'aa')?.value).toEqual(heavy());
  });
});
