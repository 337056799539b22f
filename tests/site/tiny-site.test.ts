import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import sharp from 'sharp';
import { describe, expect, inject, test } from 'vitest';
import { REQUIRED_FIGURES } from '../../src/sheet/sheet.ts';
import { filesBelow } from '../support/folder-digest.ts';

const site = inject('tinySite');
const read = (name: string): Promise<string> => readFile(join(site, name), 'utf8');

interface Figure {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly basis: string;
}

interface Spec {
  readonly format: string;
  readonly status: string;
  readonly figures: Readonly<Record<string, Figure>>;
  readonly cautions: readonly { readonly key: string; readonly hazard: string }[];
}

const spec = JSON.parse(await read('molds/peg-2/spec.json')) as Spec;
const figure = (key: string): Figure => spec.figures[key] ?? expect.fail(`there is no figure ${key}`);
const value = (key: string): number => figure(key).value;

describe('spec.json', () => {
  test('has every promised figure, each a banded number with its unit and basis', () => {
    expect(spec.format).toBe('partline-spec/1');
    expect(Object.keys(spec.figures)).toEqual(expect.arrayContaining([...REQUIRED_FIGURES]));
    for (const [key, { value: nominal, low, high, unit, basis }] of Object.entries(spec.figures)) {
      expect([key, low <= nominal, nominal <= high, unit.length > 0, basis.length > 0]).toEqual([
        key,
        true,
        true,
        true,
        true,
      ]);
    }
  });

  test.each([
    ['bait.length', 'mm'],
    ['bait.volume', 'cm3'],
    ['bait.surface', 'cm2'],
    ['bait.density', 'g/cm3'],
    ['bait.mass', 'g'],
    ['shot.total', 'mL'],
    ['shot.mass', 'g'],
    ['heat.demoldTime', 's'],
    ['heat.riseFirstShot', 'K'],
    ['pour.nominal', 'Cel'],
    ['mold.clampForce', 'N'],
    ['mold.blockMass', 'kg'],
  ])('gives %s in %s', (key, unit) => {
    expect(figure(key).unit).toBe(unit);
  });

  test('fits the JSON Schema that is published with it', async () => {
    const ajv = new Ajv2020({ strict: false, validateFormats: false });
    const fits = ajv.compile(JSON.parse(await read('schema/spec.json')) as object);
    expect([fits(spec), fits.errors]).toEqual([true, null]);
    expect(fits({ ...spec, format: 'another' })).toBe(false);
  });

  test('measures what the catalogue states', () => {
    expect(value('bait.length')).toBeCloseTo(100, 6);
    expect(value('bait.width')).toBeCloseTo(9, 6);
    expect(value('bait.height')).toBeCloseTo(9, 6);
  });

  test('agrees with hand sums over the channels and the block', () => {
    // Sprue: frustum of 10 and 7 mm over 15 mm; runner: cylinder of 6 mm over 30 mm; two gates of 4 × 2 × 3 mm.
    const sprue = ((Math.PI * 15) / 3) * (5 ** 2 + 5 * 3.5 + 3.5 ** 2);
    const runner = Math.PI * 3 ** 2 * 30;
    const channels = sprue + runner + 2 * (4 * 2 * 3);
    expect(value('shot.runner')).toBeCloseTo(channels / 1000, 6);
    // Block of 140 × 75 × 30 mm less what is cut out; 6061-T6 weighs 2.70 g/cm³ (ASM Handbook, vol. 2).
    // The shot counts the stated 30 mm of runner; the halves are cut with the runner that the layout needs, which is
    // about as long, and lack a little more: its round ends, gates that reach a rounded nose, eight edge vents.
    const uncut = 14 * 7.5 * 3 - 2 * value('bait.volume') - (channels - runner) / 1000;
    const lacking = uncut - (value('mold.blockMass') * 1000) / 2.7;
    expect(lacking).toBeGreaterThan((0.8 * runner) / 1000);
    expect(lacking).toBeLessThan((1.2 * runner) / 1000);
    expect(Math.abs(value('mold.shotCheck') - 1)).toBeLessThan(0.001);
    expect(value('shot.total')).toBeCloseTo(
      2 * value('shot.perCavity') + value('shot.runner') + value('shot.topOff'),
      6,
    );
  });
});

describe('the pages', async () => {
  const html = await read('molds/peg-2/index.html');

  test('show the sheet with its cautions in the HTML', () => {
    const wanted = ['Peg, two cavities', 'EB-PEG-2', ...spec.cautions.map(({ key }) => `id="${key}"`)];
    expect(wanted.length).toBeGreaterThan(4);
    expect(wanted.filter((part) => !html.includes(part))).toEqual([]);
  });

  test('draw the bait as real SVG, with a name for those who cannot see it', () => {
    const [drawing] = /<svg[^>]*role="img"[\s\S]*?<\/svg>/u.exec(html) ?? [];
    expect(drawing).toMatch(/<title[^>]*>[^<]+<\/title>/u);
    expect(drawing).toMatch(/<path[^>]* d="M/u);
  });

  test('link to pages and files that are there', async () => {
    const files = new Set(await filesBelow(site));
    const pages = [...files].filter((name) => name.endsWith('.html'));
    const links = (await Promise.all(pages.map(async (page) => linksOf(page, await read(page))))).flat();
    expect(links.length).toBeGreaterThan(10);
    expect(links.filter(({ target }) => !files.has(target))).toEqual([]);
  });

  test('lead to anchors that are there', () => {
    const anchors = [...html.matchAll(/href="#([^"]+)"/gu)].map(([, name = '']) => name);
    expect(anchors.length).toBeGreaterThan(3);
    expect(anchors.filter((name) => !html.includes(`id="${name}"`))).toEqual([]);
  });

  test('hold no inline script, and one style sheet, which their policy names by its hash', async () => {
    for (const page of (await filesBelow(site)).filter((name) => name.endsWith('.html'))) {
      const text = await read(page);
      const scripts = [...text.matchAll(/<script\b([^>]*)>/gu)].map(([, attributes = '']) => attributes);
      const inline = scripts.filter(
        (attributes) => !/\bsrc=|type="application\/(?:ld\+)?json"/u.test(attributes),
      );
      expect([page, inline]).toEqual([page, []]);
      const sheets = [...text.matchAll(/<style\b[^>]*>([\s\S]*?)<\/style>/gu)].map(([, sheet = '']) => sheet);
      expect([page, sheets.length]).toEqual([page, 1]);
      const hash = createHash('sha256').update(sheets.join('')).digest('base64');
      expect(text).toContain(`; style-src 'self' 'sha256-${hash}'; `);
      expect(text.indexOf('http-equiv="content-security-policy"')).toBeLessThan(text.indexOf('<style'));
    }
  });

  test('the page of the bait has its revision, its water test and its molds', async () => {
    const bait = await read('baits/peg/index.html');
    const wanted = ['First drawing.', 'Sinks level.', 'water test', 'Peg, two cavities'];
    expect(wanted.filter((part) => !bait.includes(part))).toEqual([]);
  });

  test('tell nothing of a mold that is not published', async () => {
    const telling: string[] = [];
    for (const name of await filesBelow(site)) {
      const text = /\.(?:html|json|svg|txt|xml)$/u.test(name) ? await read(name) : '';
      if (/peg-draft|EB-PEG-1|unpublished draft/u.test(`${name}\n${text}`)) telling.push(name);
    }
    expect(telling).toEqual([]);
  });
});

/** Files that the links of a page lead to, as far as they stay on the site. */
function linksOf(page: string, html: string): { page: string; target: string }[] {
  const base = new URL(`https://bench.example.com/${page}`);
  return [...html.matchAll(/\b(?:href|src)="([^"]+)"/gu)]
    .map(([, link = '']) => new URL(link.replaceAll('&amp;', '&'), base))
    .filter(({ host, pathname, hash }) => host === base.host && !(hash !== '' && pathname === base.pathname))
    .map(({ pathname }) => decodeURIComponent(pathname).slice(1))
    .map((path) => ({ page, target: path === '' || path.endsWith('/') ? `${path}index.html` : path }));
}

describe('the share card', async () => {
  const html = await read('molds/peg-2/index.html');
  const [, address = ''] = /<meta property="og:image" content="([^"]+)"/u.exec(html) ?? [];

  test('is a picture of 1200 × 630 at the address that the page names', async () => {
    const { host, pathname } = new URL(address);
    expect(host).toBe('bench.example.com');
    const picture = sharp(join(site, pathname));
    expect(await picture.metadata()).toMatchObject({ format: 'png', width: 1200, height: 630 });
    const { channels } = await picture.stats();
    expect(Math.max(...channels.map(({ stdev }) => stdev))).toBeGreaterThan(10);
  });
});
