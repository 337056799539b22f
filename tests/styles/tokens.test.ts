import { expect, test } from 'vitest';
import { contrast } from '../../src/styles/contrast.ts';
import { DARK, LIGHT, palettes, SIGNAL, tokenStyles, type Palette } from '../../src/styles/tokens.ts';

// WCAG 2.2, technique G18: black on white is 21:1; #777777 on white is 4.48:1 (printed to two decimals).
test('contrast of published pairs', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
  expect(contrast('#ffffff', '#000000')).toBeCloseTo(21, 10);
  expect(Math.abs(contrast('#777777', '#ffffff') - 4.48)).toBeLessThanOrEqual(0.005);
});

/** Accents of shops: dark, light, glaring, and with the least contrast that there is. */
const ACCENTS = ['#000000', '#ffffff', '#ffff00', '#808080', '#8a3b12', '#00ff00', '#7f0000'];

test.each<[string, Palette]>([
  ['light', LIGHT],
  ['dark', DARK],
  ...ACCENTS.flatMap((accent) => {
    const { light, dark } = palettes(accent);
    return [
      [`light, ${accent}`, light],
      [`dark, ${accent}`, dark],
    ] satisfies [string, Palette][];
  }),
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

test('an accent that is legible is kept as it is', () => {
  expect(palettes('#233f96').light.accent).toBe('#233f96');
  expect(palettes('#8a3b12').light.accent).toBe('#8a3b12');
  expect(tokenStyles({ accent: '#8a3b12' })).toContain('--accent: #8a3b12;');
  expect(tokenStyles({ type: 'system' })).toContain('--font-text: system-ui, sans-serif;');
});
