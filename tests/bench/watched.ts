import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join, resolve } from 'node:path';

/** What a command of the project cost, its child processes included. */
export interface Cost {
  readonly code: number;
  readonly stdout: string;
  /** Wall time [s]. */
  readonly wall: number;
  /** User and system time of all of its processes [s]. */
  readonly core: number;
  /** Share of all cores that it kept busy [1]. */
  readonly busy: number;
  /** Most memory that its processes held at one time [MB]: resident sizes added up, looked at five times a second. */
  readonly memory: number;
}

const LOOK = 200;

/** Process ids of a process and of all below it. */
function family(pid: number): number[] {
  try {
    const tasks = readdirSync(`/proc/${pid}/task`);
    const children = tasks.flatMap((task) =>
      readFileSync(`/proc/${pid}/task/${task}/children`, 'utf8').split(' ').filter(Boolean).map(Number),
    );
    return [pid, ...children.flatMap(family)];
  } catch {
    return [];
  }
}

/** A size of a process in its status [MB]; 0 when it has ended. */
function sizeOf(pid: number, name: 'VmRSS' | 'VmHWM'): number {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    return Number(new RegExp(`^${name}:\\s+(\\d+) kB`, 'mu').exec(status)?.[1] ?? 0) / 1024;
  } catch {
    return 0;
  }
}

/** "1m2.345s" of a shell's `times`. */
function shellSeconds(text: string): number {
  const [, minutes = '0', seconds = '0'] = /(\d+)m([\d.]+)s/u.exec(text) ?? [];
  return 60 * Number(minutes) + Number(seconds);
}

/** Runs a command of the project with settings and watches what it costs. Needs Linux and bash. */
export function watched(
  name: string,
  settings: Readonly<Record<string, string>>,
  args: readonly string[] = [],
): Promise<Cost> {
  return watchedProgram([process.execPath, resolve('src', 'commands', `${name}.ts`), ...args], settings);
}

/** Runs any program with settings and watches what it costs. Needs Linux and bash. */
export async function watchedProgram(
  program: readonly string[],
  settings: Readonly<Record<string, string>>,
): Promise<Cost> {
  const start = performance.now();
  // The shell's `times` tells the time of every process that it and its children waited for.
  const script = '"$@"; code=$?; echo; times >&3; exit $code';
  const child = spawn('bash', ['-c', script, 'bench', ...program], {
    env: { ...process.env, ...settings },
    stdio: ['ignore', 'pipe', 'inherit', 'pipe'],
  });
  let [stdout, times, memory] = ['', '', 0];
  child.stdout?.on('data', (chunk: Buffer) => (stdout += chunk.toString()));
  child.stdio[3]?.on('data', (chunk: Buffer) => (times += chunk.toString()));
  const look = setInterval(() => {
    const all = family(child.pid ?? 0);
    const sum = all.reduce((total, pid) => total + sizeOf(pid, 'VmRSS'), 0);
    memory = Math.max(memory, sum, ...all.map((pid) => sizeOf(pid, 'VmHWM')));
  }, LOOK);
  const code = await new Promise<number>((done) => child.once('close', (ended) => done(ended ?? 1)));
  clearInterval(look);
  const wall = (performance.now() - start) / 1e3;
  const core = (times.trim().split('\n').at(-1) ?? '')
    .split(' ')
    .reduce((sum, text) => sum + shellSeconds(text), 0);
  return { code, stdout, wall, core, busy: core / (wall * availableParallelism()), memory };
}

const filesBelow = (folder: string) =>
  readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());

/** Size of all files below a folder [MB]. */
export function diskOf(folder: string): number {
  return (
    filesBelow(folder).reduce((sum, { parentPath, name }) => sum + statSync(join(parentPath, name)).size, 0) /
    1e6
  );
}

/** How many files there are below a folder. */
export const filesIn = (folder: string): number => filesBelow(folder).length;
