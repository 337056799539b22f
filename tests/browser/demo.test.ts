import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { serveSite, type Served } from '../../src/commands/site-server.ts';
import { launchChromium } from '../support/chromium.ts';
import { allLaidOut, visit } from '../support/visit.ts';

const SHEET = 'molds/osier-grub-6/';
const PAGES = [
  '',
  SHEET,
  `${SHEET}insert/`,
  'baits/osier-grub/',
  'answers/?q=cold',
  'compare/',
  'search/?q=vents',
  'guides/',
  'guides/first-shots/',
];

let browser: Browser;
let served: Served;

beforeAll(async () => {
  served = await serveSite(inject('demoSite'), 0);
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  await served.close();
});

const open = (path: string, options: Parameters<typeof visit>[3] = {}) =>
  visit(browser, served, path, options);

const wide = (page: Page) =>
  page.evaluate<[number, number]>(
    '[document.documentElement.scrollWidth, document.documentElement.clientWidth]',
  );

describe.each(['light', 'dark'] as const)('in the %s, 320 px wide', (colorScheme) => {
  test.each(PAGES)('/%s: nothing that axe can fault, no complaint, no sideways scroll', async (path) => {
    const { page, complaints, close } = await open(path, {
      colorScheme,
      viewport: { width: 320, height: 800 },
    });
    await allLaidOut(page);
    await page.evaluate(
      'for (const fold of document.querySelectorAll("details")) fold.open = true; new Promise((done) => setTimeout(done, 200))',
    );
    await page.evaluate(axe.source);
    const found = await page.evaluate<{ violations: { id: string; nodes: { target: string[] }[] }[] }>(
      "axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'], rules: { 'target-size': { enabled: true } } })",
    );
    expect(
      found.violations.map(
        ({ id, nodes }) =>
          `${id}: ${nodes
            .slice(0, 5)
            .map(({ target }) => target.join(' '))
            .join(', ')}`,
      ),
    ).toEqual([]);
    expect(complaints).toEqual([]);
    if (!path.endsWith('insert/')) {
      const [content, window] = await wide(page);
      expect(content).toBeLessThanOrEqual(window);
    }
    await close();
  });
});

test.each(PAGES.filter((path) => !path.endsWith('insert/')))('/%s fits 768 and 1440 px', async (path) => {
  for (const width of [768, 1440]) {
    const { page, close } = await open(path, { viewport: { width, height: 900 } });
    const [content, window] = await wide(page);
    expect([width, content <= window]).toEqual([width, true]);
    await close();
  }
});

/** Controls that a gloved finger has to hit; links in running text are told apart by the words around them. */
const CONTROLS =
  'button, select, input[type=search], summary, unit-choice label, .ways a, .maker, .contents a, .button, .links a, .see a';

test('every control is at least 48 px high', async () => {
  for (const path of ['', SHEET, 'answers/', 'compare/']) {
    const { page, close } = await open(path, { viewport: { width: 360, height: 800 } });
    const small = await page.evaluate<string[]>(
      `[...document.querySelectorAll(${JSON.stringify(CONTROLS)})].filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 47.5).map((one) => one.outerHTML.slice(0, 90))`,
    );
    expect([path, small]).toEqual([path, []]);
    await close();
  }
});

test('a sheet and all that it loads weigh at most 130 kB, compressed', async () => {
  const { page, close } = await open('404.html');
  const files = new Set<string>();
  page.on('response', (response) => files.add(new URL(response.url()).pathname));
  await page.setViewportSize({ width: 360, height: 800 });
  await page.goto(`${served.address}${SHEET}`, { waitUntil: 'networkidle' });
  expect(files.size).toBeGreaterThan(5);
  let weight = 0;
  for (const path of files) {
    const name = decodeURIComponent(path.endsWith('/') ? `${path}index.html` : path);
    const bytes = await readFile(join(inject('demoSite'), name));
    weight += /\.(?:html|css|js|svg|json)$/u.test(name) ? gzipSync(bytes, { level: 9 }).length : bytes.length;
  }
  expect(weight, [...files].join('\n')).toBeLessThanOrEqual(130_000);
  await close();
});

test('structured data equals what the page shows', async () => {
  const { page, close } = await open(SHEET);
  const compared = await page.evaluate<{ id: string; told: number; shown: number }[]>(`
    (() => {
      const number = (text) => Number(text.replace('\\u2212', '-').replace(/[^0-9.-]/g, ''));
      const { additionalProperty } = JSON.parse(document.querySelector('script[type="application/ld+json"]').textContent);
      return additionalProperty.map(({ propertyID: id, value }) => {
        const home = document.getElementById(id).closest('details.figure') ?? document.getElementById(id);
        const shown = home.querySelector('.q .metric b, .q .both b');
        return { id, told: value, shown: number(shown.textContent) };
      });
    })()
  `);
  expect(compared.length).toBeGreaterThan(25);
  expect(compared.filter(({ told, shown }) => told !== shown)).toEqual([]);
  await close();
});

/** Titles of the molds of one family, by the catalogue for programs. */
async function titlesOf(family: string): Promise<string[]> {
  const { molds } = JSON.parse(await readFile(join(inject('demoSite'), 'catalogue.json'), 'utf8')) as {
    molds: { title: string; bait: { family: string } }[];
  };
  return molds.flatMap(({ title, bait }) => (bait.family === family ? [title] : [])).sort();
}

describe('without a script', () => {
  const plain = { javaScriptEnabled: false };

  test('the sheet stands, and its answers open', async () => {
    const { page, close } = await open(SHEET, plain);
    expect(await page.locator('.panel').count()).toBeGreaterThanOrEqual(8);
    const answer = page.locator('.answer', { hasText: 'How hot do I pour?' });
    await answer.locator('summary').click();
    expect(await answer.locator('.short').innerText()).toMatch(/°F \/ .*°C/u);
    await close();
  });

  test('the catalogue narrows and orders itself', async () => {
    const { page, close } = await open('', plain);
    const all = await page.locator('.molds > li').count();
    await page.locator('#f-family').selectOption('curl-tail-grub');
    const left = page.locator('.molds > li:visible h2');
    // Text that is not laid out yet has no inner text.
    const titles = (await left.allTextContents()).map((title) => title.trim());
    expect(titles.sort()).toEqual(await titlesOf('curl-tail grub'));
    await page.locator('.narrowing button').click();
    expect(await page.locator('.molds > li:visible').count()).toBe(all);
    await page.locator('#f-sort').selectOption('cavities');
    const tops = await page.locator('.molds > li').evaluateAll((items) =>
      (
        items as unknown as {
          getBoundingClientRect(): { top: number };
          querySelector(of: string): { textContent: string };
        }[]
      )
        .map((item) => ({
          top: item.getBoundingClientRect().top,
          name: item.querySelector('h2').textContent.trim(),
        }))
        .sort((a, b) => a.top - b.top),
    );
    expect(tops[0]?.name).toBe('Sliver Minnow, eight cavities');
    await close();
  });

  test('answers, search and comparison are plain lists', async () => {
    const answers = await open('answers/', plain);
    expect(await answers.page.locator('.questions > li').count()).toBe(23 + 9);
    expect(await answers.page.locator('#shoot-cold a').first().getAttribute('href')).toMatch(/#shoot-cold$/u);
    await answers.close();
    const search = await open('search/', plain);
    expect(await search.page.locator('.plain a').count()).toBeGreaterThan(15);
    await search.close();
    const compare = await open('compare/', plain);
    await compare.page.locator('#pick-osier-grub-2').check();
    await compare.page.locator('#pick-tarn-craw-2').check();
    expect(await compare.page.locator('thead th:visible').count()).toBe(2);
    await compare.close();
  });
});

test('a reply is copied with its text, its revision and its address', async () => {
  const { page, close } = await open(SHEET, { permissions: ['clipboard-read', 'clipboard-write'] });
  await page.locator('.answer', { hasText: 'How hot do I pour?' }).locator('summary').click();
  await page.getByRole('button', { name: 'Copy reply How hot do I pour?' }).click();
  await page.getByRole('status').filter({ hasText: 'Copied' }).first().waitFor();
  const copied = await page.evaluate<string>('navigator.clipboard.readText()');
  const { replies } = JSON.parse(await readFile(join(inject('demoSite'), SHEET, 'answers.json'), 'utf8')) as {
    replies: { key: string; text: string }[];
  };
  expect(copied).toBe(replies.find(({ key }) => key === 'how-hot')?.text);
  await close();
});

test('an address of an answer opens it', async () => {
  const { page, close } = await open(`${SHEET}#clamping`);
  await page.locator('#clamping .short').waitFor({ state: 'visible' });
  await close();
});

test('the finder answers to a customer’s words for the chosen mold', async () => {
  const { page, complaints, close } = await open('answers/?mold=tarn-craw-2');
  await page.getByLabel('Your words').fill('bubles');
  await page.locator('#bubbles-and-dents .reply').waitFor({ state: 'visible' });
  expect(await page.locator('.questions > li:visible').count()).toBeLessThan(5);
  expect(await page.locator('#bubbles-and-dents .reply a').getAttribute('href')).toBe(
    '/molds/tarn-craw-2/#bubbles-and-dents',
  );
  expect(page.url()).toContain('q=bubles');
  expect(complaints).toEqual([]);
  await close();
});

test('the catalogue keeps its choice in the address and says how many are left', async () => {
  const { page, close } = await open('?family=lizard');
  expect(await page.locator('.molds > li:visible').count()).toBe(1);
  expect(await page.locator('.left').innerText()).toMatch(/^1 of \d+ molds$/u);
  await close();
});

test('the search lands on an anchor', async () => {
  const { page, complaints, close } = await open('search/');
  await page.getByRole('searchbox').fill('flsh margin');
  const first = page.locator('.results a').first();
  await first.waitFor();
  await first.click();
  await page.waitForURL(/molds\/[^/]+\/.*#/u);
  expect(complaints).toEqual([]);
  await close();
});
