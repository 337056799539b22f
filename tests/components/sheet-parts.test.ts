import { expect, test } from 'vitest';
import { longestBait, baitOutline } from '../../src/components/catalogue/outlines.ts';
import { ORDERS, signsOf, WARNINGS } from '../../src/components/caution/signs.ts';
import { hooksByRig } from '../../src/components/sheet/hook-groups.ts';
import { pourScale } from '../../src/components/sheet/pour-scale.ts';
import { fullAddress, sitePath } from '../../src/components/address.ts';
import { cautions } from '../../src/sheet/cautions.ts';
import type { Speaker } from '../../src/sheet/words.ts';
import { fakeFigure, fakeSheet } from '../support/fake-sheet.ts';
import { band } from '../../src/core/quantity/band.ts';

const mumble: Speaker = {
  say: () => '1 mm',
  end: () => '1 mm',
  has: () => true,
  figure: (key) => fakeFigure(key, key, 'mm', band(1)),
};

test('every caution that can hurt someone has a sign of its own', () => {
  for (const { key, signal } of cautions(mumble, true)) {
    const { warning, orders } = signsOf(key);
    if (signal !== 'NOTICE') expect({ key, warning }).not.toEqual({ key, warning: 'general' });
    if (signal !== 'NOTICE') expect(warning).not.toBeNull();
    for (const order of orders) expect(ORDERS[order].words).not.toBe('');
  }
  expect(signsOf('unheard-of').warning).toBe('general');
});

test('every sign has something drawn on it', () => {
  for (const drawing of [...Object.values(WARNINGS), ...Object.values(ORDERS)]) {
    expect(drawing.fill ?? drawing.line ?? '').toMatch(/^M[\d. ]+/u);
  }
});

test('hooks by rig: usable ones in rows, the others by size', () => {
  const [tight, best, fits] = fakeSheet().hooks;
  if (!tight || !best || !fits) throw new Error('the fake sheet has three hooks');
  const small = { ...tight, size: '1/0', verdict: 'too small' as const };
  const large = { ...fits, size: '5/0', verdict: 'too large' as const };
  const other = { ...best, rig: 'Carolina' };
  expect(hooksByRig({ hooks: [small, tight, best, fits, large, other] })).toEqual([
    {
      rig: 'Texas',
      usable: [tight, best, fits],
      misfits: [{ name: 'Extra wide gap hook', tooSmall: '1/0', tooLarge: '5/0' }],
    },
    { rig: 'Carolina', usable: [other], misfits: [] },
  ]);
});

// 140 °C is the left end and 240 °C the right one, so a degree is a hundredth.
test('places on the temperature scale', () => {
  const { bands, celsius, fahrenheit } = pourScale(fakeSheet());
  const at = Object.fromEntries(bands.map(({ name, at: place }) => [name, place]));
  expect(at['Fully fused']).toBeCloseTo(25, 9);
  expect(at['Pour']).toBeCloseTo(34, 9);
  expect(at['Breaks down']).toBeCloseTo(50, 9);
  expect(at['Flash point']).toBeCloseTo(73, 9);
  expect(celsius.map(({ text }) => text)).toEqual(['140', '160', '180', '200', '220', '240']);
  expect(fahrenheit.find(({ text }) => text === '350')?.at).toBeCloseTo(((350 - 32) * 5) / 9 - 140, 9);
});

test('outlines of a catalogue share one scale', () => {
  const sheet = fakeSheet();
  const { box } = sheet.geometry;
  const twice = {
    ...sheet,
    geometry: { ...sheet.geometry, box: { ...box, max: [0.2, box.max[1], box.max[2]] as const } },
  };
  expect(longestBait([sheet, twice])).toBeCloseTo(200, 9);
  expect(baitOutline(sheet, 200)).toContain('width="202mm"');
  expect(baitOutline(sheet, 100)).toContain('width="102mm"');
});

test.each([
  ['/', 'molds/a/', '/molds/a/'],
  ['/shop/', '/molds/a/', '/shop/molds/a/'],
  ['/shop', '', '/shop/'],
])('below %s, %s is %s', (base, path, expected) => {
  expect(sitePath(path, base)).toBe(expected);
});

test('full addresses keep the folder of the site', () => {
  expect(fullAddress('molds/a/', 'https://a.example/shop')).toBe('https://a.example/shop/molds/a/');
});
