import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { GUIDE_LIMITS, readGuide } from '../../src/io/guide-source.ts';

const HEAD = '---\ntitle: Hot\nsummary: Hot.\norder: 1\n---\n';

const lines = (body: string): string[] =>
  readGuide('hot.mdx', HEAD + body).problems.map(
    ({ line, column, message, remedy }) => `${line}:${column} ${message} — ${remedy}`,
  );

describe('a guide is not a program', () => {
  test.each([
    [
      'an import',
      "import fs from 'node:fs'\n",
      /^6:1 an import or export stands here — take it out, or let no line begin/u,
    ],
    ['an export', 'export const a = 1\n', /^6:1 an import or export stands here/u],
    [
      'an expression',
      'Home is {process.env.HOME}.\n',
      /^6:9 an expression stands here — take it out, or write \\\{/u,
    ],
    ['an expression of its own line', '\n{1 + 1}\n', /^7:1 an expression stands here/u],
    ['a comment', '{/* hidden */}\n', /^6:1 an expression stands here/u],
    [
      'a script',
      '<script>alert(1)</script>\n',
      /^6:1 "<script>" is not allowed here — choose from allowed: Caution/u,
    ],
    [
      'a frame in a sentence',
      'See <iframe src="/x"></iframe> here.\n',
      /^6:5 "<iframe>" is not allowed here/u,
    ],
    ['an object of the runtime', '<Astro.self />\n', /^6:1 "<Astro\.self>" is not allowed here/u],
    ['a fragment', '<>x</>\n', /^6:1 "<>" is not allowed here/u],
    ['a key of every object', '<constructor />\n', /^6:1 "<constructor>" is not allowed here/u],
    [
      'a misspelt component',
      '<Cautoin id="a" />\n',
      /^6:1 "<Cautoin>" is not allowed here — did you mean "Caution"\?/u,
    ],
    [
      'a computed attribute',
      '<Figure of={x} mold="a" />\n',
      /^6:1 an expression stands in <Figure> — write attributes as/u,
    ],
    ['spread attributes', '<Figure {...x} />\n', /^6:1 an expression stands in <Figure>/u],
    ['an attribute without a value', '<Figure of />\n', /^6:1 an expression stands in <Figure>/u],
    [
      'an unknown attribute',
      '<Figure off="a" />\n',
      /^6:1 "off" is no attribute of <Figure> — did you mean "of"\?/u,
    ],
    ['a handler on an element', '<br onclick="x" />\n', /^6:1 "onclick" is no attribute of <br>/u],
    [
      'an open tag',
      '<Caution id="a">\n',
      /^6:1 cannot be read: Expected a closing tag for `<Caution>` — correct it/u,
    ],
    ['an open brace', '# {\n', /^6:3 cannot be read: Unexpected end of file in expression/u],
    ['a picture', '![x](/a.png)\n', /^6:1 a picture stands here — list photos in the entry of a mold/u],
    ['a picture from outside', '![x](../../../outside.png)\n', /^6:1 a picture stands here/u],
  ])('%s', (_, body, expected) => {
    expect(lines(body)).toEqual([expect.stringMatching(expected)]);
  });
});

describe('links', () => {
  test.each([
    'javascript:alert(1)',
    'JaVaScRiPt:alert(1)',
    '<java\tscript:alert(1)>',
    'java&#x73;cript:alert(1)',
    'data:text/html,x',
    'vbscript:x',
    'blob:https://x',
    'file:///etc/passwd',
    'http://example.com',
    '//example.com/x',
    '/\\\\example.com/x',
    'page.html',
    '../up',
  ])('%s is refused', (url) => {
    expect(lines(`[a](${url})\n`)).toEqual([
      expect.stringMatching(/^6:1 the link ".*" leads nowhere — write https:/u),
    ]);
    expect(lines(`[a][r]\n\n[r]: ${url}\n`).join()).toMatch(/^8:1 the link/u);
  });

  test.each(['https://example.com/a?b=c', 'mailto:a@example.com', 'tel:+15550100', '/molds/a/#pour', '#top'])(
    '%s is kept',
    (url) => {
      expect(lines(`[a](${url})\n`)).toEqual([]);
    },
  );
});

describe('limits', () => {
  const filler = (bytes: number): string =>
    'word\n'.repeat(Math.floor((bytes - HEAD.length) / 5)).padEnd(bytes - HEAD.length, 'x');

  test('size: at the limit and one byte more', () => {
    expect(lines(filler(GUIDE_LIMITS.bytes))).toEqual([]);
    expect(lines(filler(GUIDE_LIMITS.bytes + 1))).toEqual(['1:1 is 65 kB — keep a guide at or below 64 kB']);
  });

  test('a line: at the limit and one more', () => {
    expect(lines('a'.repeat(GUIDE_LIMITS.line))).toEqual([]);
    expect(lines('a'.repeat(GUIDE_LIMITS.line + 1))).toEqual([
      expect.stringContaining('6:1000 the line is too long'),
    ]);
  });

  test('signs that make its parser slow', () => {
    expect(lines('`{`\n'.repeat(GUIDE_LIMITS.braces))).toEqual([]);
    expect(lines('`{`\n'.repeat(GUIDE_LIMITS.braces + 1))).toEqual([
      expect.stringContaining('more than 100 signs "{"'),
    ]);
    expect(lines('`<`\n'.repeat(GUIDE_LIMITS.brackets))).toEqual([]);
    expect(lines('`<`\n'.repeat(GUIDE_LIMITS.brackets + 1))).toEqual([
      expect.stringContaining('more than 500'),
    ]);
  });

  test.each(['>', '> ', '[', '*', '_a', '`a', '![', '- ', '|', '<a>', '{'])(
    'a guide full of %s ends within 5 s',
    (sign) => {
      const line = `${sign.repeat(Math.floor(GUIDE_LIMITS.line / sign.length))}\n`;
      const start = performance.now();
      lines(line.repeat(60));
      lines(`${sign}\n`.repeat(90));
      expect(performance.now() - start).toBeLessThan(5000);
    },
  );
});

test('the guides that come with the project are sound', async () => {
  const names = (await readdir('content/guides')).filter((name) => name.endsWith('.mdx'));
  expect(names.length).toBeGreaterThan(1);
  for (const name of names) {
    const { problems } = readGuide(name, await readFile(join('content/guides', name), 'utf8'));
    expect([name, problems]).toEqual([name, []]);
  }
});
