import sharp from 'sharp';
import { expect, test } from 'vitest';
import { siteCardPng } from '../../src/card/site-card.ts';
import { readCardFonts } from '../../src/io/fonts.ts';
import { LIGHT } from '../../src/styles/tokens.ts';
import { grub } from '../drawing/shapes.ts';

const fonts = await readCardFonts();
const facts = { shop: 'Thistledown Tooling', molds: 11, invented: true };

/** Parts of the middle band of the card, left to right, that hold the colour of plastic [1]. */
async function plasticColumns(png: Buffer): Promise<number[]> {
  const plastic = LIGHT.plastic
    .slice(1)
    .match(/../gu)!
    .map((byte) => parseInt(byte, 16));
  const { data, info } = await sharp(png).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  const found = [0, 0, 0];
  for (let y = 150; y < 500; y++)
    for (let x = 0; x < info.width; x++) {
      const at = 3 * (x + info.width * y);
      if (plastic.every((byte, channel) => Math.abs(byte - data[at + channel]!) < 6))
        found[Math.floor((3 * x) / info.width)]! += 1;
    }
  return found;
}

test('the card of a catalogue is 1200 × 630 px, at most 100 kB, with an outline for each bait', async () => {
  const plan = grub().plan;
  const one = await siteCardPng({ ...facts, plans: [plan] }, fonts);
  const three = await siteCardPng({ ...facts, plans: [plan, plan, plan] }, fonts);
  expect(await sharp(three).metadata()).toMatchObject({ format: 'png', width: 1200, height: 630 });
  expect(three.length).toBeLessThan(100_000);
  const [left, middle, right] = await plasticColumns(one);
  expect(left).toBeGreaterThan(1000);
  expect([middle, right]).toEqual([0, 0]);
  for (const found of await plasticColumns(three)) expect(found).toBeGreaterThan(1000);
});

test('a name that the fonts cannot draw is refused', async () => {
  await expect(siteCardPng({ ...facts, shop: 'Thistle 漢', plans: [grub().plan] }, fonts)).rejects.toThrow(
    'share card of the catalogue: the shop name "Thistle 漢" holds "漢"',
  );
});
