import { symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { framed, frameLines } from '../../src/io/code-frame.ts';
import { temporaryFolder } from '../support/temporary.ts';

/** The frame of a mistake at a place of a text, as it is printed. */
async function frameOf(text: string | Uint8Array, line: number, column: number): Promise<string[]> {
  const file = join(await temporaryFolder(), 'a.yaml');
  await writeFile(file, text);
  const [problem] = await framed([{ file, line, column, message: '', remedy: '' }]);
  return problem ? frameLines(problem) : expect.fail('no problem came back');
}

describe('the line, and a caret below its place', () => {
  test.each([
    [
      'in the middle',
      'a: 1\nblock: { length: 30 }\n',
      2,
      18,
      ['     2 | block: { length: 30 }', '       |                  ^'],
    ],
    ['at its start', 'name: x', 1, 1, ['     1 | name: x', '       | ^']],
    ['behind tabs', '\t\ta: 1', 1, 3, ['     1 |   a: 1', '       |   ^']],
    ['behind its end', 'a:', 1, 3, ['     1 | a:', '       |   ^']],
    ['with Windows line ends', 'a: 1\r\nb: 2\r\n', 2, 4, ['     2 | b: 2', '       |    ^']],
    [
      'behind signs that cannot be seen',
      'a\u202e\u0000: 1',
      1,
      6,
      ['     1 | a\\u{202e}\\u{0}: 1', '       |                 ^'],
    ],
  ])('%s', async (_, text, line, column, expected) => {
    expect(await frameOf(text, line, column)).toEqual(expected);
  });

  test('of a long line only what is near', async () => {
    const [shown = '', caret = ''] = await frameOf(`${'a'.repeat(300)}!${'b'.repeat(300)}`, 1, 301);
    expect(shown).toHaveLength(9 + 102);
    expect(shown).toMatch(/^ {5}1 \| …a{60}!b{39}…$/u);
    expect(shown.charAt(caret.indexOf('^'))).toBe('!');
  });
});

describe('no frame where there is no text to show', () => {
  test('an empty file, a line that is not there, bytes that are no text', async () => {
    expect(await frameOf('', 1, 1)).toEqual([]);
    expect(await frameOf('a', 7, 1)).toEqual([]);
    expect(await frameOf(new Uint8Array([0x61, 0xff]), 1, 1)).toEqual([]);
    expect(await frameOf('a'.repeat(256 * 1024 + 1), 1, 1)).toEqual([]);
  });

  test('a link is not followed', async () => {
    const file = join(await temporaryFolder(), 'a.yaml');
    await symlink('/etc/hostname', file);
    const problem = { file, line: 1, column: 1, message: '', remedy: '' };
    expect(await framed([problem])).toEqual([problem]);
  });
});
