import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import type { Served } from '../../src/commands/site-server.ts';

/** A page opened for a test. */
export interface Visit {
  readonly page: Page;
  /** What the page complained of: errors, failed requests, requests to anyone else. */
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}

/** Opens a page of a served site in a context of its own. */
export async function visit(
  browser: Browser,
  served: Served,
  path: string,
  options: BrowserContextOptions = {},
): Promise<Visit> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(served.address) && !request.url().startsWith('data:'))
      complaints.push(`asked ${request.url()}`);
  });
  page.on('response', (response) => {
    if (response.status() >= 400) complaints.push(`${response.status()} for ${response.url()}`);
  });
  await page.goto(`${served.address}${path}`, { waitUntil: 'load' });
  return { page, complaints, close: () => context.close() };
}

/** Lays out every part of a page as when the reader is near it; until then a part has a height and no more. */
export const allLaidOut = (page: Page): Promise<void> =>
  page.evaluate(
    "for (const part of document.querySelectorAll('.part')) part.style.contentVisibility = 'visible'",
  );
