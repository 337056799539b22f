import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { serveSite, type Served } from '../../src/commands/site-server.ts';
import { launchChromium } from '../support/chromium.ts';
import { allLaidOut } from '../support/visit.ts';

let browser: Browser;
let served: Served;

beforeAll(async () => {
  served = await serveSite(inject('tinySite'), 0);
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  await served.close();
});

interface Visit {
  readonly page: Page;
  /** What the page complained of: errors, failed requests, requests to anyone else. */
  readonly complaints: readonly string[];
}

async function visit(path: string, width: number, scheme: 'light' | 'dark' = 'light'): Promise<Visit> {
  const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme: scheme });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(served.address)) complaints.push(`asked ${request.url()}`);
  });
  page.on('response', (response) => {
    if (response.status() >= 400) complaints.push(`${response.status()} for ${response.url()}`);
  });
  await page.goto(`${served.address}${path}`, { waitUntil: 'load' });
  return { page, complaints };
}

describe.each([360, 1440])('a sheet at %i px', (width) => {
  test('loads without complaint, says what it is and does not scroll sideways', async () => {
    const { page, complaints } = await visit('molds/peg-2/', width);
    expect(complaints).toEqual([]);
    expect(await page.locator('h1').innerText()).toContain('Peg, two cavities');
    const [content, window] = await page.evaluate<[number, number]>(
      '[document.documentElement.scrollWidth, document.documentElement.clientWidth]',
    );
    expect(content).toBeLessThanOrEqual(window);
    await page.context().close();
  });

  test('shows a drawing of the bait with lines in it', async () => {
    const { page } = await visit('molds/peg-2/', width);
    const drawing = page.locator('svg[role="img"]:visible').first();
    const box = await drawing.boundingBox();
    expect(box?.width ?? 0).toBeGreaterThan(200);
    expect(await drawing.locator('path').count()).toBeGreaterThan(1);
    await page.context().close();
  });

  test.each(['molds/peg-2/', ''])(
    'on /%s every picture lies on its shadow, which is as large',
    async (path) => {
      const { page } = await visit(path, width);
      const pictures = await page.locator('.picture').all();
      expect(pictures.length).toBeGreaterThan(0);
      for (const picture of pictures) {
        await picture.scrollIntoViewIfNeeded();
        const shade = picture.locator('img[src$="-shade.webp"]');
        const shown = picture.locator('img:not([src$="-shade.webp"])');
        const box = await shown.boundingBox();
        expect(box?.width ?? 0).toBeGreaterThan(100);
        expect((box?.width ?? 0) / (box?.height ?? 1)).toBeCloseTo(1.5, 1);
        expect(await shade.boundingBox()).toEqual(box);
        const order = await shown.evaluate((image) => {
          const { x, y, width: wide, height } = image.getBoundingClientRect();
          const hit = image.ownerDocument.elementsFromPoint(x + wide / 2, y + height / 2);
          return hit.flatMap((element) => (element.tagName === 'IMG' ? [element.getAttribute('alt')] : []));
        });
        expect(order).toEqual([await shown.getAttribute('alt'), '']);
      }
      await page.context().close();
    },
  );
});

describe.each(['light', 'dark'] as const)('in the %s', (scheme) => {
  test.each(['molds/peg-2/', '', 'gone/'])('no barrier that a tool can see on /%s', async (path) => {
    const { page } = await visit(path, 360, scheme);
    await page.evaluate(axe.source);
    const found = await page.evaluate<{ violations: { id: string; nodes: { target: string[] }[] }[] }>(
      "axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] })",
    );
    expect(
      found.violations.map(
        ({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`,
      ),
    ).toEqual([]);
    await page.context().close();
  });
});

test('the sheet stands without JavaScript', async () => {
  const context = await browser.newContext({
    javaScriptEnabled: false,
    viewport: { width: 360, height: 900 },
  });
  const page = await context.newPage();
  await page.goto(`${served.address}molds/peg-2/`);
  await allLaidOut(page);
  const text = await page.locator('main').innerText();
  expect(text).toMatch(/fl oz/u);
  expect(text).toMatch(/mL/u);
  expect(text).toContain('WARNING');
  await context.close();
});
