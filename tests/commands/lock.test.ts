import { spawn } from 'node:child_process';
import { readFile, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { isRunning, withLock } from '../../src/commands/lock.ts';
import { temporaryFolder } from '../support/temporary.ts';

const quick = { patience: 5000, onWait: () => undefined };

/** Id of a process that has ended. */
async function deadProcess(): Promise<number> {
  const child = spawn(process.execPath, ['-e', '']);
  await new Promise((resolve) => child.once('close', resolve));
  return child.pid ?? 0;
}

test('two at once take turns', async () => {
  const file = join(await temporaryFolder(), 'a', 'lock');
  const events: string[] = [];
  const work = (name: string) =>
    withLock(file, quick, async () => {
      events.push(`${name} in`);
      await pause(100);
      events.push(`${name} out`);
    });
  await Promise.all([work('a'), work('b'), work('c')]);
  expect(events).toHaveLength(6);
  for (let i = 0; i < 6; i += 2) expect(events[i]?.replace('in', 'out')).toBe(events[i + 1]);
});

test('work that fails lets the lock go', async () => {
  const file = join(await temporaryFolder(), 'lock');
  const failing = withLock(file, quick, () => Promise.reject(new Error('no')));
  await expect(failing).rejects.toThrow('no');
  expect(await withLock(file, quick, () => Promise.resolve('next'))).toBe('next');
});

test('a lock of a dead process is taken over at once', async () => {
  const file = join(await temporaryFolder(), 'lock');
  await writeFile(file, String(await deadProcess()));
  const mine = await withLock(file, { ...quick, patience: 1000 }, () => readFile(file, 'utf8'));
  expect(mine).toBe(String(process.pid));
});

test('a lock without a sign of life for a minute is taken over, a younger one is not', async () => {
  const file = join(await temporaryFolder(), 'lock');
  await writeFile(file, String(process.pid));
  const told: string[] = [];
  const waiting = { patience: 300, onWait: (holder: string) => told.push(holder) };
  await expect(withLock(file, waiting, () => Promise.resolve())).rejects.toThrow(
    `process ${process.pid} still holds`,
  );
  expect(told).toEqual([String(process.pid)]);
  const old = new Date(Date.now() - 61_000);
  await utimes(file, old, old);
  expect(await withLock(file, waiting, () => Promise.resolve(1))).toBe(1);
});

test('running and dead processes are told apart', async () => {
  expect(isRunning(process.pid)).toBe(true);
  expect(isRunning(await deadProcess())).toBe(false);
});
