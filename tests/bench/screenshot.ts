import type { Browser } from 'playwright-core';
import type { CardFacts } from '../../src/card/facts.ts';
import { openFaces, type Faces } from '../../src/card/faces.ts';
import { CARD_SIZES, cardSvg, type CardSize } from '../../src/card/layout.ts';
import { readCardFonts } from '../../src/io/fonts.ts';
import { launchChromium } from '../support/chromium.ts';
import { fakeCard } from '../support/fake-card.ts';
import { coreTimes } from './core-time.ts';
import { spreadOf, type Spread } from './harness.ts';

/** Takes screenshots of a card in Chromium: work that every machine can do, and that does not change with this program. */
export async function screenshots(browser: Browser, facts: CardFacts, faces: Faces, size: CardSize) {
  const page = await browser.newPage({ viewport: CARD_SIZES[size] });
  return async (): Promise<Buffer> => {
    await page.setContent(`<style>body{margin:0}svg{display:block}</style>${cardSvg(facts, size, faces)}`);
    return page.screenshot({ type: 'png' });
  };
}

/** Core time of one screenshot of a wide card on this machine [ms]. */
export async function screenshotTime(runs: number): Promise<Spread> {
  const browser = await launchChromium();
  const shot = await screenshots(browser, fakeCard(), openFaces(await readCardFonts()), 'wide');
  const times = await coreTimes(shot, runs);
  await browser.close();
  return spreadOf(times);
}
