import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { TestProject } from 'vitest/node';
import { runCommand } from './run-command.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Folder with the site of the tiny catalogue, built once for all tests; do not change it. */
    tinySite: string;
  }
}

/** Builds the tiny catalogue for real, outside the project, before the tests that look at a whole site. */
export default async function buildTinySite(project: TestProject): Promise<() => Promise<void>> {
  const folder = await mkdtemp(join(tmpdir(), 'partline-site-'));
  const output = join(folder, 'site');
  const ended = await runCommand('build', {
    CONTENT_DIR: resolve('tests/fixtures/site-tiny'),
    OUT_DIR: output,
  });
  if (ended.code !== 0) throw new Error(`the tiny site was not built\n${ended.stdout}${ended.stderr}`);
  project.provide('tinySite', output);
  return () => rm(folder, { recursive: true, force: true });
}
