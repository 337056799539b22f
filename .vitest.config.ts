import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/site/**', 'tests/browser/**', 'tests/second/**'],
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
