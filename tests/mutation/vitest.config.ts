import { defineConfig } from 'vitest/config';

/** Tests that a mistake in a room of `src/core` has to get past: its own, those of bad numbers, and the worked examples. */
const room = process.env['MUTATED_ROOM'] ?? '**';

export default defineConfig({
  test: {
    include: [`tests/core/${room}/**/*.test.ts`, 'tests/core/numeric/*.test.ts', 'tests/published/*.test.ts'],
    exclude: ['**/fuzz.test.ts', '**/pace.test.ts'],
  },
});
