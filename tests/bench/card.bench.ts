import satori from 'satori';
import sharp from 'sharp';
import { openFaces } from '../../src/card/faces.ts';
import { CARD_SIZES, type CardSize } from '../../src/card/layout.ts';
import { cardPng } from '../../src/card/png.ts';
import { readCardFonts } from '../../src/io/fonts.ts';
import { fakeCard } from '../support/fake-card.ts';
import { launchChromium } from '../support/chromium.ts';
import { coreTimes } from './core-time.ts';
import { keep, spreadOf, type Spread } from './harness.ts';
import { cardTree } from './satori-card.ts';
import { screenshots } from './screenshot.ts';

// Run by `npx node tests/bench/card.bench.ts`: core time of a share card in three ways, medians; exits 1 past a limit.

const RUNS = 15;
/** Core time of a card [ms] on a machine that takes so long for a screenshot of it [ms], its bytes, and how many times faster it is. */
const LIMITS = { milliseconds: 25, screenshot: 51, bytes: 40_000, faster: 2 };
/** Core time [ms] and the size of the file. */
interface Measured extends Spread {
  readonly bytes: number;
}

async function measured(draw: () => Promise<Buffer>): Promise<Measured> {
  const times = await coreTimes(draw, RUNS);
  return { bytes: (await draw()).length, ...spreadOf(times) };
}

const facts = fakeCard();
const fonts = await readCardFonts();
const faces = openFaces(fonts);
const set = fonts.map((font) => ({ ...font, style: 'normal' as const }));
const browser = await launchChromium();
let passed = true;

async function satoriPng(size: CardSize): Promise<Buffer> {
  const svg = await satori(cardTree(facts, size, faces), { ...CARD_SIZES[size], fonts: set });
  return sharp(Buffer.from(svg)).png({ palette: true, colours: 32, dither: 0, effort: 10 }).toBuffer();
}

for (const size of ['wide', 'square'] as const) {
  const screenshot = await screenshots(browser, facts, faces, size);
  const ours = await measured(() => cardPng(facts, size, fonts));
  const others = {
    'satori and sharp': await measured(() => satoriPng(size)),
    'Chromium screenshot': await measured(screenshot),
  };
  const ratio = others['Chromium screenshot'].median / ours.median;
  const most = (LIMITS.milliseconds / LIMITS.screenshot) * others['Chromium screenshot'].median;
  passed &&= ours.median <= most && ours.bytes <= LIMITS.bytes && ratio >= LIMITS.faster;
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
  `limits: ${LIMITS.milliseconds} ms where a screenshot takes ${LIMITS.screenshot} ms, ${LIMITS.bytes} bytes, ${LIMITS.faster} times a screenshot's speed`,
);
if (!passed) process.exitCode = 1;
