import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { serveSite } from '../../src/commands/site-server.ts';
import { launchChromium } from '../support/chromium.ts';
import { runCommand } from '../support/run-command.ts';
import { changedCatalogue, temporaryFolder, TINY } from '../support/temporary.ts';

const MANY = 25;

/** A catalogue of one bait with more molds than can be looked over at once. */
async function manyMolds(): Promise<string> {
  const mold = await readFile(join(TINY, 'molds', 'peg-2.yaml'), 'utf8');
  const more = Array.from({ length: MANY - 1 }, (_, i) => [
    `molds/peg-2-${i}.yaml`,
    mold.replace('stock: EB-PEG-2', `stock: EB-PEG-2-${i}`).replace('name: Peg, two', `name: Peg ${i}, two`),
  ]);
  return changedCatalogue(Object.fromEntries(more) as Record<string, string>);
}

test('with many molds the comparison shows those that are picked, and answers name none twice', async () => {
  const folder = join(await temporaryFolder(), 'site');
  const built = await runCommand('build', {
    CONTENT_DIR: await manyMolds(),
    OUT_DIR: folder,
    ANALYSIS_CACHE: await temporaryFolder(),
    PAGES_CACHE: await temporaryFolder(),
  });
  expect(built.code, built.stderr).toBe(0);
  const served = await serveSite(folder, 0);
  const browser = await launchChromium();
  onTestFinished(async () => {
    await browser.close();
    await served.close();
  });

  for (const javaScriptEnabled of [true, false]) {
    const page = await browser.newPage({ javaScriptEnabled, viewport: { width: 390, height: 800 } });
    await page.goto(`${served.address}compare/`, { waitUntil: 'networkidle' });
    const columns = page.locator('thead th:visible');
    expect([await columns.count(), await page.locator('.table').isVisible()]).toEqual([0, false]);
    await page.locator('#pick-peg-2-3').check();
    await page.locator('#pick-peg-2-7').check();
    expect((await columns.allInnerTexts()).sort()).toEqual(['Peg 3, two cavities', 'Peg 7, two cavities']);
    expect(await page.locator('tbody tr').first().locator('td:visible').count()).toBe(2);
    await page.locator('.pick button').click();
    expect(await columns.count()).toBe(0);

    await page.goto(`${served.address}answers/`, { waitUntil: 'networkidle' });
    expect(await page.locator('.questions .molds-of').count()).toBe(0);
    const every = page.locator('noscript .molds-of a');
    expect(await every.count()).toBe(javaScriptEnabled ? 0 : MANY);
    if (!javaScriptEnabled) expect(await every.first().getAttribute('href')).toMatch(/#part-questions$/u);
    await page.close();
  }
}, 240_000);
