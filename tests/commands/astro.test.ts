import { expect, test } from 'vitest';
import { logFaults } from '../../src/commands/astro.ts';

test('errors and unlisted warnings fail a build, whatever its exit code', () => {
  const lines = [
    '08:56:16 [build] Complete!',
    '08:56:16 [ERROR] Invalid content reference',
    '08:56:16 [WARN] [router] two pages with one address',
    '08:56:16 [WARN] [vite] [MODULE_LEVEL_DIRECTIVE] The semantics of the module level directive "use astro:head-inject" in',
    '08:56:16 [WARN] [content] The collection "trials" does not exist or is empty. Please check',
    '08:56:16 [WARN] [content] The collection "molds" does not exist or is empty. Please check',
  ];
  expect(logFaults(lines)).toEqual([lines[1], lines[2], lines[5]]);
});
