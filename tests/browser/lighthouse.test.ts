import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { serveSite, type Served } from '../../src/commands/site-server.ts';
import { lighthouseBrowser, servePage, type Verdict } from '../support/lighthouse.ts';

/** Speed is measured apart, in `tests/bench/lighthouse.bench.ts`: on a busy machine it says more of the machine. */
const CATEGORIES = ['accessibility', 'best-practices', 'seo'];

let served: Served;
let lighthouse: Awaited<ReturnType<typeof lighthouseBrowser>>;
let bare: Verdict;

beforeAll(async () => {
  served = await serveSite(inject('demoSite'), 0);
  lighthouse = await lighthouseBrowser();
  const page = await servePage();
  bare = await lighthouse.audit(page.address, { onlyCategories: CATEGORIES });
  page.close();
});

afterAll(async () => {
  await lighthouse.close();
  await served.close();
});

test('the bare page has what a bare page has', () => {
  expect(Object.keys(bare.scores).sort()).toEqual(CATEGORIES);
  expect(bare.scores['best-practices']).toBeGreaterThan(90);
});

test.each(['molds/osier-grub-6/', '', 'guides/first-shots/', 'plan/'])(
  'Lighthouse on /%s: accessibility and SEO at least 99, best practices no lower than a bare page',
  async (path) => {
    const { scores, lost } = await lighthouse.audit(`${served.address}${path}`, {
      onlyCategories: CATEGORIES,
    });
    const why = lost.join('\n');
    expect(scores['accessibility'], why).toBeGreaterThanOrEqual(99);
    expect(scores['seo'], why).toBeGreaterThanOrEqual(99);
    expect(scores['best-practices'], why).toBeGreaterThanOrEqual(bare.scores['best-practices'] ?? 0);
  },
);

test('a page without a title and a language would be found', async () => {
  const page = await servePage('<!doctype html><p>x</p><img src="data:,">');
  const { scores, lost } = await lighthouse.audit(page.address, { onlyCategories: CATEGORIES });
  page.close();
  expect(scores['accessibility']).toBeLessThan(99);
  expect(scores['seo']).toBeLessThan(99);
  expect(lost).toEqual(expect.arrayContaining(['document-title', 'html-has-lang']));
});
