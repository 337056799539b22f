import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import jsQR from 'jsqr';
import { getDocument, OPS, Util } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Browser } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { serveSite, type Served } from '../../src/commands/site-server.ts';
import { launchChromium } from '../support/chromium.ts';
import { visit } from '../support/visit.ts';

const ids = await readdir(join(inject('demoSite'), 'molds'));
const POINT = 25.4 / 72;

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

async function printed(path: string, format: 'A4' | 'Letter') {
  const { page, close } = await visit(browser, served, path);
  const pdf = await page.pdf({ format, printBackground: true });
  await close();
  return getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Boxes of all paths on a page of a PDF, as they lie on the paper [mm]. */
async function pathSizes(document: Awaited<ReturnType<typeof printed>>, number: number): Promise<Size[]> {
  const page = await document.getPage(number);
  const { fnArray, argsArray } = await page.getOperatorList();
  let at: number[] = [1, 0, 0, 1, 0, 0];
  const kept: number[][] = [];
  const sizes: Size[] = [];
  fnArray.forEach((name, index) => {
    const args = argsArray[index] as unknown[];
    if (name === OPS.save) kept.push(at);
    else if (name === OPS.restore) at = kept.pop() ?? at;
    else if (name === OPS.transform) at = Util.transform(at, args as number[]) as number[];
    else if (name === OPS.constructPath) {
      const [left = 0, top = 0, right = 0, bottom = 0] = [...(args[2] as Float32Array)];
      const corners = [
        [left, top],
        [right, top],
        [right, bottom],
        [left, bottom],
      ].map(([x = 0, y = 0]) => [
        (at[0] ?? 0) * x + (at[2] ?? 0) * y + (at[4] ?? 0),
        (at[1] ?? 0) * x + (at[3] ?? 0) * y + (at[5] ?? 0),
      ]);
      const span = (axis: 0 | 1) => {
        const values = corners.map((corner) => corner[axis] ?? 0);
        return (Math.max(...values) - Math.min(...values)) * POINT;
      };
      sizes.push({ width: span(0), height: span(1) });
    }
  });
  return sizes;
}

/** Strokes in one colour on a page of a PDF: those of which only the lightness is printed, and the others. */
async function strokesIn(colour: string, document: Awaited<ReturnType<typeof printed>>, number: number) {
  const { fnArray, argsArray } = await (await document.getPage(number)).getOperatorList();
  let now = { stroke: '', lightOnly: false };
  const kept: (typeof now)[] = [];
  const found = { lightOnly: 0, inColour: 0 };
  fnArray.forEach((name, index) => {
    const args = argsArray[index] as unknown[];
    if (name === OPS.save || name === OPS.paintFormXObjectBegin) kept.push({ ...now });
    else if (name === OPS.restore || name === OPS.paintFormXObjectEnd) now = kept.pop() ?? now;
    else if (name === OPS.setStrokeRGBColor) now.stroke = args[0] as string;
    else if (name === OPS.setGState) {
      const [, mode] = (args[0] as [string, unknown][]).find(([key]) => key === 'BM') ?? [];
      // What is drawn in a group is blended with the group, and the group with the paper.
      if (mode === 'luminosity') now.lightOnly = true;
    } else if (name === OPS.constructPath && args[0] === OPS.stroke && now.stroke === colour)
      found[now.lightOnly ? 'lightOnly' : 'inColour'] += 1;
  });
  return found;
}

test.each(ids)('the sheet of %s takes two pages of A4, lines of its drawings are black', async (id) => {
  const { page, close } = await visit(browser, served, `molds/${id}/`);
  const source = await page.locator('img[src*="/drawing-view"]').first().getAttribute('src');
  const drawing = await (await page.request.get(new URL(source ?? '', served.address).href)).text();
  await close();
  const colour =
    /\.ln-dimension[^{}]*\{stroke:(?<colour>#[0-9a-f]{6})\}/u.exec(drawing)?.groups?.['colour'] ?? '';
  const document = await printed(`molds/${id}/`, 'A4');
  expect(document.numPages).toBe(2);
  const { lightOnly, inColour } = await strokesIn(colour, document, 1);
  expect(lightOnly).toBeGreaterThan(0);
  expect(inColour).toBe(0);
});

test.each(ids)('the sheet of %s takes two pages of Letter', async (id) => {
  expect((await printed(`molds/${id}/`, 'Letter')).numPages).toBe(2);
});

describe.each([
  ['A4', ids],
  ['Letter', ids.slice(0, 3)],
] as const)('on %s', (format, some) => {
  test.each(some)('the insert of %s takes one page, with a ruler and a bait of true size', async (id) => {
    const document = await printed(`molds/${id}/insert/`, format);
    expect(document.numPages).toBe(1);
    const { page, close } = await visit(browser, served, `molds/${id}/spec.json`);
    const { figures } = JSON.parse(await page.locator('body').innerText()) as {
      figures: Record<string, { value: number }>;
    };
    await close();
    const widths = (await pathSizes(document, 1)).map(({ width }) => width);
    const nearest = (wanted: number) =>
      widths.reduce((best, width) => (Math.abs(width - wanted) < Math.abs(best - wanted) ? width : best), 0);
    // The ruler is 160 mm long: ±0.1 mm over 100 mm is ±0.16 mm over it.
    expect(Math.abs(nearest(160) - 160)).toBeLessThanOrEqual(0.16);
    const length = figures['bait.length']?.value ?? NaN;
    if (length <= 174)
      expect(Math.abs(nearest(length) - length)).toBeLessThanOrEqual(0.1 * Math.max(1, length / 100));
  });
});

test('the code of the insert reads as the address of its sheet, also soiled', async () => {
  for (const id of ids) {
    const { page, close } = await visit(browser, served, `molds/${id}/insert/`, { deviceScaleFactor: 3 });
    const picture = await page.locator('.qr svg').screenshot();
    await close();
    const { width = 0 } = await sharp(picture).metadata();
    const smear = Buffer.from(
      `<svg width="${width}" height="${width}"><circle cx="${width * 0.62}" cy="${width * 0.6}" r="${width * 0.1}" fill="#444"/></svg>`,
    );
    for (const soiled of [
      picture,
      await sharp(picture)
        .blur(2)
        .composite([{ input: smear }])
        .png()
        .toBuffer(),
    ]) {
      const { data, info } = await sharp(soiled).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
      const read = jsQR(new Uint8ClampedArray(data), info.width, info.height);
      expect(read?.data).toBe(`https://thistledown.example/molds/${id}/`);
    }
  }
});

test('the code keeps four modules of empty paper on every side', async () => {
  const { page, close } = await visit(browser, served, `molds/${ids[0]}/insert/`);
  const [side, path] = await page.evaluate<[number, string]>(
    "[document.querySelector('.qr svg').viewBox.baseVal.width, document.querySelector('.qr .module').getAttribute('d')]",
  );
  await close();
  const marks = [...path.matchAll(/M(\d+) (\d+)h(\d+)/gu)].map(([, x, y, run]) => [
    Number(x),
    Number(y),
    Number(run),
  ]);
  expect(Math.min(...marks.map(([x = 0]) => x))).toBe(4);
  expect(Math.min(...marks.map(([, y = 0]) => y))).toBe(4);
  expect(Math.max(...marks.map(([x = 0, , run = 0]) => x + run))).toBe(side - 4);
});

/** Width of Letter and of A4 across, less the margins of a printer at their widest [CSS px]: 11 in − 2 × 0.6 in. */
const ACROSS = (11 - 2 * 0.6) * 96;

test('the comparison stands on paper with every mold of the demo and without its form', async () => {
  const { page, close } = await visit(browser, served, 'compare/');
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: Math.floor(ACROSS), height: 700 });
  expect(await page.locator('.narrowing').isVisible()).toBe(false);
  expect(await page.locator('thead th:visible').count()).toBe(ids.length);
  const beyond = await page.evaluate<number>(`
    document.querySelector('.table').scrollWidth - document.querySelector('.table').clientWidth
  `);
  expect(beyond).toBeLessThanOrEqual(1);
  await close();
});
