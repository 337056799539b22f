import { fillClass, letterClass, lineClass, standaloneStyle, type Scheme } from './lines.ts';
import { pathData, written } from './path.ts';
import type { Circle, Label, Path, Picture } from './picture.ts';

/** How a drawing is put into SVG. */
export interface SvgOptions {
  /** Begins every id, so that several drawings can share a page: lower-case letters, digits, dashes. */
  readonly prefix: string;
  /** Set when the SVG is a file of its own: which colours it carries. Left out: the page's style sheet colours it. */
  readonly standalone?: Scheme;
}

/** A picture with its size and its words. */
export interface Plate {
  readonly title: string;
  readonly desc: string;
  /** Size of the paper [mm]. */
  readonly width: number;
  readonly height: number;
  readonly picture: Picture;
}

const SPECIAL: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
// Everything that XML 1.0 leaves out of its character range.
const FORBIDDEN =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Text made safe for XML content and quoted attributes; characters that XML cannot hold are left out. */
export function escaped(text: string): string {
  return text.replace(FORBIDDEN, '').replace(/[&<>"']/gu, (letter) => SPECIAL[letter] ?? letter);
}

type Clips = ReadonlyMap<string, string>;

/** Ids of the clipping areas, by their path data. */
function clipsOf(paths: readonly Path[], prefix: string): Clips {
  const data = paths.flatMap(({ clip }) => (clip ? [pathData(clip, true)] : []));
  return new Map([...new Set(data)].map((one, index) => [one, `${prefix}-c${index}`]));
}

const clipElements = (clips: Clips) =>
  [...clips].map(([data, id]) => `<clipPath id="${id}"><path d="${data}" clip-rule="evenodd"/></clipPath>`);

function pathElement({ line, fill, closed, runs, tint, clip }: Path, clips: Clips): string {
  const paint = tint
    ? `class="${lineClass(line)}" fill="${tint}"`
    : `class="${lineClass(line)} ${fillClass(fill)}"`;
  const within = clip ? ` clip-path="url(#${clips.get(pathData(clip, true)) ?? ''})"` : '';
  const holes =
    closed && runs.length > 1 && fill !== 'accent' && fill !== 'ink' && fill !== 'none'
      ? ' fill-rule="evenodd"'
      : '';
  return `<path ${paint}${within}${holes} d="${pathData(runs, closed)}"/>`;
}

function circleElement({ line, fill, at: [x, y], radius }: Circle): string {
  return `<circle class="${lineClass(line)} ${fillClass(fill)}" cx="${written(x)}" cy="${written(y)}" r="${written(radius)}"/>`;
}

const ANCHOR = { start: '', middle: ' text-anchor="middle"', end: ' text-anchor="end"' } as const;

/** What labels of one group share. */
const manner = ({ letter, size, anchor }: Label) =>
  `class="${letterClass(letter)}" font-size="${written(size)}"${ANCHOR[anchor]}`;

function labelElement({ text, at, turned }: Label): string {
  const [x, y] = [written(at[0]), written(at[1])];
  const place = turned ? `transform="translate(${x} ${y})rotate(-90)"` : `x="${x}" y="${y}"`;
  return `<text ${place}>${escaped(text)}</text>`;
}

/** Labels in groups of one manner, in the order of their first. */
function labelGroups(labels: readonly Label[]): string[] {
  const groups = new Map<string, Label[]>();
  for (const label of labels) groups.set(manner(label), [...(groups.get(manner(label)) ?? []), label]);
  return [...groups].map(([shared, some]) => `<g ${shared}>${some.map(labelElement).join('')}</g>`);
}

/** True for paths that may be drawn as one whatever lies between: bare lines, and fills without an outline. */
const mergeable = ({ line, fill, tint, clip }: Path) =>
  !tint && !clip && (fill === 'none' || (line === 'none' && (fill === 'accent' || fill === 'ink')));

/** Paths in order, later ones on top; lines and arrowheads of one kind gathered above the areas, to keep files small. */
function merged(paths: readonly Path[]): Path[] {
  const groups = new Map<string, Path>();
  for (const path of paths.filter(mergeable)) {
    const kind = `${path.line} ${path.fill} ${path.closed}`;
    groups.set(kind, { ...path, runs: [...(groups.get(kind)?.runs ?? []), ...path.runs] });
  }
  return [...paths.filter((path) => !mergeable(path)), ...groups.values()];
}

/**
 * SVG text of a plate, true to scale: one user unit is one millimetre on paper.
 *
 * @param plate - picture [mm], title and description in words
 * @param options - id prefix, and the colours of a file of its own
 * @throws {RangeError} when the prefix would not be a valid id
 */
export function svgText(plate: Plate, options: SvgOptions): string {
  const { prefix, standalone } = options;
  if (!/^[a-z][a-z0-9-]*$/u.test(prefix)) {
    throw new RangeError(
      `svgText: prefix wants a lower-case letter, then letters, digits and dashes, got ${prefix}`,
    );
  }
  const [width, height] = [written(plate.width), written(plate.height)];
  const { paths, circles, labels } = plate.picture;
  const clips = clipsOf(paths, prefix);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="drawing" viewBox="0 0 ${width} ${height}" width="${width}mm" height="${height}mm" role="img" aria-labelledby="${prefix}-t ${prefix}-d">`,
    `<title id="${prefix}-t">${escaped(plate.title)}</title>`,
    `<desc id="${prefix}-d">${escaped(plate.desc)}</desc>`,
    standalone
      ? `<style>${standaloneStyle(standalone)}</style><path class="ln-none fl-sheet" d="M0 0H${width}V${height}H0z"/>`
      : '',
    ...clipElements(clips),
    ...merged(paths).map((path) => pathElement(path, clips)),
    ...circles.map(circleElement),
    ...labelGroups(labels),
    '</svg>',
  ].join('\n');
}
