import { SaxesParser } from 'saxes';
import { bounds, labelRect, overlap, type Picture, type Point } from '../../src/drawing/picture.ts';

/** True for a point inside rings, holes told by crossing twice. */
function insideRings([x, y]: Point, rings: readonly (readonly Point[])[]): boolean {
  let inside = false;
  for (const ring of rings) {
    ring.forEach(([bx, by], index) => {
      const [ax, ay] = ring.at(index - 1) ?? [bx, by];
      if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
    });
  }
  return inside;
}

/** What an SVG holds, read by a strict XML parser. */
export interface SvgFacts {
  readonly ids: readonly string[];
  readonly classes: ReadonlySet<string>;
  readonly texts: readonly string[];
  readonly title: string;
  readonly desc: string;
  readonly root: Readonly<Record<string, string>>;
  readonly elements: ReadonlySet<string>;
}

/** Reads an SVG; throws when it is not well-formed XML. */
export function readSvg(svg: string): SvgFacts {
  const parser = new SaxesParser({});
  const ids: string[] = [];
  const classes = new Set<string>();
  const elements = new Set<string>();
  const texts: string[] = [];
  const words = { title: '', desc: '' };
  let root: Record<string, string> | null = null;
  let open = '';
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    root ??= { ...attributes };
    open = name;
    elements.add(name);
    if (attributes['id']) ids.push(attributes['id']);
    for (const one of attributes['class']?.split(' ') ?? []) classes.add(one);
    if (name === 'text') texts.push('');
  });
  parser.on('text', (text) => {
    if (open === 'title' || open === 'desc') words[open] += text;
    if (open === 'text') texts[texts.length - 1] += text;
  });
  parser.on('closetag', () => {
    open = '';
  });
  parser.write(svg).close();
  return { ids, classes, elements, texts, ...words, root: root ?? {} };
}

/** Pairs of labels that cover one another, as "this / that". */
export function collisions(picture: Picture): string[] {
  const { labels } = picture;
  const rects = labels.map(labelRect);
  return labels.flatMap((one, index) =>
    labels.slice(index + 1).flatMap((other, step) => {
      const [a, b] = [rects[index], rects[index + 1 + step]];
      return a && b && overlap(a, b) ? [`${one.text} / ${other.text}`] : [];
    }),
  );
}

/** Labels without a rim of paper that an outline, a leader or a dimension line runs through. */
export function struckThrough(picture: Picture): string[] {
  const runs = picture.paths
    .filter(({ line }) => ['visible', 'cuttingEnd', 'leader', 'dimension', 'centre', 'hatch'].includes(line))
    .flatMap(({ runs: all, closed, clip }) =>
      all.map((run) => ({ run: closed && run[0] ? [...run, run[0]] : run, clip })),
    );
  return picture.labels
    .filter(({ letter }) => letter !== 'halo')
    .filter((label) => {
      const rect = labelRect(label);
      return runs.some(({ run, clip }) =>
        run.some(([x, y], index) => {
          const [px, py] = run[index - 1] ?? [x, y];
          const around = {
            left: Math.min(x, px),
            right: Math.max(x, px),
            top: Math.min(y, py),
            bottom: Math.max(y, py),
          };
          if (
            around.left > rect.right ||
            around.right < rect.left ||
            around.top > rect.bottom ||
            around.bottom < rect.top
          )
            return false;
          const steps = Math.ceil(Math.hypot(x - px, y - py) / 0.2) || 1;
          return Array.from({ length: steps + 1 }, (_, step) => step / steps).some((share) => {
            const [sx, sy] = [px + (x - px) * share, py + (y - py) * share];
            const within = sx > rect.left && sx < rect.right && sy > rect.top && sy < rect.bottom;
            return within && (!clip || insideRings([sx, sy], clip));
          });
        }),
      );
    })
    .map(({ text }) => text);
}

/** True when everything lies on the paper. */
export function onSheet(picture: Picture, width: number, height: number): boolean {
  const { left, top, right, bottom } = bounds(picture);
  return left >= 0 && top >= 0 && right <= width && bottom <= height;
}
