import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { factsOf, filesOf } from '../../src/commands/site-facts.ts';
import { siteFaults } from '../../src/commands/verify-site.ts';
import { REQUIRED_FIGURES } from '../../src/sheet/sheet.ts';
import { temporaryFolder } from '../support/temporary.ts';

const figures = Object.fromEntries(
  REQUIRED_FIGURES.map((key) => [key, { value: 2, low: 1, high: 3, unit: 'mm' }]),
);
const spec = (own: object = {}) => JSON.stringify({ format: 'partline-spec/1', figures, ...own });
const BUILD = '<meta name="build" content="0123abcd-4567cdef">';
const WHOLE = {
  'index.html': '<p>home</p>',
  'molds/peg/index.html': '<p>peg</p>',
  'molds/peg/spec.json': spec(),
};

async function faultsOf(changes: Readonly<Record<string, string | undefined>>): Promise<string[]> {
  const folder = await temporaryFolder();
  for (const [name, text] of Object.entries({ ...WHOLE, ...changes })) {
    if (text === undefined) continue;
    await mkdir(dirname(join(folder, name)), { recursive: true });
    await writeFile(join(folder, name), name.endsWith('.html') && name !== 'bare.html' ? BUILD + text : text);
  }
  const facts = await factsOf(folder, await filesOf(folder));
  return siteFaults(facts, { published: ['peg'], address: 'https://bench.example.com/shop' });
}

test('a whole site has no fault', async () => {
  expect(await faultsOf({})).toEqual([]);
  const links =
    '<a id="top" href="#top"></a><a href="/shop/"></a><a href="molds/peg/"></a><a href="https://example.com/x"></a><meta content="https://bench.example.com/shop/molds/peg/"><a href="https://bench.example.com/other/"></a>';
  expect(await faultsOf({ 'a.html': links })).toEqual([]);
});

test.each([
  ['no home page', { 'index.html': undefined }, 'index.html is missing'],
  ['no sheet', { 'molds/peg/index.html': undefined }, 'molds/peg/index.html is missing'],
  ['no figures', { 'molds/peg/spec.json': undefined }, 'molds/peg/spec.json is missing'],
  ['an empty file', { 'a.css': '' }, 'a.css is empty'],
  ['a by-product', { '.prerender/x.mjs': 'x' }, '.prerender/x.mjs is a by-product of the build'],
  ['a source map', { '_astro/x.js.map': '{}' }, '_astro/x.js.map is a by-product of the build'],
  ['a page that could be any', { 'bare.html': '<p>x</p>' }, 'bare.html does not name its build'],
  ['an unpublished mold', { 'molds/draft/index.html': 'x' }, 'molds/draft is not published'],
  [
    'a path of this machine',
    { 'a.html': `<p>${resolve('.')}/src</p>` },
    'a.html holds a path of this machine',
  ],
  ['no number in a page', { 'a.html': '<p>NaN mm</p>' }, 'a.html holds a value that is none'],
  ['no text in a page', { 'a.html': '<p>[object Object]</p>' }, 'a.html holds a value that is none'],
  [
    'a dead link',
    { 'a.html': '<a href="/shop/gone/">x</a>' },
    'a.html links to /shop/gone/, which is not there',
  ],
  [
    'a link that forgets where the site lies',
    { 'a.html': '<a href="/molds/peg/">x</a>' },
    'a.html links to /molds/peg/, which is not there',
  ],
  [
    'a card that is not there',
    { 'a.html': '<meta content="https://bench.example.com/shop/card.png">' },
    'a.html links to https://bench.example.com/shop/card.png, which is not there',
  ],
  [
    'a dead anchor',
    { 'a.html': '<a href="/shop/#top">x</a>' },
    'a.html links to /shop/#top, which is not there',
  ],
  [
    'a missing picture',
    { 'a.html': '<img src="a.png" alt="">' },
    'a.html links to a.png, which is not there',
  ],
  ['broken JSON', { 'molds/peg/spec.json': '{"format"' }, /^molds\/peg\/spec\.json: : Invalid input/u],
  ['another format', { 'molds/peg/spec.json': spec({ format: 'x' }) }, /spec\.json: format: Invalid input/u],
  [
    'null for a number',
    {
      'molds/peg/spec.json': spec({
        figures: { ...figures, 'bait.mass': { value: null, low: 1, high: 2, unit: 'g' } },
      }),
    },
    /spec\.json: figures\.bait\.mass\.value: Invalid input/u,
  ],
  [
    'a figure outside its band',
    {
      'molds/peg/spec.json': spec({
        figures: { ...figures, 'bait.mass': { value: 5, low: 1, high: 2, unit: 'g' } },
      }),
    },
    'molds/peg/spec.json: bait.mass is outside its own band',
  ],
  [
    'a required figure gone',
    { 'molds/peg/spec.json': spec({ figures: { ...figures, 'bait.mass': undefined } }) },
    'molds/peg/spec.json: bait.mass is missing',
  ],
])('%s', async (_, changes, expected) => {
  const faults = await faultsOf(changes);
  expect(faults).toHaveLength(1);
  expect(faults[0]).toEqual(typeof expected === 'string' ? expected : expect.stringMatching(expected));
});
