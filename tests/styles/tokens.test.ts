import { expect, test } from 'vitest';
import { contrast, DARK, LIGHT, SIGNAL, tokenStyles } from '../../src/styles/tokens.ts';

// WCAG 2.2, technique G18: black on white is 21:1; #777777 on white is 4.48:1 (printed to two decimals).
test('contrast of published pairs', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
  expect(contrast('#ffffff', '#000000')).toBeCloseTo(21, 10);
  expect(Math.abs(contrast('#777777', '#ffffff') - 4.48)).toBeLessThanOrEqual(0.005);
});

test.each([
  ['light', LIGHT],
  ['dark', DARK],
])('%s: every text and line colour has its contrast', (_, palette) => {
  for (const ground of [palette.paper, palette.sheet]) {
    expect(contrast(palette.ink, ground)).toBeGreaterThanOrEqual(12);
    for (const text of [palette.muted, palette.accent, palette.good, palette.doubt, palette.bad]) {
      expect(contrast(text, ground)).toBeGreaterThanOrEqual(4.5);
    }
    expect(contrast(palette.ruleStrong, ground)).toBeGreaterThanOrEqual(3);
  }
  for (const ground of [palette.plastic, palette.metal, palette.accentSoft]) {
    expect(contrast(palette.ink, ground)).toBeGreaterThanOrEqual(7);
    expect(contrast(palette.accent, ground)).toBeGreaterThanOrEqual(4.5);
  }
  expect(contrast(palette.onAccent, palette.accent)).toBeGreaterThanOrEqual(4.5);
});

test('signal words are legible on their ground', () => {
  for (const { ground, text } of Object.values(SIGNAL))
    expect(contrast(ground, text)).toBeGreaterThanOrEqual(4.5);
});

test('the style sheet sets both schemes and leaves paper light', () => {
  const css = tokenStyles();
  expect(css).toContain(`--rule-strong: ${LIGHT.ruleStrong};`);
  expect(css).toContain('@media screen and (prefers-color-scheme: dark)');
  expect(css).toContain(`--paper: ${DARK.paper};`);
});
