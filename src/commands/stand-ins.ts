import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { create, type Font } from 'fontkitten';

/** A face that readers have installed: the names that it goes by, and a file with the same widths. */
interface Installed {
  readonly names: readonly string[];
  readonly file: string;
}

/**
 * What phones and desks have installed, by the weight that it stands in for. Newer phones have the bold of Roboto only inside
 * another file, where its name does not reach it (from memory); its regular is nearly as wide.
 */
const INSTALLED: Readonly<Record<string, Readonly<Record<400 | 600, Installed>>>> = {
  Roboto: {
    400: {
      names: ['Roboto', 'Roboto-Regular'],
      file: '@fontsource/roboto/files/roboto-latin-400-normal.woff2',
    },
    600: {
      names: ['Roboto Bold', 'Roboto-Bold', 'Roboto', 'Roboto-Regular'],
      file: '@fontsource/roboto/files/roboto-latin-700-normal.woff2',
    },
  },
  // Liberation Sans was drawn to the widths of Arial.
  Arial: {
    400: {
      names: ['Arial', 'Liberation Sans', 'Helvetica'],
      file: 'pdfjs-dist/standard_fonts/LiberationSans-Regular.ttf',
    },
    600: {
      names: ['Arial Bold', 'Liberation Sans Bold', 'Helvetica Bold'],
      file: 'pdfjs-dist/standard_fonts/LiberationSans-Bold.ttf',
    },
  },
};

/** Words as pages have them, those of headings apart; without digits, which are set in another width than the letters' own. */
const SAMPLES: Readonly<Record<string, string>> = {
  Barlow: `How much plastic a shot takes, how hot to pour, whether it fills cold, how long to wait before the mold is opened,
how hard to clamp, which hook fits, whether it floats and what can hurt someone. Worked out from the solid of the bait, the
mold and the compound, with the lowest and the highest credible value. Wear gloves, sleeves and a face shield.`,
  'Barlow Condensed': `Molds Answers Compare Planner Guides Safety Curl-tail grub, six cavities Shooting it How much plastic
Thin parts Vents Compound Action Hooks Float or sink Measures Faults Questions Sources Files Narrow the list Plan a session`,
};

function opened(bytes: Buffer): Font {
  const font = create(bytes);
  if (font.isCollection) throw new RangeError('opened: wants a single face, got a collection');
  return font;
}

/** Width of a text [em]. */
const widthIn = (font: Font, text: string): number =>
  [...text.replaceAll('\n', ' ')].reduce(
    (sum, letter) => sum + font.glyphForCodePoint(letter.codePointAt(0) ?? 0).advanceWidth,
    0,
  ) / font.unitsPerEm;

const percent = (share: number) => `${Number((100 * share).toFixed(1))}%`;

const require = createRequire(import.meta.url);

/**
 * Rules for faces that stand in for another until it has come: installed ones, scaled so that words are as wide and lines as
 * tall.
 *
 * @param face - file of the face that they stand in for
 */
export async function standInRules(family: string, weight: 400 | 600, face: Buffer): Promise<string[]> {
  const font = opened(face);
  const sample = SAMPLES[family] ?? '';
  const rules: string[] = [];
  for (const [name, weights] of Object.entries(INSTALLED)) {
    const { names, file } = weights[weight];
    const scale = widthIn(font, sample) / widthIn(opened(await readFile(require.resolve(file))), sample);
    const tall = (units: number) => percent(units / font.unitsPerEm / scale);
    rules.push(`@font-face {
  font-family: '${family} by ${name}';
  font-weight: ${weight};
  src: ${names.map((one) => `local('${one}')`).join(', ')};
  size-adjust: ${percent(scale)};
  ascent-override: ${tall(font.ascent)};
  descent-override: ${tall(-font.descent)};
  line-gap-override: ${tall(font.lineGap)};
}
`);
  }
  return rules;
}
