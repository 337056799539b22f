import { defineConfig } from 'vitest/config';

/** Tests that a mistake in a room of `src/core` has to get past: its own, those of bad numbers, and the worked examples. */
const room = process.env['MUTATED_ROOM'] ?? '**';

export default defineConfig({
  test: {
    include: [`tests/core/${room}/**/*.test.ts`, 'tests/core/numeric/*.test.ts', 'tests/published/*.test.ts'],
    exclude: ['**/fuzz.test.ts', '**/pace.test.ts'],
    // Counting how often every branch is taken makes whole solids slow.
    testTimeout: 300_000,
    // Too slow once every branch of the code counts how often it is taken.
    testNamePattern: /^(?!.*two million triangles)/u,
  },
});
