import { spawn, type ChildProcess } from 'node:child_process';
import { resolve } from 'node:path';

/** A command of the project that goes on running. */
export interface Started {
  readonly child: ChildProcess;
  /** Resolves with everything printed so far once `text` has been printed. */
  until(text: string): Promise<string>;
  readonly ended: Promise<number | null>;
}

/** Starts one of `src/commands/` with settings of its own, options of Node.js and arguments; the caller stops it. */
export function started(
  name: string,
  settings: Readonly<Record<string, string>>,
  node: readonly string[] = [],
  args: readonly string[] = [],
): Started {
  const child = spawn(process.execPath, [...node, resolve('src', 'commands', `${name}.ts`), ...args], {
    env: { ...process.env, ...settings },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let printed = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.on('data', (chunk: Buffer) => {
      printed += chunk.toString();
    });
  }
  const until = (text: string): Promise<string> =>
    new Promise((done, fail) => {
      const look = (): void => {
        if (printed.includes(text)) done(printed);
      };
      child.stdout.on('data', look);
      child.stderr.on('data', look);
      child.once('close', () => fail(new Error(`ended before "${text}":\n${printed}`)));
      look();
    });
  return { child, until, ended: new Promise((done) => child.once('close', done)) };
}
