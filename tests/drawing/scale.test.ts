import { expect, test } from 'vitest';
import { scaleColour } from '../../src/drawing/colour-scale.ts';
import { preferredLevels, regions } from '../../src/drawing/contours.ts';
import { ringArea } from '../../src/drawing/contour-marks.ts';
import { fittingScale, SERIES } from '../../src/drawing/scale.ts';

// ISO 5455:1979: enlargements 50:1 20:1 10:1 5:1 2:1, full size, reductions 1:2 1:5 1:10 1:20 1:50 1:100 (and on).
test('the series of ISO 5455', () => {
  expect(SERIES.map(({ text }) => text).join(' ')).toBe(
    '50:1 20:1 10:1 5:1 2:1 1:1 1:2 1:5 1:10 1:20 1:50 1:100',
  );
});

test.each([
  { real: 130, paper: 160, scale: '1:1' },
  { real: 161, paper: 160, scale: '1:2' },
  { real: 79, paper: 160, scale: '2:1' },
  { real: 500, paper: 160, scale: '1:5' },
])('$real mm on $paper mm of paper is drawn $scale', ({ real, paper, scale }) => {
  expect(fittingScale(real, 1, { width: paper, height: 100 }).text).toBe(scale);
});

/** CIE lightness L* of a colour. Source: CIE 15:2004, sRGB after IEC 61966-2-1. */
function lightness(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  const y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
}

/** A colour as a person without green cones sees it. Source: H. Brettel, F. Viénot, J. Mollon (1997); matrix of Viénot, Brettel and Mollon (1999), from memory. */
function deuteranope(hex: string): string {
  const linear = [1, 3, 5].map((at) => (Number.parseInt(hex.slice(at, at + 2), 16) / 255) ** 2.2);
  const [r = 0, g = 0, b = 0] = linear;
  const seen = [0.29275 * r + 0.70725 * g, 0.29275 * r + 0.70725 * g, -0.02234 * r + 0.02234 * g + b];
  return `#${seen
    .map((value) =>
      Math.round(255 * Math.max(0, value) ** (1 / 2.2))
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
}

test.each([
  ['as it is', (hex: string) => hex],
  ['without green cones', deuteranope],
])('lightness of the colour scale rises evenly, %s', (_, seen) => {
  const steps = Array.from({ length: 9 }, (_x, index) => lightness(seen(scaleColour(index / 8))));
  const rises = steps.slice(1).map((value, index) => value - steps[index]!);
  const mean = rises.reduce((sum, rise) => sum + rise, 0) / rises.length;
  for (const rise of rises) {
    expect(rise).toBeGreaterThan(0.6 * mean);
    expect(rise).toBeLessThan(1.4 * mean);
  }
});

// ISO 3:1973, series R10: 1.00 1.25 1.60 2.00 2.50 3.15 4.00 5.00 6.30 8.00; R5 is every second.
test('levels are preferred numbers inside the span', () => {
  expect(preferredLevels(0.9, 2.6, 9)).toEqual([1, 1.25, 1.6, 2, 2.5]);
  expect(preferredLevels(0.9, 30, 9)).toEqual([1, 1.6, 2.5, 4, 6.3, 10, 16, 25]);
  expect(preferredLevels(0.0009, 0.0026, 9)).toEqual([0.001, 0.00125, 0.0016, 0.002, 0.0025]);
});

test('the region of a cone above a level is a disc of the right radius', () => {
  const [n, cell] = [121, 0.5];
  const values = Float64Array.from({ length: n * n }, (_, place) => {
    const [x, y] = [(place % n) - 60, Math.floor(place / n) - 60];
    return 40 - Math.hypot(x, y) * cell;
  });
  const [region] = regions({ nx: n, ny: n, x0: -30, y0: -30, cell, values }, [25]);
  // The cone is 25 high at a radius of 15; linear interpolation on half-unit cells is good to 0.2 % of the area.
  const area = Math.abs(region!.rings.reduce((sum, ring) => sum + ringArea(ring), 0));
  expect(Math.abs(area / (Math.PI * 15 ** 2) - 1)).toBeLessThan(0.002);
});
