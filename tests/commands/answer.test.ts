import { expect, test } from 'vitest';
import { runCommand } from '../support/run-command.ts';
import { TINY } from '../support/temporary.ts';

const answer = (...words: readonly string[]) => runCommand('answer', { CONTENT_DIR: TINY }, words);

test('a mold and a word print the reply with its revision and its address', async () => {
  const { code, stdout } = await answer('peg-2', 'clamp');
  expect(code).toBe(0);
  expect(stdout).toMatch(/How do I clamp it/u);
  expect(stdout).toMatch(/\d lbf \/ \d+ N/u);
  expect(stdout).toContain('Peg, two cavities, EB-PEG-2, revision');
  expect(stdout).toContain('https://bench.example.com/molds/peg-2/#clamping');
}, 60_000);

test('what cannot be answered is said in a line, with the nearest name', async () => {
  expect(await answer('peg-3', 'cold')).toMatchObject({
    code: 1,
    stdout: '',
    stderr: expect.stringMatching(
      /^no published mold is called "peg-3" — did you mean "peg-2"\?\n/u,
    ) as string,
  });
  const draft = await answer('peg-draft', 'cold');
  expect([draft.code, draft.stderr.includes('no published mold')]).toEqual([1, true]);
  const none = await answer();
  expect([none.code, none.stderr]).toEqual([1, expect.stringContaining('npm run answer -- MOLD')]);
}, 60_000);
