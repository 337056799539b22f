import { DARK, FONTS, LIGHT, type Palette } from '../styles/tokens.ts';

/**
 * Lines by what they stand for. Widths 0.5 and 0.25 mm, wide to narrow 2:1.
 * Source: ISO 128-2:2020 (line types 01.1, 01.2, 02.1, 04.1, 04.2), from memory.
 */
export const LINES = {
  visible: { width: 0.5, dash: '', colour: 'ink', type: 'continuous wide, 01.2: visible outline' },
  visibleEdge: { width: 0.25, dash: '', colour: 'ink', type: 'continuous narrow, 01.1: rounded edge' },
  hidden: { width: 0.25, dash: '3 0.75', colour: 'ink', type: 'dashed narrow, 02.1: hidden outline' },
  centre: {
    width: 0.25,
    dash: '6 0.75 0.15 0.75',
    colour: 'muted',
    type: 'long-dash-dot narrow, 04.1: centre line',
  },
  cutting: {
    width: 0.25,
    dash: '6 0.75 0.15 0.75',
    colour: 'ink',
    type: 'long-dash-dot narrow, 04.1: cutting plane',
  },
  phantom: {
    width: 0.25,
    dash: '4 0.75 0.15 0.75 0.15 0.75',
    colour: 'muted',
    type: 'long-dash-double-dot narrow, 05.1: another position',
  },
  cuttingEnd: { width: 0.5, dash: '', colour: 'ink', type: 'wide end of a cutting plane, 04.2' },
  hatch: { width: 0.25, dash: '', colour: 'muted', type: 'continuous narrow, 01.1: hatching' },
  dimension: {
    width: 0.25,
    dash: '',
    colour: 'accent',
    type: 'continuous narrow, 01.1: dimension and extension',
  },
  leader: { width: 0.25, dash: '', colour: 'accent', type: 'continuous narrow, 01.1: leader' },
  contour: { width: 0.25, dash: '', colour: 'ink', type: 'continuous narrow, 01.1: line of equal thickness' },
  changed: {
    width: 0.7,
    dash: '',
    colour: 'accent',
    type: 'continuous, wider than 01.2: an outline that has moved',
  },
  frame: { width: 0.5, dash: '', colour: 'ink', type: 'continuous wide, 01.2: frame' },
  rule: { width: 0.25, dash: '', colour: 'muted', type: 'continuous narrow, 01.1: rule of a table' },
  none: { width: 0, dash: '', colour: 'none', type: 'no line: a filled area' },
} as const satisfies Readonly<Record<string, LineStyle>>;

interface LineStyle {
  /** On paper [mm]. */
  readonly width: number;
  readonly dash: string;
  readonly colour: keyof Palette | 'none';
  readonly type: string;
}

/** What a line stands for. */
export type Line = keyof typeof LINES;

/** What an area is filled with; `none` leaves it open. */
export const FILLS = {
  none: 'none',
  plastic: 'plastic',
  metal: 'metal',
  sheet: 'sheet',
  ink: 'ink',
  accent: 'accent',
} as const satisfies Readonly<Record<string, keyof Palette | 'none'>>;

/** What an area is filled with. */
export type Fill = keyof typeof FILLS;

/** Lettering: ordinary, a dimension's, a caption's. */
export const LETTERS = {
  text: { colour: 'ink', weight: 500 },
  strong: { colour: 'ink', weight: 600 },
  value: { colour: 'accent', weight: 500 },
  caption: { colour: 'muted', weight: 500 },
  /** On a coloured area: dark on a light rim, in either scheme. */
  halo: { colour: 'ink', weight: 600 },
} as const;

/** Kind of lettering. */
export type Letter = keyof typeof LETTERS;

const kebab = (name: string) => name.replace(/[A-Z]/gu, (letter) => `-${letter.toLowerCase()}`);

/** Class of a line in the SVG: `ln-visible`. */
export const lineClass = (line: Line) => `ln-${kebab(line)}`;
/** Class of a fill in the SVG: `fl-plastic`. */
export const fillClass = (fill: Fill) => `fl-${fill}`;
/** Class of lettering in the SVG: `tx-value`. */
export const letterClass = (letter: Letter) => `tx-${letter}`;

type Paint = (colour: keyof Palette | 'none') => string;

/** A class and what it is drawn with. */
type Rule = readonly [className: string, declarations: string];

const [EVERY_LINE, EVERY_FILL, EVERY_LETTER] = [
  Object.keys(LINES) as Line[],
  Object.keys(FILLS) as Fill[],
  Object.keys(LETTERS) as Letter[],
];

/** Of the drawing as a whole. */
const WHOLE = `.drawing{stroke-linejoin:round;stroke-linecap:round;font-family:${FONTS.drawn.text};font-variant-numeric:tabular-nums}`;

function shapes(): Rule[] {
  return [
    ...EVERY_LINE.filter((line) => line !== 'none').map((line): Rule => {
      const { width, dash } = LINES[line];
      return [lineClass(line), `stroke-width:${width}${dash ? `;stroke-dasharray:${dash}` : ''}`];
    }),
    ...EVERY_LETTER.map((letter): Rule => [letterClass(letter), `font-weight:${LETTERS[letter].weight}`]),
    [letterClass('halo'), 'paint-order:stroke;stroke-width:.9'],
  ];
}

function colours(paint: Paint): Rule[] {
  return [
    ...EVERY_LINE.map((line): Rule => [lineClass(line), `stroke:${paint(LINES[line].colour)}`]),
    ...EVERY_FILL.map((fill): Rule => [fillClass(fill), `fill:${paint(FILLS[fill])}`]),
    ...EVERY_LETTER.map((letter): Rule => [letterClass(letter), `fill:${paint(LETTERS[letter].colour)}`]),
    ...EVERY_LETTER.map((letter): Rule => [
      letterClass(letter),
      `stroke:${letter === 'halo' ? paint('sheet') : 'none'}`,
    ]),
  ];
}

/** Rules as a style sheet, each list of declarations written once. */
function written(rules: readonly Rule[], within = ''): string {
  const groups = Map.groupBy(rules, ([, declarations]) => declarations);
  return [...groups]
    .map(([declarations, some]) => `${some.map(([name]) => `${within}.${name}`).join()}{${declarations}}`)
    .join('');
}

const fixed =
  (palette: Palette): Paint =>
  (colour) =>
    colour === 'none' ? 'none' : palette[colour];

/** On paper: black lines and lettering, tints kept pale. */
const PRINT: Palette = {
  ...LIGHT,
  paper: '#ffffff',
  sheet: '#ffffff',
  ink: '#000000',
  muted: '#000000',
  accent: '#000000',
};

/** Which colours a drawing that stands alone carries. */
export type Scheme = 'auto' | 'light' | 'dark' | 'print';

/**
 * Style of a drawing that stands alone: plain colours, so that every viewer shows it. All drawings of a scheme have the same
 * one, so that a policy can name it however many there are.
 *
 * @param scheme - `auto` follows the reader's wish and turns black on paper; the others are fixed
 */
export function standaloneStyle(scheme: Scheme): string {
  const first = { auto: LIGHT, light: LIGHT, dark: DARK, print: PRINT }[scheme];
  const base = WHOLE + written([...shapes(), ...colours(fixed(first))]);
  if (scheme !== 'auto') return base;
  const [dark, print] = [DARK, PRINT].map((palette) => written(colours(fixed(palette))));
  return `${base}@media screen and (prefers-color-scheme:dark){${dark}}@media print{${print}}`;
}

/** Style sheet for drawings inside a page: the colours are the page's custom properties. */
export function pageStyle(): string {
  const names = (palette: keyof Palette | 'none') =>
    palette === 'none' ? 'none' : `var(--${kebab(palette)})`;
  const inDrawing = (rules: readonly Rule[]) => written(rules, '.drawing ');
  const print = inDrawing(colours(fixed(PRINT)));
  return `${WHOLE}${inDrawing([...shapes(), ...colours(names)])}@media print{${print}}`;
}
