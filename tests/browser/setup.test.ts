import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { serveSite, type Served } from '../../src/commands/site-server.ts';
import { setupAnswer, type SetupData } from '../../src/core/fill/setup.ts';
import { launchChromium } from '../support/chromium.ts';
import { allLaidOut, visit } from '../support/visit.ts';

const SHEET = 'molds/withy-worm-2/';
const PHONE = { viewport: { width: 360, height: 800 } };

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

test('your set-up: loaded when it is asked for; verdict, reserve and map follow the form', async () => {
  const { page, complaints, close } = await visit(browser, served, SHEET, PHONE);
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  expect(asked).toEqual([]);
  await page.getByRole('button', { name: 'Try your own set-up' }).click();
  const status = page.locator('shot-setup [role=status]');
  await page.locator('shot-setup .setup-map .outline').waitFor();
  expect(asked.some((url) => url.endsWith('setup.json'))).toBe(true);
  // The block that customers are told to warm.
  expect(await status.innerText()).toMatch(/may come short/iu);

  await page.getByLabel('or the mold as measured').fill('65 °F');
  await page.locator('shot-setup figcaption', { hasText: 'Stops after' }).waitFor();
  expect(await status.innerText()).toMatch(/comes short/iu);
  expect(await page.locator('shot-setup .setup-map .short').getAttribute('d')).not.toBe('');

  await page.getByLabel('or the mold as measured').fill('140 °F');
  await page.getByLabel('Plastic in the cup').fill('350 °F');
  await page.locator('shot-setup figcaption', { hasText: 'Full after' }).waitFor();
  expect(await status.innerText()).toMatch(/may come short/iu);
  expect(await page.locator('shot-setup .setup-map .short').getAttribute('d')).toBe('');
  const data = JSON.parse(await readFile(join(inject('demoSite'), SHEET, 'setup.json'), 'utf8')) as SetupData;
  const degrees = (f: number) => ((f - 32) * 5) / 9 + 273.15;
  const { parts } = setupAnswer(data, {
    ...data.own,
    pour: degrees(350),
    mold: { temperature: degrees(140) },
  });
  const shown = Number(await page.locator('shot-setup td b').first().innerText());
  expect(Math.abs(shown / parts[0]!.reserve.value - 1)).toBeLessThan(0.05);

  await page.getByLabel('Plastic in the cup').fill('390 °F');
  expect(await status.innerText()).toMatch(/too hot: never over/iu);
  expect(await page.locator('shot-setup table').count()).toBe(0);
  await page.getByLabel('Plastic in the cup').fill('warm');
  expect(await status.innerText()).toContain('needs a look');
  expect(await page.locator('#setup-pour').getAttribute('aria-invalid')).toBe('true');
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(360);
  expect(complaints).toEqual([]);
  await close();
});

test('without scripts the tables and plots answer', async () => {
  const { page, close } = await visit(browser, served, SHEET, { ...PHONE, javaScriptEnabled: false });
  await allLaidOut(page);
  expect(await page.locator('shot-setup').innerText()).toBe('');
  expect(await page.locator('[id="fill.reserve.cold.ribbon"]').innerText()).toMatch(/\d/u);
  const maps = await page
    .locator('#part-filling img')
    .evaluateAll((images) =>
      (images as unknown as { getAttribute: (name: string) => string }[]).map((one) =>
        one.getAttribute('src'),
      ),
    );
  expect(maps.filter((src) => /fill-cold|fill-warm|window/u.test(src))).toHaveLength(3);
  await close();
});
