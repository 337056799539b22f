import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { runCommand } from './run-command.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Folder with the site of the demo catalogue, built once for all tests; do not change it. */
    demoSite: string;
  }
}

/** Builds the demo catalogue for real, before the tests that look at pages, budgets and paper. */
export default async function buildDemoSite(project: TestProject): Promise<() => Promise<void>> {
  const folder = await mkdtemp(join(tmpdir(), 'partline-demo-'));
  const output = join(folder, 'site');
  const ended = await runCommand('build', { OUT_DIR: output });
  if (ended.code !== 0) throw new Error(`the demo site was not built\n${ended.stdout}${ended.stderr}`);
  project.provide('demoSite', output);
  return () => rm(folder, { recursive: true, force: true });
}
