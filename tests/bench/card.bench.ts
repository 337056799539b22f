import { readdirSync, readFileSync } from 'node:fs';
import satori from 'satori';
import sharp from 'sharp';
import { openFaces } from '../../src/card/faces.ts';
import { CARD_SIZES, cardSvg, type CardSize } from '../../src/card/layout.ts';
import { cardPng } from '../../src/card/png.ts';
import { readCardFonts } from '../../src/io/fonts.ts';
import { fakeCard } from '../support/fake-card.ts';
import { launchChromium } from '../support/chromium.ts';
import { keep, type Spread } from './harness.ts';
import { cardTree } from './satori-card.ts';

// Run by `npx node tests/bench/card.bench.ts`: core time of a share card in three ways, medians; exits 1 past a limit.

const RUNS = 15;
/** Core time of a card [ms], its bytes, and how many times faster than a screenshot. */
const LIMITS = { milliseconds: 25, bytes: 40_000, faster: 2 };
/** Ticks of the kernel's clock in a second, as `getconf CLK_TCK` has them. */
const TICKS = 100;

/** What the kernel says of a process: its parent, and core time of it and of its ended children [ms]. */
function processOf(id: string): { parent: string; spent: number } | undefined {
  try {
    const fields = readFileSync(`/proc/${id}/stat`, 'utf8').split(') ').at(-1)!.split(' ');
    const ticks = fields.slice(11, 15).reduce((sum, field) => sum + Number(field), 0);
    return { parent: fields[1]!, spent: (1000 * ticks) / TICKS };
  } catch {
    return undefined;
  }
}

/** Core time of this process and of everything it started [ms]. */
function spentByAll(): number {
  const all = new Map(
    readdirSync('/proc')
      .filter((name) => /^\d+$/u.test(name))
      .map((id) => [id, processOf(id)]),
  );
  const own = process.cpuUsage();
  const below = (id: string): number =>
    [...all].reduce((sum, [child, seen]) => (seen?.parent === id ? sum + seen.spent + below(child) : sum), 0);
  return (own.user + own.system) / 1000 + below(String(process.pid));
}

/** Core time [ms] and the size of the file. */
interface Measured extends Spread {
  readonly bytes: number;
}

/** Core time is read in ticks of 10 ms, so each run draws the card several times. */
const TIMES = 8;

async function measured(draw: () => Promise<Buffer>): Promise<Measured> {
  const times: number[] = [];
  let bytes = 0;
  for (let run = -2; run < RUNS; run++) {
    const start = spentByAll();
    for (let time = 0; time < TIMES; time++) bytes = (await draw()).length;
    if (run >= 0) times.push((spentByAll() - start) / TIMES);
  }
  const sorted = times.toSorted((a, b) => a - b);
  return { bytes, median: sorted[RUNS >> 1]!, low: sorted[0]!, high: sorted.at(-1)!, runs: RUNS };
}

const facts = fakeCard();
const fonts = await readCardFonts();
const faces = openFaces(fonts);
const set = fonts.map((font) => ({ ...font, style: 'normal' as const }));
const browser = await launchChromium();
const page = await browser.newPage();
let passed = true;

async function satoriPng(size: CardSize): Promise<Buffer> {
  const svg = await satori(cardTree(facts, size, faces), { ...CARD_SIZES[size], fonts: set });
  return sharp(Buffer.from(svg)).png({ palette: true, colours: 32, dither: 0, effort: 10 }).toBuffer();
}

async function screenshot(size: CardSize): Promise<Buffer> {
  await page.setContent(`<style>body{margin:0}svg{display:block}</style>${cardSvg(facts, size, faces)}`);
  return page.screenshot({ type: 'png' });
}

for (const size of ['wide', 'square'] as const) {
  await page.setViewportSize(CARD_SIZES[size]);
  const ours = await measured(() => cardPng(facts, size, fonts));
  const others = {
    'satori and sharp': await measured(() => satoriPng(size)),
    'Chromium screenshot': await measured(() => screenshot(size)),
  };
  const ratio = others['Chromium screenshot'].median / ours.median;
  passed &&= ours.median <= LIMITS.milliseconds && ours.bytes <= LIMITS.bytes && ratio >= LIMITS.faster;
  for (const [name, { bytes, ...spread }] of Object.entries({ ours, ...others })) {
    const { median } = spread;
    const times = (median / ours.median).toFixed(1);
    const over = median / others['Chromium screenshot'].median;
    keep({ bench: 'card', what: `${size}: ${name}`, n: 1, unit: 'ms', ...spread, ratio: over });
    console.log(`${size}, ${name}: ${median.toFixed(1)} ms of one core, ${bytes} bytes, ${times} times ours`);
  }
}
await browser.close();
console.log(
  `limits: ${LIMITS.milliseconds} ms, ${LIMITS.bytes} bytes, ${LIMITS.faster} times a screenshot's speed`,
);
if (!passed) process.exitCode = 1;
