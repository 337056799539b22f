import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, inject, test } from 'vitest';
import { filesBelow } from '../support/folder-digest.ts';

interface Caution {
  readonly key: string;
  readonly type: string;
  readonly signal: string;
  readonly hazard: string;
  readonly consequence: string;
  readonly avoid: readonly string[];
}

const site = inject('demoSite');
const read = (name: string): Promise<string> => readFile(join(site, name), 'utf8');
const ids = (await filesBelow(site)).flatMap((name) => /^molds\/([^/]+)\/spec\.json$/u.exec(name)?.[1] ?? []);
const cautionsOf = async (id: string): Promise<Caution[]> =>
  (JSON.parse(await read(`molds/${id}/spec.json`)) as { cautions: Caution[] }).cautions;

/** What hot plastisol under pressure in a metal block can do to someone: every sheet warns of all of it. */
const HAZARDS = ['steam', 'hot liquid', 'toxic gas', 'fire', 'pressure', 'hot surface'];

/** The words of a page or a text, without markup, in one line. */
function wordsOf(text: string): string {
  return text
    .replace(/<(?:script|style)\b.*?<\/(?:script|style)>/gsu, ' ')
    .replace(/<[^>]+>/gu, ' ')
    .replace(/&#x([0-9a-f]+);/giu, (_, code: string) => String.fromCodePoint(Number.parseInt(code, 16)))
    .replace(/&#(\d+);/gu, (_, code: string) => String.fromCodePoint(Number(code)))
    .replace(/&lt;/gu, '<')
    .replace(/&gt;/gu, '>')
    .replace(/&quot;/gu, '"')
    .replace(/&amp;/gu, '&')
    .replace(/\\([^\w\s])/gu, '$1')
    .replace(/\s+/gu, ' ');
}

/** Sentences of the cautions that a text does not hold; signal words count as many times as they are needed. */
function lacking(text: string, cautions: readonly Caution[]): string[] {
  const words = wordsOf(text);
  const sentences = cautions.flatMap(({ hazard, consequence, avoid }) => [hazard, consequence, ...avoid]);
  const signals = [...new Set(cautions.map(({ signal }) => signal))].filter(
    (signal) => words.split(signal).length - 1 < cautions.filter((one) => one.signal === signal).length,
  );
  return [...sentences.filter((sentence) => !words.includes(sentence.replace(/\s+/gu, ' '))), ...signals];
}

const harmful = (cautions: readonly Caution[]): Caution[] =>
  cautions.filter(({ signal }) => signal !== 'NOTICE');

describe.each(ids)('%s', async (id) => {
  const cautions = await cautionsOf(id);

  test('warns of every hazard, and puts the data sheet first', () => {
    const types = cautions.map(({ type }) => type);
    expect(HAZARDS.filter((hazard) => !types.includes(hazard))).toEqual([]);
    expect(cautions.map(({ key }) => key)).toContain('data-sheet-first');
    for (const { avoid, consequence } of cautions) {
      expect(avoid.length).toBeGreaterThan(0);
      expect(consequence.length).toBeGreaterThan(20);
    }
  });

  test.each([
    ['the page', 'index.html', cautions],
    ['the sheet as text', 'sheet.md', cautions],
    ['the sheet in the box', 'insert/index.html', harmful(cautions)],
  ])('%s carries every word of them', async (_, name, wanted) => {
    expect(lacking(await read(`molds/${id}/${name}`), wanted)).toEqual([]);
  });

  test('each has a panel and an address of its own on the page', async () => {
    const html = await read(`molds/${id}/index.html`);
    for (const caution of cautions) {
      const [, panel = '', ...more] = html.split(`id="${caution.key}"`);
      expect(more, caution.key).toEqual([]);
      expect(lacking(panel.split('</section>', 1)[0] ?? '', [caution]), caution.key).toEqual([]);
    }
  });
});

test('a template that loses one of them is found out', async () => {
  const [id = ''] = ids;
  const cautions = await cautionsOf(id);
  for (const name of ['index.html', 'sheet.md', 'insert/index.html']) {
    const words = wordsOf(await read(`molds/${id}/${name}`));
    for (const caution of harmful(cautions)) {
      const without = words.replaceAll(caution.hazard.replace(/\s+/gu, ' '), '');
      expect(lacking(without, cautions), `${name}: ${caution.key}`).toContain(caution.hazard);
    }
  }
});

test('the guides warn before they tell how', async () => {
  const guide = wordsOf(await read('guides/hot-plastisol/index.html'));
  for (const word of ['DANGER', 'WARNING', 'hydrogen chloride', 'cool running water', 'safety data sheet'])
    expect(guide).toContain(word);
});
