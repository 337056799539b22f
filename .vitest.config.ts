import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { WITHOUT_MIDDLE_COMPILER } from './src/io/v8.ts';

export default defineConfig({
  test: {
    execArgv: [WITHOUT_MIDDLE_COMPILER],
    // Two files at a time also on two cores: most of a site test is a program that it waits for.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/site/**', 'tests/browser/**', 'tests/second/**'],
          // Against what hangs; on a busy machine a test takes ten times as long.
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'site',
          include: ['tests/site/**/*.test.ts', 'tests/browser/**/*.test.ts', 'tests/second/**/*.test.ts'],
          benchmark: { include: [] },
          globalSetup: ['tests/support/tiny-site.ts', 'tests/support/demo-site.ts'],
          testTimeout: 120_000,
          hookTimeout: 300_000,
        },
      },
    ],
  },
});
