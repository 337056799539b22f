import { readdir, readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';

const guides = (await readdir('content/guides')).filter((name) => name.endsWith('.mdx'));

test('there are guides', () => {
  expect(guides).toContain('hot-plastisol.mdx');
});

test.each(guides)('every caution of %s is a list, one thing to do a line', async (name) => {
  const text = await readFile(`content/guides/${name}`, 'utf8');
  for (const [, body = ''] of text.matchAll(/<Caution\n[\s\S]*?\n>\n([\s\S]*?)<\/Caution>/gu)) {
    expect(
      body
        .trim()
        .split(/\n(?=- )/u)
        .filter((item) => !/^- [^\n]*(?:\n {2}\S[^\n]*)*$/u.test(item.trim())),
    ).toEqual([]);
    expect(body).not.toMatch(/[.!?] -(?:\s|$)/mu);
  }
});
