import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { serveSite, type Served } from '../../src/commands/site-server.ts';
import { cumulativeShift, openOnPhone, phoneBrowser } from '../support/phone.ts';

// What a reader on a phone meets: nothing jumps, and nothing comes that was not asked for. Times are measured apart, in
// `tests/bench/reader.bench.ts`: on a busy machine they say more of the machine.

const SHEET = 'molds/osier-grub-6/';
const PAGES = [SHEET, '', 'plan/', 'answers/'];
const INDEX = '/search.json';
/** What counts as no jump at all: a word in the first line of a page that moves sideways by as much as a letter. */
const STILL = 0.001;

let browser: Browser;
let served: Served;
beforeAll(async () => {
  served = await serveSite(inject('demoSite'), 0);
  browser = await phoneBrowser();
});
afterAll(async () => {
  await browser.close();
  await served.close();
});

const open = (path: string, prepare?: (page: Page) => Promise<unknown>) =>
  openOnPhone(browser, `${served.address}${path}`, prepare ? { prepare } : {});

/** The faces come long after the page has been painted, as on a slow line. */
const lateFaces = (page: Page) =>
  page.route(/\.woff2$/u, async (route) => {
    await new Promise((done) => setTimeout(done, 1500));
    await route.continue();
  });

describe.each([
  ['at once', PAGES, undefined],
  ['late', [SHEET, ''], lateFaces],
] as const)('when the faces come %s', (_, paths, prepare) => {
  test.each(paths)(
    '/%s: nothing jumps, from its first paint to its end, and no search index comes',
    async (path) => {
      const phone = await open(path, prepare);
      await phone.scrollThrough();
      const { cls, shifts, lcp } = await phone.waited();
      expect(lcp).toBeGreaterThan(0);
      expect(cls, JSON.stringify(shifts)).toBeLessThan(STILL);
      expect(phone.asked.length).toBeGreaterThan(3);
      expect(phone.asked).not.toContain(INDEX);
      await phone.close();
    },
  );
});

/** How long all but the page itself is held back [ms]. */
const HELD = 3000;

/** Only the page comes at once; whatever it names is late. */
const onlyThePage = (page: Page) =>
  page.route(/./u, async (route) => {
    if (route.request().resourceType() !== 'document') await new Promise((done) => setTimeout(done, HELD));
    await route.continue();
  });

test.each(PAGES)('/%s: its words are painted before anything else has come, as they stay', async (path) => {
  const phone = await open(path, onlyThePage);
  const { lcp, cls, shifts } = await phone.waited();
  expect(lcp).toBeGreaterThan(0);
  expect(lcp).toBeLessThan(HELD);
  expect(cls, JSON.stringify(shifts)).toBeLessThan(STILL);
  await phone.close();
});

test('a block that comes late would be found', async () => {
  const phone = await open(SHEET);
  await phone.page.evaluate(`{
    const late = document.createElement('p');
    late.textContent = 'late';
    document.querySelector('main').prepend(late);
  }`);
  await phone.page.waitForTimeout(200);
  expect((await phone.waited()).cls).toBeGreaterThan(0.01);
  await phone.close();
});

// Definition of CLS on web.dev: bursts with less than a second between jumps, five seconds at most; the worst counts.
test('jumps are added up by bursts', () => {
  const at = (...jumps: (readonly [number, number])[]) => jumps.map(([time, value]) => ({ at: time, value }));
  expect(cumulativeShift([])).toBe(0);
  expect(cumulativeShift(at([0, 0.1], [900, 0.1]))).toBeCloseTo(0.2, 12);
  expect(cumulativeShift(at([0, 0.1], [1000, 0.15]))).toBeCloseTo(0.15, 12);
  expect(
    cumulativeShift(at(...[0, 900, 1800, 2700, 3600, 4500, 5400].map((time) => [time, 0.1] as const))),
  ).toBeCloseTo(0.6, 12);
});

describe('what comes over the line', () => {
  test('the search index, at the first word', async () => {
    const phone = await open('search/');
    await phone.page.getByRole('searchbox').tap();
    expect(phone.asked).not.toContain(INDEX);
    await phone.page.keyboard.type('flash');
    await phone.page.locator('.results a').first().waitFor();
    expect(phone.asked.filter((path) => path === INDEX)).toHaveLength(1);
    await phone.close();
  });

  test('a sheet: three faces, none of them for letters that it has not', async () => {
    const phone = await open(SHEET);
    await phone.scrollThrough();
    expect(phone.asked.filter((path) => path.endsWith('.woff2'))).toHaveLength(3);
    await phone.page.evaluate("document.querySelector('h1').textContent = 'Größe'");
    await phone.page.waitForTimeout(300);
    expect(phone.asked.filter((path) => path.endsWith('.woff2'))).toHaveLength(4);
    await phone.close();
  });
});

/** Words of another text than the one that the widths were taken from. */
const WORDS =
  'Each figure opens to show its formula, the inputs that it was worked out from, how sure they are and where they stand. A cold block freezes thin tails first; warm it, and shoot again.';

test.each([
  ['Barlow', 400],
  ['Barlow', 600],
  ['Barlow Condensed', 600],
] as const)('%s %i: words by the installed face are as wide, within 3 percent', async (family, weight) => {
  const phone = await open(SHEET);
  const file = phone.asked.find((path) =>
    path.includes(`/${family.toLowerCase().replace(' ', '-')}-${weight}.`),
  );
  const [drawn = 0, standIn = 0, installed = 0] = await phone.page.evaluate<number[]>(`(async () => {
    document.fonts.add(await new FontFace('Drawn', 'url(${file})').load());
    const line = document.createElement('span');
    line.textContent = ${JSON.stringify(WORDS)};
    Object.assign(line.style, { whiteSpace: 'nowrap', position: 'absolute', fontSize: '20px', fontWeight: '${weight}' });
    document.body.append(line);
    return ['Drawn', "'${family} by Roboto', serif", 'Roboto'].map((name) => {
      line.style.fontFamily = name;
      return line.getBoundingClientRect().width;
    });
  })()`);
  expect(drawn).toBeGreaterThan(500);
  expect(Math.abs(standIn / installed - 1)).toBeGreaterThan(0.02);
  expect(drawn).not.toBe(installed);
  expect(Math.abs(standIn / drawn - 1)).toBeLessThan(0.03);
  await phone.close();
});

test.each([SHEET])('/%s is taken to be as long as it is, within a fifth', async (path) => {
  const phone = await open(path);
  const height = () => phone.page.evaluate<number>('document.documentElement.scrollHeight');
  const taken = await height();
  await phone.scrollThrough();
  const real = await height();
  expect(taken).not.toBe(real);
  expect(Math.abs(taken / real - 1)).toBeLessThan(0.2);
  await phone.close();
});
