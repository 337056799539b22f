import sharp from 'sharp';
import { expect, test } from 'vitest';
import { siteCardPng } from '../../src/card/site-card.ts';
import { readCardFonts } from '../../src/io/fonts.ts';
import { LIGHT } from '../../src/styles/tokens.ts';
import { grub } from '../drawing/shapes.ts';

const fonts = await readCardFonts();
const facts = { shop: 'Thistledown Tooling', molds: 11, invented: true };

/** Pixels of the card that hold the colour of plastic. */
async function plastic(png: Buffer): Promise<number> {
  const colour = LIGHT.plastic
    .slice(1)
    .match(/../gu)!
    .map((byte) => parseInt(byte, 16));
  const { data, info } = await sharp(png).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  let found = 0;
  for (let at = 0; at < 3 * info.width * info.height; at += 3)
    if (colour.every((byte, channel) => Math.abs(byte - data[at + channel]!) < 6)) found += 1;
  return found;
}

test('the card of a catalogue is 1200 × 630 px, at most 100 kB, with outlines of the baits', async () => {
  const plan = grub().plan;
  const one = await siteCardPng({ ...facts, plans: [plan] }, fonts);
  const three = await siteCardPng({ ...facts, plans: [plan, plan, plan] }, fonts);
  expect(await sharp(three).metadata()).toMatchObject({ format: 'png', width: 1200, height: 630 });
  expect(three.length).toBeLessThan(100_000);
  expect(await plastic(one)).toBeGreaterThan(20_000);
  // Three in the same room are smaller.
  expect(await plastic(three)).toBeGreaterThan(20_000);
  expect(one.equals(three)).toBe(false);
});

test('a name that the fonts cannot draw is refused', async () => {
  await expect(siteCardPng({ ...facts, shop: 'Thistle 漢', plans: [grub().plan] }, fonts)).rejects.toThrow(
    'share card of the catalogue: the shop name "Thistle 漢" holds "漢"',
  );
});
