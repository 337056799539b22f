// What a reader waits for, on a mid phone over a slow line (`tests/support/phone.ts`): pages of the demo from an empty
// cache, beside a bare page of the same text. Medians; exits 1 past a limit. Builds the demo first, when no folder is given;
// scale.bench.ts leaves larger sites in `.cache/bench/site-100` and the like.
// Run: npx node tests/bench/reader.bench.ts [FOLDER OF A BUILT SITE] [--runs 5]
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { typed } from '../../src/commands/arguments.ts';
import type { Served } from '../../src/commands/site-server.ts';
import { fasterThanPhone, openOnPhone, phoneBrowser, serveToPhone } from '../support/phone.ts';
import { runCommand } from '../support/run-command.ts';
import { keep, spreadOf, verdict } from './harness.ts';

/** Largest paint of a page [ms], and what the bare page is taken to need; jumps; longest answer to a tap or a key [ms]. */
const LIMITS = { lcp: 1000, bare: 750, cls: 0.001, inp: 100 };
/** Pages that speak of every mold answer to the limits up to so many; beyond, they are measured only, and sheets answer alone. */
const MANY = 24;
/** Between two keys of somebody who types on glass [ms]. */
const KEYS = { delay: 150 };

type Act = (page: Page) => Promise<unknown>;
/** Brings something into view, as a reader does before touching it. */
async function inView(page: Page, selector: string): Promise<Locator> {
  const found = page.locator(selector).first();
  await found.scrollIntoViewIfNeeded();
  await page.waitForTimeout(500);
  return found;
}
const tap =
  (selector: string): Act =>
  async (page) =>
    (await inView(page, selector)).tap();
const type =
  (selector: string, text: string, shown: string): Act =>
  async (page) => {
    await (await inView(page, selector)).tap();
    await page.keyboard.press('ControlOrMeta+A');
    await page.keyboard.type(text, KEYS);
    await page.locator(shown).first().waitFor();
  };
const units = tap('unit-choice label:last-of-type');

/** A page, and what a reader does on it. */
interface Subject {
  readonly path: string;
  readonly acts: readonly Act[];
}

/** The sheet that is looked at in the demo; in other sites the first one. */
const DEMO_MOLD = 'osier-grub-6';

/** What a reader does on a sheet. */
const ON_A_SHEET: readonly Act[] = [
  tap('details.figure > summary'),
  tap('.answer > summary'),
  units,
  tap('shot-planner button'),
  type('shot-planner input', '48', '.bench-card'),
  tap('shot-setup button'),
  type('#setup-pour', '345 °F', 'shot-setup table'),
];

/** Pages that speak of every mold. */
const OF_ALL: readonly Subject[] = [
  {
    path: '',
    acts: [
      units,
      tap('.narrowing > summary'),
      async (page) => {
        await page.locator('#f-family').focus();
        await page.keyboard.press('ArrowDown');
      },
    ],
  },
  {
    path: 'plan/',
    acts: [
      tap('shot-planner button'),
      type('shot-planner .baits input', '4', '.bench-card'),
      type('#plan-shelf', '3 qt', '.bench-card'),
      units,
    ],
  },
  {
    path: 'compare/',
    acts: [
      async (page) => {
        if ((await page.locator('.narrowing[open]').count()) === 0) await tap('.narrowing > summary')(page);
      },
      tap('.pick label'),
    ],
  },
  { path: 'answers/', acts: [type('#ask', 'short tips', '.answered:visible'), units] },
  {
    path: 'search/',
    acts: [type('#query', 'short tips', '.results a'), type('#query', 'gloves', '.results a')],
  },
];

/** The text of a page without styles, scripts and pictures: the least that a page of that text takes. */
function bare(html: string): string {
  const body = html.slice(html.indexOf('<body'));
  const text = body.replace(/<(script|noscript)\b[\s\S]*?<\/\1>/gu, '');
  const lines = text
    .replace(/<\/?(?:a|b|i|span|strong|em|small|sub|sup|abbr)\b[^>]*>/gu, '')
    .split(/<[^>]*>/u);
  const paragraphs = lines.flatMap((line) => (line.trim() === '' ? [] : [`<p>${line.trim()}</p>`]));
  return `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>Bare</title>
  </head>
  <body>
${paragraphs.join('\n')}
  </body>
</html>
`;
}

/** The site that is measured: the given one, or the demo as it is built now. */
async function siteFolder(given: string | undefined): Promise<string> {
  if (given !== undefined) return resolve(given);
  const built = await runCommand('build', {});
  if (built.code !== 0) throw new Error(`the demo was not built\n${built.stdout}${built.stderr}`);
  return resolve('dist');
}

/** What is kept of a page, by what it is called and its unit. */
const MEASURES = {
  LCP: 'ms',
  FCP: 'ms',
  CLS: '1',
  INP: 'ms',
  'longest task': 'ms',
  'on the wire': 'kB',
  requests: 'requests',
} as const;
type Measure = keyof typeof MEASURES;
const MEASURE_NAMES = Object.keys(MEASURES) as Measure[];

const INDEX = '/search.json';

/** One visit; `early` when the search index came before the search was used. */
async function visited(served: Served, { path, acts }: Subject, slowed: number) {
  const phone = await openOnPhone(browser, `${served.address}${path}`, { slowed });
  const { lcp, largest, fcp, long } = await phone.waited();
  const [bytes, requests] = [phone.bytes(), phone.asked.length];
  await phone.scrollThrough();
  const { cls, shifts } = await phone.waited();
  const early = phone.asked.includes(INDEX);
  const waits: number[] = [];
  for (const act of acts) waits.push(await phone.slowest(act));
  await phone.close();
  const measured: Record<Measure, number> = {
    LCP: lcp,
    FCP: fcp,
    CLS: cls,
    INP: Math.max(0, ...waits),
    'longest task': Math.max(0, ...long),
    'on the wire': bytes / 1e3,
    requests,
  };
  return { measured, early, largest, waits, shifts };
}

const given = typed(
  { options: { runs: { type: 'string', default: '5' } }, allowPositionals: true },
  'npx node tests/bench/reader.bench.ts [FOLDER] [--runs 5]',
);
if (!given) process.exit(2);
const runs = Number(given.values.runs);
const folder = await siteFolder(given.positionals[0]);
const { molds } = JSON.parse(await readFile(join(folder, 'catalogue.json'), 'utf8')) as {
  molds: { readonly id: string }[];
};
const { id: anyMold = '' } = molds.find(({ id }) => id === DEMO_MOLD) ?? molds[0] ?? {};
const SHEET = `molds/${anyMold}/`;
const SUBJECTS: readonly Subject[] = [{ path: SHEET, acts: ON_A_SHEET }, ...OF_ALL];
const browser = await phoneBrowser();
const served = await serveToPhone(folder);

const plain = await mkdtemp(join(tmpdir(), 'partline-bare-'));
await writeFile(join(plain, 'index.html'), bare(await readFile(join(folder, SHEET, 'index.html'), 'utf8')));
const servedPlain = await serveToPhone(plain);

const all = [
  { name: 'bare page', site: servedPlain, subject: { path: '', acts: [] } },
  ...SUBJECTS.map((subject) => ({ name: `/${subject.path}`, site: served, subject })),
];
const seen = new Map<string, Awaited<ReturnType<typeof visited>>[]>();
// A machine is not as fast all the time: it is looked at before each round.
const throttles: number[] = [];
for (let run = -1; run < runs; run++) {
  const slowed = await fasterThanPhone(browser);
  if (run >= 0) throttles.push(slowed);
  for (const { name, site, subject } of all) {
    const visit = await visited(site, subject, slowed);
    if (run >= 0) seen.set(name, [...(seen.get(name) ?? []), visit]);
  }
}
await browser.close();
await Promise.all([served.close(), servedPlain.close()]);
await rm(plain, { recursive: true, force: true });

keep({
  bench: 'reader',
  what: 'throttle of the processor',
  n: molds.length,
  unit: 'times',
  ...spreadOf(throttles),
});
const spread = (name: string, measure: Measure) =>
  spreadOf((seen.get(name) ?? []).map(({ measured }) => measured[measure]));
for (const [name, visits] of seen) {
  for (const measure of MEASURE_NAMES) {
    const ratio =
      measure === 'LCP' && name !== 'bare page'
        ? { ratio: spread(name, 'LCP').median / spread('bare page', 'LCP').median }
        : {};
    const what = `${name}: ${measure}`;
    keep({
      bench: 'reader',
      what,
      n: molds.length,
      unit: MEASURES[measure],
      ...spread(name, measure),
      ...ratio,
    });
  }
  const { largest, waits, shifts } = visits.at(-1)!;
  const moved = [...new Set(shifts.flatMap((shift) => shift.moved))].join(' ');
  process.stdout.write(
    `  ${name}: largest ${largest}; waits ${waits.join(' ')} ms; moved ${moved || 'nothing'}\n`,
  );
}

const median = (name: string, measure: Measure) => spread(name, measure).median;
const mostOfBare = (LIMITS.lcp / LIMITS.bare) * median('bare page', 'LCP');
verdict({
  ...Object.fromEntries(
    SUBJECTS.filter(({ path }) => path === SHEET || molds.length <= MANY).flatMap(({ path }) => [
      [`/${path}: LCP at most ${LIMITS.lcp} ms`, median(`/${path}`, 'LCP') <= LIMITS.lcp],
      [
        `/${path}: LCP at most ${LIMITS.lcp} / ${LIMITS.bare} of the bare page`,
        median(`/${path}`, 'LCP') <= mostOfBare,
      ],
      [`/${path}: nothing jumps`, median(`/${path}`, 'CLS') < LIMITS.cls],
      [`/${path}: INP at most ${LIMITS.inp} ms`, median(`/${path}`, 'INP') <= LIMITS.inp],
    ]),
  ),
  'the search index comes only when it is asked for': [...seen.values()].flat().every(({ early }) => !early),
});
