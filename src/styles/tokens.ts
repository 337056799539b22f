import { themed } from './theme.ts';

/**
 * The look in one table: warm drawing paper, ink, thin rules, one accent (layout blue, the dye that machinists mark
 * out with). Pages, drawings and cards read their colours here and nowhere else.
 */
export interface Palette {
  /** Ground of a page. */
  readonly paper: string;
  /** Ground of a drawing, a card or a table: a little nearer to white (dark: a little lighter). */
  readonly sheet: string;
  /** Text and outlines: at least 12:1 on `paper`. */
  readonly ink: string;
  /** Secondary text: at least 4.5:1 on `paper` and on `sheet`. */
  readonly muted: string;
  /** Thin rules that only separate; carries no meaning. */
  readonly rule: string;
  /** Borders of controls and frames that must be seen: at least 3:1. */
  readonly ruleStrong: string;
  /** Links, focus, dimension lines: at least 4.5:1 as text. */
  readonly accent: string;
  /** Ground for what is picked out, under `ink` or `accent` text. */
  readonly accentSoft: string;
  /** Text on a ground of `accent`. */
  readonly onAccent: string;
  /** Tint of a plastic part in a drawing; always with an outline. */
  readonly plastic: string;
  /** Tint of a metal part in a drawing; always with an outline. */
  readonly metal: string;
  /** A good verdict, a doubtful one, a bad one, as text; never without a word. */
  readonly good: string;
  readonly doubt: string;
  readonly bad: string;
}

const PLAIN_LIGHT: Palette = {
  paper: '#f6f1e5',
  sheet: '#fdfaf3',
  ink: '#1c1a17',
  muted: '#5e584c',
  rule: '#d3cab8',
  ruleStrong: '#877e6d',
  accent: '#233f96',
  accentSoft: '#e2e5f1',
  onAccent: '#ffffff',
  plastic: '#d9e0ee',
  metal: '#ece7db',
  good: '#22613b',
  doubt: '#7d4a00',
  bad: '#a3142a',
};

const PLAIN_DARK: Palette = {
  paper: '#161513',
  sheet: '#1e1c19',
  ink: '#ece6d8',
  muted: '#b0a897',
  rule: '#3e3a33',
  ruleStrong: '#857d6e',
  accent: '#a9bbff',
  accentSoft: '#272b40',
  onAccent: '#10142a',
  plastic: '#2c3553',
  metal: '#2b2823',
  good: '#84cf9c',
  doubt: '#f0b45c',
  bad: '#ff9a9f',
};

/** The accent that the shop of the catalogue chose; the bundler puts it in, nothing else knows it. */
declare const PARTLINE_ACCENT: string | undefined;
const chosen = typeof PARTLINE_ACCENT === 'string' ? PARTLINE_ACCENT : undefined;

/** Both schemes with the accent of a shop, or as they are. */
export function palettes(accent: string | undefined): { readonly light: Palette; readonly dark: Palette } {
  if (accent === undefined) return { light: PLAIN_LIGHT, dark: PLAIN_DARK };
  return { light: themed(PLAIN_LIGHT, accent), dark: themed(PLAIN_DARK, accent) };
}

/** Light scheme, and always on paper. */
export const LIGHT: Palette = palettes(chosen).light;

/** Dark scheme. */
export const DARK: Palette = palettes(chosen).dark;

/** Ground and text of the signal words; the same in both schemes. Colours of ANSI Z535, always with word and sign. */
export const SIGNAL = {
  DANGER: { ground: '#c8102e', text: '#ffffff' },
  WARNING: { ground: '#ff8200', text: '#000000' },
  CAUTION: { ground: '#ffd100', text: '#000000' },
  NOTICE: { ground: '#0051ba', text: '#ffffff' },
} as const;

/**
 * Font stacks by the shop's choice of type; figures are set with tabular numerals. Behind each drawn face stand installed ones
 * as wide and as tall (`npm run faces`), then narrow ones; `sans-serif-condensed` is Android's name for its own (from memory).
 */
export const FONTS = {
  drawn: {
    text: "'Barlow', 'Barlow by Roboto', 'Barlow by Arial', 'Helvetica Neue', Arial, sans-serif",
    condensed:
      "'Barlow Condensed', 'Barlow Condensed by Roboto', 'Barlow Condensed by Arial', 'Arial Narrow', sans-serif-condensed, Arial, sans-serif",
  },
  system: { text: 'system-ui, sans-serif', condensed: "'Arial Narrow', system-ui, sans-serif" },
} as const;

/** What a shop may change of the look. */
export interface Look {
  /** `#rrggbb`. */
  readonly accent?: string | undefined;
  readonly type?: keyof typeof FONTS | undefined;
}

const kebab = (name: string) => name.replace(/[A-Z]/gu, (letter) => `-${letter.toLowerCase()}`);

/** CSS declarations of a palette: `--paper: #f6f1e5; …`, names in kebab case. */
export function declarations(palette: Palette): string {
  return Object.entries(palette)
    .map(([name, value]) => `--${kebab(name)}: ${value};`)
    .join(' ');
}

/** Style sheet that sets every token on `:root`: light, dark by the reader's wish, light again on paper. */
export function tokenStyles({ accent, type = 'drawn' }: Look = {}): string {
  const { light, dark } = palettes(accent);
  const fonts = FONTS[type];
  const signals = Object.entries(SIGNAL)
    .map(
      ([word, { ground, text }]) =>
        `--${word.toLowerCase()}: ${ground}; --on-${word.toLowerCase()}: ${text};`,
    )
    .join(' ');
  return [
    `:root { color-scheme: light dark; --font-text: ${fonts.text}; --font-condensed: ${fonts.condensed}; ${signals} ${declarations(light)} }`,
    `@media screen and (prefers-color-scheme: dark) { :root { ${declarations(dark)} } }`,
  ].join('\n');
}
