import { describe, expect, test } from 'vitest';
import { blockPlot } from '../../src/drawing/block-plot.ts';
import type { Drawing, DrawingOptions } from '../../src/drawing/drawing.ts';
import { fillMapDrawing } from '../../src/drawing/fill-map.ts';
import { celsiusScale, fahrenheitScale } from '../../src/drawing/plot-frame.ts';
import { windowPlot } from '../../src/drawing/window-plot.ts';
import { fakeSheet } from '../support/fake-sheet.ts';
import { collisions, onSheet, readSvg, struckThrough } from './checks.ts';
import { GRUB_TITLE } from './shapes.ts';

const { filling, geometry } = fakeSheet();
const { model } = filling;
const shared = { name: 'Capsule', projection: 'third', titleBlock: GRUB_TITLE } as const;
const POUR = { low: 430, nominal: 438, high: 452 };

const map = (which: 'cold' | 'adverse') => (options: DrawingOptions) =>
  fillMapDrawing(
    { ...shared, plan: geometry.plan, picture: model[which] ?? model.cold, condition: `${which} mold` },
    options,
  );

const DRAWINGS: Readonly<Record<string, (options: DrawingOptions) => Drawing>> = {
  'fill-map': map('cold'),
  'fill-map-short': map('adverse'),
  'window-plot': (options) =>
    windowPlot(
      { ...shared, window: filling.window, molds: filling.molds, pour: POUR, degradation: 456 },
      options,
    ),
  'block-plot': (options) =>
    blockPlot(
      { ...shared, warmUp: filling.warmUp, marks: [{ at: 324, word: 'bare skin, a minute' }] },
      options,
    ),
};

describe.each(Object.entries(DRAWINGS))('%s', (name, draw) => {
  test.each(['wide', 'compact'] as const)('%s: as text', async (layout) => {
    const { svg } = draw({ layout, prefix: 'fill', standalone: 'auto' });
    await expect(svg).toMatchFileSnapshot(`snapshots/${name}-${layout}.svg`);
  });

  test.each(['wide', 'compact'] as const)('%s: well-formed, nothing collides, all on the sheet', (layout) => {
    const drawing = draw({ layout, prefix: 'one', standalone: 'auto' });
    const facts = readSvg(drawing.svg);
    expect(facts.title).toBe(drawing.title);
    expect(drawing.desc.length).toBeGreaterThan(60);
    expect(facts.ids.every((id) => id.startsWith('one-'))).toBe(true);
    expect(collisions(drawing.picture)).toEqual([]);
    expect(struckThrough(drawing.picture)).toEqual([]);
    expect(onSheet(drawing.picture, drawing.width, drawing.height)).toBe(true);
    expect(Buffer.byteLength(drawing.svg)).toBeLessThanOrEqual(20_000);
  });
});

const wide = { layout: 'wide', prefix: 'x' } as const;

test('a short cavity is told by hatching and words, not by colour alone', () => {
  const drawing = DRAWINGS['fill-map-short']!(wide);
  expect(readSvg(drawing.svg).texts).toContain('left short');
  expect(drawing.picture.paths.some(({ line, clip }) => line === 'hatch' && clip)).toBe(true);
  expect(drawing.desc).toMatch(/stops after .* seconds with \d+% of the cavity filled/u);
  const full = DRAWINGS['fill-map']!(wide);
  expect(readSvg(full.svg).texts).not.toContain('left short');
  expect(full.desc).toContain('It is full after');
});

test('lines of equal reserve lie where the window has that reserve', () => {
  const drawing = DRAWINGS['window-plot']!(wide);
  const { pours, molds, nominal } = filling.window;
  const one = drawing.picture.paths.find(({ line, runs }) => line === 'visible' && runs.length > 0);
  const frame = drawing.picture.paths.find(({ clip }) => clip)!.clip![0]!;
  const [left, bottom] = [Math.min(...frame.map(([x]) => x)), Math.max(...frame.map(([, y]) => y))];
  const [right, top] = [Math.max(...frame.map(([x]) => x)), Math.min(...frame.map(([, y]) => y))];
  const inside = one!.runs.flat().filter(([x, y]) => x > left && x < right && y > top && y < bottom);
  expect(inside.length).toBeGreaterThan(0);
  for (const [x, y] of inside) {
    const i = ((x - left) / (right - left)) * (pours.length - 1);
    const j = ((bottom - y) / (bottom - top)) * (molds.length - 1);
    const [i0, j0] = [Math.min(pours.length - 2, Math.floor(i)), Math.min(molds.length - 2, Math.floor(j))];
    const at = (di: number, dj: number) => nominal[i0 + di + pours.length * (j0 + dj)]!;
    const [u, v] = [i - i0, j - j0];
    const value =
      at(0, 0) * (1 - u) * (1 - v) + at(1, 0) * u * (1 - v) + at(0, 1) * (1 - u) * v + at(1, 1) * u * v;
    expect(Math.abs(value - 1)).toBeLessThan(0.01);
  }
});

test('scales tell the same temperature in two units', () => {
  expect(celsiusScale.shown(373.15)).toBeCloseTo(100, 9);
  expect(fahrenheitScale.shown(373.15)).toBeCloseTo(212, 9);
  expect(fahrenheitScale.back(fahrenheitScale.shown(300))).toBeCloseTo(300, 9);
});
