import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { stripVTControlCharacters } from 'node:util';
import { ALLOCATORS } from '../io/allocators.ts';
import { PROJECT_ROOT } from '../io/settings.ts';
import { childArguments } from '../io/v8.ts';
import { BUNDLE } from './pages/apart.ts';

/** How Astro's processes ended and everything they printed, without colours. */
export interface AstroRun {
  readonly code: number | null;
  readonly lines: readonly string[];
}

interface AstroOptions {
  readonly environment: Readonly<Record<string, string>>;
  /** Of the whole catalogue. */
  readonly molds: number;
  readonly onLine: (line: string) => void;
  readonly signal: AbortSignal;
}

const BINARY = join(PROJECT_ROOT, 'node_modules', 'astro', 'bin', 'astro.mjs');
const RENDERER = join(PROJECT_ROOT, 'src', 'commands', 'pages', 'bundle-worker.ts');

const ENVIRONMENT = { ASTRO_TELEMETRY_DISABLED: '1', NO_COLOR: '1', FORCE_COLOR: '0', ...ALLOCATORS };

/** Names by which built code knows how it was built: it takes them from the environment where they are set there. */
const RESERVED = ['ASSETS_PREFIX', 'BASE_URL', 'DEV', 'MODE', 'PROD', 'SITE', 'SSR'];

/** The surrounding environment without what would leak into the pages. */
function surroundings(): NodeJS.ProcessEnv {
  return Object.fromEntries(Object.entries(process.env).filter(([name]) => !RESERVED.includes(name)));
}

/** Runs a program in the project and keeps its log. */
async function run(program: readonly string[], options: AstroOptions): Promise<AstroRun> {
  const child = spawn(process.execPath, [...childArguments(options.molds), ...program], {
    cwd: PROJECT_ROOT,
    env: { ...surroundings(), ...ENVIRONMENT, ...options.environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const stop = (): void => void child.kill('SIGTERM');
  options.signal.addEventListener('abort', stop, { once: true });
  const lines: string[] = [];
  for (const stream of [child.stdout, child.stderr]) {
    createInterface({ input: stream }).on('line', (raw) => {
      const line = stripVTControlCharacters(raw);
      lines.push(line);
      options.onLine(line);
    });
  }
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', resolve);
  });
  options.signal.removeEventListener('abort', stop);
  return { code, lines };
}

/**
 * Has Astro bundle the pages, then render them in a process of their own: what the bundler holds of memory is given back first.
 *
 * @param bundle - a folder that is not there, inside the project, so that the pages find their packages
 */
export async function runAstro(bundle: string, options: AstroOptions): Promise<AstroRun> {
  const environment = { ...options.environment, [BUNDLE]: bundle };
  const bundled = await run([BINARY, 'build'], { ...options, environment });
  if (bundled.code !== 0) return bundled;
  const rendered = await run([RENDERER], { ...options, environment });
  return { code: rendered.code, lines: [...bundled.lines, ...rendered.lines] };
}

/** Warnings that a build may print, each with the reason why it does no harm. */
const HARMLESS: readonly RegExp[] = [
  // Marks where styles of MDX pages belong; Astro reads it before the bundler does.
  /MODULE_LEVEL_DIRECTIVE.*"use astro:head-inject"/u,
  // A catalogue may have no guide and no water test.
  /The collection "(?:guides|trials)" does not exist or is empty/u,
];

/** The lines of a build log for which the build has failed, whatever its exit code. */
export function logFaults(lines: readonly string[]): string[] {
  return lines.filter(
    (line) => /\[(?:ERROR|WARN)\]/u.test(line) && !HARMLESS.some((pattern) => pattern.test(line)),
  );
}
