import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { fitted, lineWidth, missingLetter, openFaces, type Faces } from '../../src/card/faces.ts';
import { cardPng } from '../../src/card/png.ts';
import { CARD_SIZES, type CardSize } from '../../src/card/layout.ts';
import { readCardFonts, type CardFont } from '../../src/io/fonts.ts';
import { LIGHT } from '../../src/styles/tokens.ts';
import { grub } from '../drawing/shapes.ts';
import { fakeCard } from '../support/fake-card.ts';

let fonts: CardFont[];
let faces: Faces;
beforeAll(async () => {
  fonts = await readCardFonts();
  faces = openFaces(fonts);
});

/** Share of the pixels in a rectangle that differ clearly from the ground of the card. */
async function inked(
  png: Buffer,
  rect: { left: number; top: number; width: number; height: number },
): Promise<number> {
  const { data } = await sharp(png).extract(rect).greyscale().raw().toBuffer({ resolveWithObject: true });
  return data.filter((grey) => grey < 200).length / data.length;
}

describe.each(['wide', 'square'] as const)('%s', (size: CardSize) => {
  test('has the size of its format, a small palette and at most 40 kB', async () => {
    const png = await cardPng(fakeCard(), size, fonts);
    const meta = await sharp(png).metadata();
    expect([meta.width, meta.height]).toEqual([CARD_SIZES[size].width, CARD_SIZES[size].height]);
    // Colour type 3 of the PNG header: indexed colour.
    expect(png[25]).toBe(3);
    expect(png.byteLength).toBeLessThanOrEqual(40_000);
  });

  test('same facts, same bytes', async () => {
    const [one, two] = [await cardPng(fakeCard(), size, fonts), await cardPng(fakeCard(), size, fonts)];
    expect(one.equals(two)).toBe(true);
  });

  test('nothing is set outside the frame, whatever the length of the name', async () => {
    for (const name of ['A', 'W'.repeat(80), 'Curl-tail grub with an unusually long name that goes on']) {
      const png = await cardPng(fakeCard({ name }), size, fonts);
      const { width, height } = CARD_SIZES[size];
      const edges = [
        { left: 0, top: 0, width, height: 29 },
        { left: 0, top: height - 29, width, height: 29 },
        { left: 0, top: 0, width: 29, height },
        { left: width - 29, top: 0, width: 29, height },
      ];
      for (const edge of edges) expect(await inked(png, edge)).toBe(0);
    }
  });
});

test('the bait is drawn from its own outline: its tint covers the area that the outline has', async () => {
  const png = await cardPng(fakeCard(), 'wide', fonts);
  const { data, info } = await sharp(png).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  const tint = [1, 3, 5].map((at) => Number.parseInt(LIGHT.plastic.slice(at, at + 2), 16));
  let [count, left, right] = [0, Infinity, 0];
  for (let pixel = 0; pixel < info.width * info.height; pixel++) {
    if (!tint.every((value, channel) => Math.abs(value - (data[3 * pixel + channel] ?? 0)) < 4)) continue;
    const x = pixel % info.width;
    [count, left, right] = [count + 1, Math.min(left, x), Math.max(right, x)];
  }
  // Shoelace area of the outline over its length squared: no unit, so it does not depend on the scale.
  const [ring = []] = grub().plan;
  const shoelace = ring.reduce((sum, [x, y], index) => {
    const [nx, ny] = ring[(index + 1) % ring.length]!;
    return sum + (x * ny - nx * y) / 2;
  }, 0);
  const length = Math.max(...ring.map(([x]) => x));
  // The stroke of 4 px and the middle line cover part of the tint.
  const ratio = count / (right - left) ** 2 / (shoelace / length ** 2);
  expect(ratio).toBeGreaterThan(0.9);
  expect(ratio).toBeLessThan(1.05);
});

test('a letter that no face holds is named with its code, its field and its mold', async () => {
  await expect(cardPng(fakeCard({ name: 'Grub 怪' }), 'wide', fonts)).rejects.toThrow(
    'share card of TT-GRUB-4: the name "Grub 怪" holds "怪" (U+602A), which the fonts of the card lack; write it in Latin letters',
  );
  await expect(cardPng(fakeCard({ shop: 'Bait 🎣' }), 'wide', fonts)).rejects.toThrow('(U+1F3A3)');
});

test('letters of further European languages are held by the second face', () => {
  expect(missingLetter('Žluťoučký Ørret Łosoś', 'Barlow', faces)).toBeUndefined();
  expect(missingLetter('Žluťoučký Ørret Łosoś', 'Barlow Condensed', faces)).toBeUndefined();
});

test('text is shrunk to its room and cut only when it must be', () => {
  const room = { width: 400, most: 76, least: 40 };
  for (const text of ['Grub', 'Curl-tail grub', 'x'.repeat(200)]) {
    const fit = fitted(text, room, 'Barlow Condensed', faces);
    expect(lineWidth(fit.text, fit.size, 'Barlow Condensed', faces)).toBeLessThanOrEqual(room.width);
    expect(fit.size).toBeGreaterThanOrEqual(room.least);
  }
  expect(fitted('Grub', room, 'Barlow Condensed', faces)).toEqual({ text: 'Grub', size: 76 });
  expect(fitted('x'.repeat(200), room, 'Barlow Condensed', faces).text).toMatch(/…$/u);
});
