import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { HtmlValidate, StaticConfigLoader } from 'html-validate';
import { SaxesParser } from 'saxes';
import sharp from 'sharp';
import { describe, expect, inject, test } from 'vitest';
import { factsOf } from '../../src/commands/site-facts.ts';
import { deadLinks } from '../../src/commands/site-links.ts';
import { filesBelow } from '../support/folder-digest.ts';

const site = inject('demoSite');
const files = await filesBelow(site);
const read = (name: string): Promise<string> => readFile(join(site, name), 'utf8');
const json = async <T>(name: string): Promise<T> => JSON.parse(await read(name)) as T;
const pages = files.filter((name) => name.endsWith('.html'));
const ids = (await json<{ molds: { id: string }[] }>('catalogue.json')).molds.map(({ id }) => id);
const zipped = (bytes: Buffer | string) => gzipSync(bytes, { level: 9 }).length;

test('the demo is there', () => {
  expect(ids.length).toBeGreaterThanOrEqual(9);
  expect(pages.length).toBeGreaterThan(2 * ids.length);
});

test('no link and no anchor is dead', async () => {
  expect(deadLinks(await factsOf(site, files), 'https://thistledown.example')).toEqual([]);
});

describe('markup', () => {
  const validator = new HtmlValidate(
    new StaticConfigLoader({
      root: true,
      extends: ['html-validate:standard'],
      rules: {
        // The tags are written by Astro's compiler, which lets void elements go unclosed and rows wrap.
        'void-style': 'off',
        'no-trailing-whitespace': 'off',
        'attribute-boolean-style': 'off',
        // Long words and numbers with their units.
        'long-title': 'off',
        // The scripts and styles are files of the same site.
        'require-sri': 'off',
        'no-inline-style': 'error',
      },
    }),
  );

  test.each(pages)('%s is clean', async (name) => {
    const { results } = await validator.validateString(await read(name));
    const found = results.flatMap(({ messages }) =>
      messages.map(({ ruleId, message, line, column }) => `${line}:${column} ${ruleId}: ${message}`),
    );
    expect(found.slice(0, 20)).toEqual([]);
  });
});

/** Scripts that a page loads, with what they import. */
async function loadedBy(html: string): Promise<string[]> {
  const scripts = new Set<string>();
  const queue = [...html.matchAll(/<script[^>]* src="([^"]+)"/gu)].map(([, path = '']) =>
    path.replace(/^\//u, ''),
  );
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    if (scripts.has(next)) continue;
    scripts.add(next);
    const text = await read(next);
    for (const [, path = ''] of text.matchAll(/(?:from|import)\s*"\.\/([^"]+)"/gu))
      queue.push(`_astro/${path}`);
  }
  return [...scripts];
}

const weigh = async (names: readonly string[]) =>
  (await Promise.all(names.map(async (name) => zipped(await readFile(join(site, name)))))).reduce(
    (a, b) => a + b,
    0,
  );

describe.each(ids)('weight of the sheet of %s, gzip', (id) => {
  test('markup with its styles, and scripts, at most 60 kB, scripts at most 15 kB', async () => {
    const html = await read(`molds/${id}/index.html`);
    expect(html).toContain('<style>');
    expect(html).not.toContain('rel="stylesheet"');
    const scripts = await loadedBy(html);
    expect(scripts.length).toBeGreaterThan(0);
    const weight = { html: zipped(html), scripts: await weigh(scripts) };
    expect(weight.scripts).toBeLessThanOrEqual(15_000);
    expect(weight.html + weight.scripts, JSON.stringify(weight)).toBeLessThanOrEqual(60_000);
  });
});

interface Caution {
  readonly key: string;
  readonly signal: string;
  readonly hazard: string;
  readonly consequence: string;
  readonly avoid: readonly string[];
}

interface Spec {
  readonly cautions: readonly Caution[];
  readonly figures: Readonly<Record<string, { value: number; low: number; high: number; unit: string }>>;
}

const plain = (text: string) => text.replaceAll('\u00a0', ' ').replace(/\\([\\`*_[\]<>|#])/gu, '$1');

describe.each(ids)('%s tells every caution in full', async (id) => {
  const { cautions } = await json<Spec>(`molds/${id}/spec.json`);
  const texts = cautions.flatMap(({ hazard, consequence, avoid }) =>
    [hazard, consequence, ...avoid].map(plain),
  );
  const unescaped = (html: string) =>
    plain(html.replace(/<[^>]*>/gu, '\n'))
      .replaceAll('&#39;', "'")
      .replaceAll('&quot;', '"')
      .replaceAll('&amp;', '&');

  test.each([`molds/${id}/index.html`, `molds/${id}/insert/index.html`, `molds/${id}/sheet.md`])(
    'in %s',
    async (name) => {
      const text = name.endsWith('.md') ? plain(await read(name)) : unescaped(await read(name));
      expect(texts.length).toBeGreaterThan(20);
      expect(texts.filter((one) => !text.includes(one))).toEqual([]);
    },
  );

  test('none of them inside something that folds', async () => {
    const html = await read(`molds/${id}/index.html`);
    for (const { key } of cautions) {
      const before = html.slice(
        0,
        html.indexOf(`<section class="panel`) +
          html.slice(html.indexOf('<section class="panel')).indexOf(`id="${key}"`),
      );
      const open = (before.match(/<details\b/gu) ?? []).length - (before.match(/<\/details>/gu) ?? []).length;
      expect([key, open]).toEqual([key, 0]);
    }
  });
});

test.each(ids)('the replies of %s lead to anchors of its sheet', async (id) => {
  const { replies } = await json<{ replies: { key: string; text: string; address: string }[] }>(
    `molds/${id}/answers.json`,
  );
  const html = await read(`molds/${id}/index.html`);
  expect(replies).toHaveLength(23 + 9);
  for (const { key, text, address } of replies) {
    expect(html).toContain(`id="${key}"`);
    expect(address.endsWith(`/molds/${id}/#${key}`)).toBe(true);
    expect(text.split('\n')).toEqual([expect.any(String), expect.stringContaining('revision'), address]);
  }
});

describe('files for programs', () => {
  test('the sitemap lists the pages that may be found, with days of the catalogue', async () => {
    const map = await read('sitemap.xml');
    const places = [...map.matchAll(/<loc>https:\/\/thistledown\.example\/([^<]*)<\/loc>/gu)].map(
      ([, path = '']) => path,
    );
    const open: string[] = [];
    for (const page of pages) if (!/name="robots" content="noindex"/u.test(await read(page))) open.push(page);
    expect(places.map((path) => `${path}index.html`).sort()).toEqual(open.sort());
    const days = [...map.matchAll(/<lastmod>([^<]*)<\/lastmod>/gu)].map(([, day = '']) => day);
    expect(days.length).toBeGreaterThanOrEqual(ids.length);
    for (const day of days) expect(day).toMatch(/^20\d\d-[01]\d-[0-3]\d$/u);
  });

  test('the feeds agree, are sound, and name every mold', async () => {
    const atom = await read('feed.xml');
    const parser = new SaxesParser({ xmlns: true });
    const faults: string[] = [];
    parser.on('error', (error) => faults.push(error.message));
    parser.write(atom).close();
    expect(faults).toEqual([]);
    const { items } = await json<{ items: { id: string; url: string; date_modified: string }[] }>(
      'feed.json',
    );
    expect([...atom.matchAll(/<entry>/gu)]).toHaveLength(items.length);
    for (const id of ids) expect(items.some(({ url }) => url.endsWith(`/molds/${id}/`))).toBe(true);
    expect(new Set(items.map(({ id }) => id)).size).toBe(items.length);
  });

  test('the table has one line a mold and the numbers of the sheets', async () => {
    const [head = '', ...rows] = (await read('catalogue.csv')).trim().split('\r\n');
    const column = (row: string | undefined, name: string) => row?.split(',')[head.split(',').indexOf(name)];
    expect(rows).toHaveLength(ids.length);
    for (const id of ids) {
      const { figures } = await json<Spec>(`molds/${id}/spec.json`);
      const row = rows.find((line) => line.startsWith(`${id},`));
      const listed = Number(column(row?.replace(/"[^"]*"/gu, '-'), 'shot.total [mL]'));
      expect(listed).toBeCloseTo(figures['shot.total']?.value ?? NaN, 3);
    }
  });

  test('the note for programs names every sheet and asks for whole cautions', async () => {
    const text = await read('llms.txt');
    for (const id of ids) expect(text).toContain(`/molds/${id}/sheet.md`);
    expect(text).toMatch(/cautions/u);
  });
});

describe('cards', () => {
  const cards = files.filter((name) => /card(?:-square)?\.png$/u.test(name));

  test('every mold and every bait has both, and the catalogue one', () => {
    const baits = new Set(
      cards.filter((name) => name.startsWith('baits/')).map((name) => name.split('/')[1]),
    );
    expect(baits.size).toBeGreaterThanOrEqual(8);
    expect(cards).toContain('card.png');
    expect(cards).toHaveLength(2 * ids.length + 2 * baits.size + 1);
  });

  test.each(cards)('%s has its size and at most 100 kB', async (name) => {
    const { width, height, format } = await sharp(join(site, name)).metadata();
    const size = name.includes('square') ? [1080, 1080] : [1200, 630];
    expect([format, width, height]).toEqual(['png', ...size]);
    expect((await stat(join(site, name))).size).toBeLessThanOrEqual(100_000);
  });
});

test('every table of figures that a guide asks for is there', async () => {
  for (const name of files.filter((file) => /^guides\/[^/]+\/index\.html$/u.test(file))) {
    const slug = name.split('/')[1] ?? '';
    const source = await readFile(`content/guides/${slug}.mdx`, 'utf8');
    const html = await read(name);
    const asked = [...source.matchAll(/<(?:EveryMold|ForYourMold)\b/gu)].length;
    const shown = [...html.matchAll(/worked out for each mold<\/caption>|class="for-your-mold"/gu)].length;
    expect([slug, shown]).toEqual([slug, asked]);
  }
});
