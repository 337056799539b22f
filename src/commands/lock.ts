import { mkdir, open, readFile, rm, stat, utimes } from 'node:fs/promises';
import { dirname } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

/** How long a lock counts without a sign of life from its holder [ms], and how often the holder gives one. */
const STALE = 60_000;
const HEARTBEAT = 5_000;
const RETRY = 250;

/** How to wait for a lock. */
export interface Waiting {
  /** Longest wait [ms]. */
  readonly patience: number;
  /** Called once when another process holds it. */
  readonly onWait: (holder: string) => void;
  readonly signal?: AbortSignal;
}

/**
 * Runs `work` while this process alone holds the lock file. A lock whose holder has died is taken over.
 *
 * @throws {Error} when another process keeps the lock for longer than `waiting.patience`
 */
export async function withLock<Result>(
  file: string,
  waiting: Waiting,
  work: () => Promise<Result>,
): Promise<Result> {
  await mkdir(dirname(file), { recursive: true });
  await acquire(file, waiting);
  const beat = setInterval(() => {
    const now = new Date();
    utimes(file, now, now).catch(() => undefined);
  }, HEARTBEAT);
  beat.unref();
  try {
    return await work();
  } finally {
    clearInterval(beat);
    await rm(file, { force: true });
  }
}

async function acquire(file: string, { patience, onWait, signal }: Waiting): Promise<void> {
  const end = performance.now() + patience;
  for (let told = false; !(await taken(file)); told = true) {
    signal?.throwIfAborted();
    const holder = (await readFile(file, 'utf8').catch(() => '')).trim();
    if (await isDead(file, holder)) {
      await rm(file, { force: true });
      continue;
    }
    if (!told) onWait(holder);
    if (performance.now() > end) throw new Error(`process ${holder} still holds ${file}`);
    await pause(RETRY);
  }
}

async function taken(file: string): Promise<boolean> {
  try {
    const handle = await open(file, 'wx');
    await handle.writeFile(String(process.pid));
    await handle.close();
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

async function isDead(file: string, holder: string): Promise<boolean> {
  const info = await stat(file).catch(() => undefined);
  if (!info) return false;
  const silent = Date.now() - info.mtimeMs;
  if (!/^\d+$/u.test(holder)) return silent > HEARTBEAT;
  return silent > STALE || !isRunning(Number(holder));
}

/** True when a process with this id is there. */
export function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
