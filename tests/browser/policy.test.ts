import { cp, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { CspEvaluator } from 'csp_evaluator/dist/evaluator.js';
import { Severity } from 'csp_evaluator/dist/finding.js';
import { CspParser } from 'csp_evaluator/dist/parser.js';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { serveSite } from '../../src/commands/site-server.ts';
import { metaPolicy, nginxSnippet, siteHeaders } from '../../src/components/head/headers.ts';
import { launchChromium } from '../support/chromium.ts';
import { filesBelow } from '../support/folder-digest.ts';
import { temporaryFolder } from '../support/temporary.ts';
import { visit } from '../support/visit.ts';

let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
});

afterAll(() => browser.close());

/** What an evaluator finds in a policy, graver than a remark. */
function weaknesses(policy: string): string[] {
  return new CspEvaluator(new CspParser(policy).csp)
    .evaluate()
    .filter(({ severity }) => severity < Severity.STRICT_CSP)
    .map(({ directive, value, description }) => `${directive} ${value ?? ''}: ${description}`);
}

describe('the policy', () => {
  const [[, policy] = []] = siteHeaders([]);

  test('has no weakness that an evaluator knows, in the header and in the page', () => {
    expect(weaknesses(policy ?? '')).toEqual([]);
    expect(weaknesses(metaPolicy(['sha256-abc=']))).toEqual([]);
  });

  test.each([
    ['inline scripts', "script-src 'self'", "script-src 'self' 'unsafe-inline'"],
    ['any host', "script-src 'self'", 'script-src *'],
    ['a missing object-src', "object-src 'none'", 'object-src *'],
  ])('%s would be found', (_, from, to) => {
    expect(policy).toContain(from);
    expect(weaknesses((policy ?? '').replace(from, to)).length).toBeGreaterThan(0);
  });
});

test('every page of the demo and a drawing by itself: no violation, with all headers sent', async () => {
  const folder = inject('demoSite');
  const served = await serveSite(folder, 0);
  const files = await filesBelow(folder);
  const drawings = files.filter((name) => /^molds\/.*wide\.svg$/u.test(name)).slice(0, 3);
  const paths = [...files.filter((name) => name.endsWith('.html')), ...drawings];
  expect(paths.length).toBeGreaterThan(30);
  for (const path of paths) {
    const { complaints, close } = await visit(browser, served, path.replace(/index\.html$/u, ''));
    expect([path, complaints]).toEqual([path, []]);
    await close();
  }
  const { headers } = await fetch(served.address);
  for (const [name, value] of siteHeaders([]).slice(1))
    expect([name, headers.get(name)]).toEqual([name, value]);
  expect(headers.get('content-security-policy')).toMatch(/frame-ancestors 'none'/u);
  const page = await readFile(join(folder, 'index.html'), 'utf8');
  expect(page.indexOf('http-equiv="content-security-policy"')).toBeLessThan(page.indexOf('<style'));
  await served.close();
});

test.each([
  ['with headers', true],
  ['by the page alone', false],
])('a script or a style that is planted in a page does nothing, %s', async (_, withHeaders) => {
  const folder = join(await temporaryFolder(), 'site');
  await cp(inject('tinySite'), folder, { recursive: true });
  const file = join(folder, 'index.html');
  const html = await readFile(file, 'utf8');
  await writeFile(
    file,
    html.replace(
      '</body>',
      '<script>document.title = "run"</script><style>h1 { opacity: 0.5 }</style><b onclick="x" style="opacity: 0.5"></b></body>',
    ),
  );
  if (!withHeaders) await writeFile(join(folder, '_headers'), '');
  const served = await serveSite(folder, 0);
  const { page, complaints, close } = await visit(browser, served, '');
  expect(await page.title()).not.toBe('run');
  const seen = "['h1', 'b[onclick]', 'main'].map((name) => getComputedStyle(document.querySelector(name)))";
  expect(await page.evaluate(`${seen}.map(({ opacity }) => opacity)`)).toEqual(['1', '1', '1']);
  expect(await page.evaluate("getComputedStyle(document.querySelector('.masthead')).borderBottomWidth")).toBe(
    '2px',
  );
  expect(complaints.join('\n')).toMatch(/Content Security Policy/u);
  await close();
  await served.close();
});

test('the snippet for nginx sends the same', () => {
  const snippet = nginxSnippet(['sha256-abc='], '/shop');
  for (const [name, value] of siteHeaders(['sha256-abc='])) {
    expect(snippet.split(`add_header ${name} "${value}" always;`)).toHaveLength(3);
  }
  expect(snippet).toContain('location /shop/_astro/ {');
});
