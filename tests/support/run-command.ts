import { execFile } from 'node:child_process';
import { join, resolve } from 'node:path';

/** How a command of the project ended. */
export interface Ended {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs one of `src/commands/` in the project, as npm does, with settings of its own. */
export function runCommand(
  name: string,
  settings: Readonly<Record<string, string>>,
  args: readonly string[] = [],
): Promise<Ended> {
  const file = join(resolve('src', 'commands'), `${name}.ts`);
  return new Promise((done) => {
    execFile(
      process.execPath,
      [file, ...args],
      { env: { ...process.env, ...settings }, maxBuffer: 1e8 },
      (error, stdout, stderr) => {
        done({ code: error ? Number(error.code ?? 1) : 0, stdout, stderr });
      },
    );
  });
}
