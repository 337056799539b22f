import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { createServer, get } from 'node:http';
import { createRequire } from 'node:module';
import type { AddressInfo } from 'node:net';
import { join, resolve } from 'node:path';
import { setTimeout as rest } from 'node:timers/promises';
import { pageFunctions } from 'lighthouse/core/lib/page-functions.js';
import type { Browser, CDPSession, Page } from 'playwright-core';
import subsetFont from 'subset-font';
import { LETTERS } from '../../src/commands/faces.ts';
import { serveSite, type Served } from '../../src/commands/site-server.ts';
import { FONTS, launchChromium } from './chromium.ts';

/**
 * A mid-range phone on a slow mobile line, modelled by the browser's own throttling. Each figure is common practice of
 * speed tests for "slow 4G", from memory, but for the processor; none is measured on a phone.
 *
 * - `roundTrip`: least time from a request to the first byte of its answer [ms]. The browser applies it to every request
 *   alike, and knows nothing of connections: requests run side by side as over HTTP/2, but six at most to a host.
 * - `setUp`: how long the first request waits for its connection: a name look-up, a TCP and a TLS 1.3 handshake, one round
 *   trip each [ms]. The browser has no such setting, so the page's own request is held back.
 * - `down`, `up`: what all requests of the page share [bit/s].
 * - `index`: how fast the page's thread runs, in Lighthouse's BenchmarkIndex; workers are not slowed. Chromium's own
 *   developer tools take 1000 for a mid-tier and 264 for a low-tier phone when they calibrate their throttle to a machine
 *   (`CalibrationController.ts`, read 2026-11); this is half of the mid-tier, on the safe side.
 * - `screen`, `density`: the window in CSS pixels, and how many pixels of the screen make one of them.
 */
export const PHONE = {
  roundTrip: 150,
  setUp: 3 * 150,
  down: 1.6e6,
  up: 750e3,
  index: 500,
  screen: { width: 360, height: 800 },
  density: 2,
} as const;

/** Pieces of an answer [bytes], and the rest between two [ms]: twice the pace of the line, so that the line is what slows. */
const PIECE = { size: 4096, rest: 10 };

/**
 * Serves a site as `npm start` does, but in pieces. The browser's throttle hands over as one what has come as one, and a page
 * that is sent at once would be read only when its last byte had passed the line.
 *
 * @param folder - the built site, absolute
 */
export async function serveToPhone(folder: string): Promise<Served> {
  const whole = await serveSite(folder, 0);
  const server = createServer((request, response) => {
    const asked = get(new URL(request.url ?? '/', whole.address), { headers: request.headers }, (answer) => {
      const send = async () => {
        const bytes = Buffer.concat(await answer.toArray());
        response.writeHead(answer.statusCode ?? 500, answer.headers);
        for (let at = 0; at < bytes.length; at += PIECE.size) {
          response.write(bytes.subarray(at, at + PIECE.size));
          await rest(PIECE.rest);
        }
        response.end();
      };
      send().catch(() => response.destroy());
    });
    asked.on('error', () => response.destroy());
  });
  await new Promise<void>((done) => server.listen(0, 'localhost', done));
  return {
    address: `http://localhost:${(server.address() as AddressInfo).port}/`,
    async close() {
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
      await whole.close();
    },
  };
}

const require = createRequire(import.meta.url);

/** Weights of the face that Android comes with. */
const INSTALLED = [400, 700];

/** A Chromium that finds only the face installed that Android comes with, in the letters that pages use. */
export async function phoneBrowser(): Promise<Browser> {
  const folder = resolve('.cache', 'phone-fonts');
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, 'fonts.conf'), FONTS);
  for (const weight of INSTALLED) {
    const packed = require.resolve(`@fontsource/roboto/files/roboto-latin-${weight}-normal.woff2`);
    const face = await subsetFont(await readFile(packed), LETTERS, { targetFormat: 'sfnt' });
    await writeFile(join(folder, `roboto-${weight}.ttf`), face);
  }
  return launchChromium([], folder);
}

/** A jump of what was already seen, by no doing of the reader. */
export interface Shift {
  /** When [ms] since the page was asked for. */
  readonly at: number;
  /** Share of the window that moved times how far it moved, in windows. */
  readonly value: number;
  /** What moved. */
  readonly moved: readonly string[];
}

/** What the reader has waited for so far. */
export interface Waited {
  /** Largest contentful paint [ms] since the page was asked for, and what was painted. */
  readonly lcp: number;
  readonly largest: string;
  /** First contentful paint [ms]. */
  readonly fcp: number;
  /** Cumulative layout shift: the worst burst of jumps, as Web Vitals count them. */
  readonly cls: number;
  readonly shifts: readonly Shift[];
  /** Tasks that held the page up for longer than 50 ms [ms]. */
  readonly long: readonly number[];
}

/** A page on the phone. */
export interface PhonePage {
  readonly page: Page;
  /** Paths that were asked for, in their order, and bytes that came for them, headers with them. */
  readonly asked: readonly string[];
  bytes(): number;
  waited(): Promise<Waited>;
  /** Scrolls to the end, as a reader does, and back to the top. */
  scrollThrough(): Promise<void>;
  /**
   * Acts, and waits for what is painted next.
   *
   * @returns the longest that one tap or key of it took until the next paint [ms], in steps of 8 ms; 16 where the browser
   * kept no record, which it does from there on
   */
  slowest(act: (page: Page) => Promise<unknown>): Promise<number>;
  close(): Promise<void>;
}

/** Notes of the browser, kept from before the page's first byte. The page's own policy does not bind it. */
const WATCH = `
  globalThis.watched = { lcp: [], shifts: [], events: [], long: [] };
  const nameOf = (node) => {
    const one = node?.nodeType === 1 ? node : node?.parentElement;
    return one ? one.localName + [...one.classList].map((name) => '.' + name).join('') : '?';
  };
  const watch = (type, into, told, options = {}) =>
    new PerformanceObserver((list) => watched[into].push(...list.getEntries().map(told))).observe({ type, buffered: true, ...options });
  watch('largest-contentful-paint', 'lcp', ({ startTime, element }) => ({ at: startTime, of: nameOf(element) }));
  watch('layout-shift', 'shifts', ({ startTime, value, hadRecentInput, sources }) =>
    ({ at: startTime, value, own: hadRecentInput, moved: sources.map(({ node }) => nameOf(node)) }));
  watch('event', 'events', ({ interactionId, duration }) => ({ interactionId, duration }), { durationThreshold: 16 });
  watch('longtask', 'long', ({ duration }) => duration);
`;

interface Watched {
  readonly lcp: readonly { readonly at: number; readonly of: string }[];
  readonly shifts: readonly (Shift & { readonly own: boolean })[];
  readonly events: readonly { readonly interactionId: number; readonly duration: number }[];
  readonly long: readonly number[];
  readonly fcp: number;
}

/** A burst of jumps ends after a second of rest, and lasts five at most. Source: definition of CLS, web.dev. */
const BURST = { rest: 1000, whole: 5000 };

/**
 * Cumulative layout shift: the greatest sum of the jumps of one burst.
 *
 * @param shifts - in the order of time
 */
export function cumulativeShift(shifts: readonly Pick<Shift, 'at' | 'value'>[]): number {
  let [most, sum, start, last] = [0, 0, -Infinity, -Infinity];
  for (const { at, value } of shifts) {
    if (at - last >= BURST.rest || at - start >= BURST.whole) [sum, start] = [0, at];
    sum += value;
    last = at;
    most = Math.max(most, sum);
  }
  return most;
}

/** Holds back the request for a page until its connection would stand. */
async function holdPages(session: CDPSession, wait: number): Promise<void> {
  session.on('Fetch.requestPaused', ({ requestId }) => {
    setTimeout(() => void session.send('Fetch.continueRequest', { requestId }).catch(() => undefined), wait);
  });
  await session.send('Fetch.enable', { patterns: [{ resourceType: 'Document' }] });
}

/** Nothing asked for during so long counts as loaded [ms]. */
const QUIET = 500;

/** A step of the scroll, of a window's height, and the rest after it [ms]. */
const STEP = { share: 0.75, rest: 40 };

/** How a page is opened. */
interface Opening {
  /** Line and processor are those of the phone, which this machine is so many times faster than; else only its window is. */
  readonly slowed?: number;
  /** Runs before the page is asked for, in a browser that keeps nothing of the site but what this does. */
  readonly prepare?: (page: Page) => Promise<unknown>;
}

/** How often a machine's speed is looked at. */
const LOOKS = 3;

/**
 * How many times faster than the phone a machine is: what the page's thread has to be slowed by, so that figures of machines
 * can be compared.
 *
 * @returns 1 where the machine is no faster than the phone; the median of some looks, each of them a second long
 */
export async function fasterThanPhone(browser: Browser): Promise<number> {
  const page = await browser.newPage();
  const looks: number[] = [];
  for (let look = -1; look < LOOKS; look++) {
    const index = await page.evaluate<number>(`(${pageFunctions.computeBenchmarkIndex.toString()})()`);
    if (look >= 0) looks.push(index / PHONE.index);
  }
  await page.close();
  return Math.max(1, looks.sort((a, b) => a - b)[LOOKS >> 1] ?? 1);
}

/** Makes line and processor those of the phone. */
async function slowDown(session: CDPSession, rate: number): Promise<void> {
  await session.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: PHONE.roundTrip,
    downloadThroughput: PHONE.down / 8,
    uploadThroughput: PHONE.up / 8,
  });
  await session.send('Emulation.setCPUThrottlingRate', { rate });
  await holdPages(session, PHONE.setUp);
}

/** Opens a page as on the phone, with an empty cache, and waits until it has loaded. */
export async function openOnPhone(
  browser: Browser,
  address: string,
  { slowed, prepare }: Opening = {},
): Promise<PhonePage> {
  const context = await browser.newContext({
    viewport: PHONE.screen,
    deviceScaleFactor: PHONE.density,
    isMobile: true,
    hasTouch: true,
  });
  const page = await context.newPage();
  await prepare?.(page);
  const session = await context.newCDPSession(page);
  const asked: string[] = [];
  let bytes = 0;
  page.on('request', (request) => asked.push(new URL(request.url()).pathname));
  session.on('Network.loadingFinished', ({ encodedDataLength }) => (bytes += encodedDataLength));
  await session.send('Network.enable');
  await session.send('Network.clearBrowserCache');
  if (slowed !== undefined) await slowDown(session, slowed);
  await page.addInitScript(WATCH);
  await page.goto(address, { waitUntil: 'networkidle' });
  await page.waitForTimeout(QUIET);

  const notes = () =>
    page.evaluate<Watched>(
      "({ ...watched, fcp: performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN })",
    );
  const settle = () => page.evaluate('new Promise((done) => setTimeout(done, 400))');
  return {
    page,
    asked,
    bytes: () => bytes,
    async waited() {
      const { lcp, shifts, long, fcp } = await notes();
      const jumps = shifts.filter(({ own }) => !own);
      const { at = NaN, of = '?' } = lcp.at(-1) ?? {};
      return { lcp: at, largest: of, fcp, cls: cumulativeShift(jumps), shifts: jumps, long };
    },
    async scrollThrough() {
      const step = Math.round(STEP.share * PHONE.screen.height);
      const end = 'scrollY + innerHeight >= document.documentElement.scrollHeight - 1';
      while (!(await page.evaluate<boolean>(end))) {
        await page.evaluate(`scrollBy(0, ${step})`);
        await page.waitForTimeout(STEP.rest);
      }
      await page.waitForLoadState('networkidle');
      await page.evaluate('scrollTo(0, 0)');
      await settle();
    },
    async slowest(act) {
      await settle();
      await page.evaluate('void (watched.events.length = 0)');
      await act(page);
      await settle();
      const { events } = await notes();
      return Math.max(
        16,
        ...events.flatMap(({ interactionId, duration }) => (interactionId > 0 ? [duration] : [])),
      );
    },
    close: () => context.close(),
  };
}
