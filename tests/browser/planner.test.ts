import axe from 'axe-core';
import type { Browser, Page, Response } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { serveSite, type Served } from '../../src/commands/site-server.ts';
import { planAnswer } from '../../src/core/plan/answer.ts';
import { planFromLink, type PlanData } from '../../src/core/plan/plan-state.ts';
import { printed } from '../../src/core/quantity/print.ts';
import type { Band } from '../../src/core/quantity/band.ts';
import { fromSI, type UnitCode } from '../../src/core/quantity/units.ts';
import { launchChromium } from '../support/chromium.ts';

let browser: Browser;
let served: Served;
let data: PlanData;

beforeAll(async () => {
  served = await serveSite(inject('tinySite'), 0);
  browser = await launchChromium();
  data = (await (await fetch(`${served.address}plan/data.json`)).json()) as PlanData;
});

afterAll(async () => {
  await browser.close();
  await served.close();
});

async function open(path: string, options: Parameters<Browser['newContext']>[0] = {}): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 360, height: 900 }, ...options });
  const page = await context.newPage();
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.goto(`${served.address}${path}`, { waitUntil: 'load' });
  return page;
}

/** Presses Tab until the control with a label has the focus. */
async function tabTo(page: Page, label: string): Promise<void> {
  for (let presses = 0; presses < 300; presses++) {
    await page.keyboard.press('Tab');
    const here = await page.evaluate<string>(
      '(document.activeElement.labels?.[0] ?? document.activeElement).textContent.trim()',
    );
    if (here === label) return;
  }
  throw new Error(`no Tab led to "${label}"`);
}

async function typeInto(page: Page, label: string, text: string): Promise<void> {
  await tabTo(page, label);
  await page.keyboard.press('ControlOrMeta+A');
  await page.keyboard.type(text);
  await answered(page);
}

/** The card follows what is typed, once that is painted. */
const answered = (page: Page) =>
  page.evaluate('new Promise((done) => requestAnimationFrame(() => setTimeout(() => setTimeout(done))))');

/** What stands in a row of the bench card. */
const cell = (page: Page, name: string) =>
  page
    .locator('.bench-card tr')
    .filter({ has: page.getByRole('rowheader', { name: new RegExp(`^${name}`, 'u') }) })
    .locator('td')
    .innerText();

const numbers = (si: Band, unit: UnitCode) => {
  const quantity = {
    unit,
    value: fromSI(si.value, unit),
    low: fromSI(si.low, unit),
    high: fromSI(si.high, unit),
  };
  return (['us', 'metric'] as const).map((system) => printed(quantity, system).value);
};

/** The core's own answer to the plan that an address carries. */
function answerOf(address: string) {
  const { searchParams } = new URL(address);
  return planAnswer(
    planFromLink((name) => searchParams.get(name), data),
    data,
  );
}

describe('the planner, by keyboard alone', () => {
  test('takes a whole plan, answers as the core does, and keeps it in the address', async () => {
    const page = await open('plan/');
    await page.waitForSelector('.plan-form');
    await typeInto(page, 'Peg, two cavities', '121');
    await typeInto(page, 'Compound on the shelf', '1 qt');
    await typeInto(page, 'Left in the cup at the end', '20 mL');
    await typeInto(page, 'Old sprues melted in, %', '10');
    await tabTo(page, 'Salt, hardness, price');
    await page.keyboard.press('Enter');
    await typeInto(page, 'Salt, % by mass', '12');
    await tabTo(page, 'Blend in');
    await page.keyboard.press('End');
    await typeInto(page, 'to reach Shore 00', '30');
    await typeInto(page, 'Price of compound', '45');

    const { plan, blend, cost, problems } = answerOf(page.url());
    expect(problems).toEqual({});
    expect(plan?.baits).toBe(121);
    expect(plan?.shots).toBe(61);
    const { measured, balance, time } = plan!;
    const rows: [string, Band, UnitCode][] = [
      ['Liquid compound, in all', measured.liquid, 'mL'],
      ['Plain compound', blend!.own, 'mL'],
      ['Softener', blend!.other, 'mL'],
      ['Salt', measured.salt, 'g'],
      ['Old sprues', balance.remelted, 'g'],
      ['Heated', balance.heated, 'g'],
      ['In the baits', balance.baits, 'g'],
      ['From the first draw', time, 'min'],
    ];
    for (const [name, amount, unit] of rows) {
      const text = await cell(page, name);
      for (const number of numbers(amount, unit)) expect(text, name).toContain(number);
    }
    expect(await cell(page, 'Each bait')).toContain(cost!.each.value.toFixed(2));
    const said = { enough: 'is enough.', barely: 'nothing to spare', short: 'not enough' }[plan!.shelf!];
    expect(await page.getByRole('status').innerText()).toContain(said);
    await page.context().close();
  });

  test('a link alone brings the same card to another reader', async () => {
    const link = 'plan/?m=peg-2.75&shelf=2+L&salt=5&old=20';
    const [one, other] = [await open(link), await open(link, { viewport: { width: 1440, height: 900 } })];
    const texts = await Promise.all(
      [one, other].map(async (page) => (await page.locator('.bench-card').textContent()) ?? ''),
    );
    expect(texts[0]).toBe(texts[1]);
    expect(texts[0]).toContain(numbers(answerOf(one.url()).plan!.measured.liquid, 'mL')[0]);
    await Promise.all([one, other].map((page) => page.context().close()));
  });

  test('a mistake is told beside its field, and no card is printed from it', async () => {
    const page = await open('plan/');
    await page.waitForSelector('.plan-form');
    await typeInto(page, 'Compound on the shelf', '3');
    const field = page.getByLabel('Compound on the shelf');
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await page.locator('#plan-shelf-problem').innerText()).toContain('no unit');
    expect(await page.locator('.bench-card').count()).toBe(0);
    await page.context().close();
  });
});

describe('on a sheet', () => {
  test('at most 15 kB of program before the planner is opened; the planner comes when asked for', async () => {
    const page = await (await browser.newContext()).newPage();
    const loaded: Response[] = [];
    page.on('response', (response) => {
      if (response.url().endsWith('.js')) loaded.push(response);
    });
    await page.goto(`${served.address}molds/peg-2/`, { waitUntil: 'networkidle' });
    const inline = await page.evaluate<number>(
      "[...document.scripts].filter(({ type, src }) => !src && type !== 'application/ld+json').reduce((sum, { text }) => sum + text.length, 0)",
    );
    const bodies = await Promise.all(loaded.map((response) => response.body()));
    const before = bodies.reduce((sum, { length }) => sum + length, inline);
    expect(before).toBeGreaterThan(0);
    expect(before).toBeLessThanOrEqual(15_000);
    expect(loaded.some((response) => response.url().includes('/planner.'))).toBe(false);

    await tabTo(page, 'Plan a session');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.bench-card');
    expect(loaded.some((response) => response.url().includes('/planner.'))).toBe(true);
    const focused = await page.evaluate<string>('document.activeElement.labels[0].textContent');
    expect(focused).toBe('Peg, two cavities');
    await page.keyboard.press('ControlOrMeta+A');
    await page.keyboard.type('10');
    await answered(page);
    const link = page.getByRole('link', { name: /page of its own/u });
    const there = new URL((await link.getAttribute('href')) ?? '');
    expect(there.pathname).toMatch(/\/plan\/$/u);
    expect(there.search).toBe(new URL(page.url()).search);
    expect(answerOf(page.url()).plan?.baits).toBe(10);
    await page.context().close();
  });

  test.each(['molds/peg-2/', 'plan/'])('without JavaScript the tables of /%s answer', async (path) => {
    const page = await open(path, { javaScriptEnabled: false });
    const table = page.getByRole('region', { name: 'Batches' });
    // Parts that are not in view are not laid out, and have no inner text.
    const text = (await table.locator('th, td').allTextContents()).join(' ');
    for (const baits of [10, 25, 50, 100, 250]) expect(text).toMatch(new RegExp(`\\b${baits}\\b`, 'u'));
    expect(await page.locator('main').textContent()).toContain('needs JavaScript');
    await page.context().close();
  });
});

test('on paper the bench card stands alone', async () => {
  const page = await open('plan/?m=peg-2.40');
  await page.waitForSelector('.bench-card');
  await page.emulateMedia({ media: 'print' });
  for (const gone of ['.masthead', '.plan-form', '.foot', '#injectors', 'h1']) {
    expect(await page.locator(gone).first().isVisible(), gone).toBe(false);
  }
  expect(await page.locator('.bench-card').isVisible()).toBe(true);
  await page.context().close();
});

test.each(['light', 'dark'] as const)(
  'an opened planner has no barrier that a tool can see, in the %s',
  async (scheme) => {
    const page = await open('plan/?m=peg-2.40&salt=5&shelf=3', { colorScheme: scheme });
    await page.waitForSelector('.plan-form');
    await page.evaluate(axe.source);
    const found = await page.evaluate<{ violations: { id: string; nodes: { target: string[] }[] }[] }>(
      "axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] })",
    );
    const said = found.violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(', ')}`,
    );
    expect(said).toEqual([]);
    const [content, window] = await page.evaluate<[number, number]>(
      '[document.documentElement.scrollWidth, document.documentElement.clientWidth]',
    );
    expect(content).toBeLessThanOrEqual(window);
    await page.context().close();
  },
);
