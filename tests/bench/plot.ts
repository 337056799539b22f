// Draws the kept results of the scale bench over the number of molds. Run: npx node tests/bench/plot.ts
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { digits, keptLines, machine, RESULTS } from './harness.ts';

interface Panel {
  readonly title: string;
  readonly unit: string;
  /** Rows of the bench, and what to multiply each by, given the number of molds; then the row of a catalogue built by its parts. */
  readonly series: readonly (readonly [
    what: string,
    label: string,
    factor: (n: number) => number,
    byParts?: string,
  ])[];
}

const one = () => 1;
const molds = (n: number) => n;
const PANELS: readonly Panel[] = [
  {
    title: 'Core time',
    unit: 's',
    series: [
      ['cold build: core a mold', 'cold build', molds, 'by parts: core a mold'],
      ['pages: core a mold', 'pages alone', molds, 'by parts: pages: core a mold'],
      ['nothing changed: core a mold', 'nothing changed', molds],
    ],
  },
  {
    title: 'Peak memory',
    unit: 'MB',
    series: [
      ['cold build: memory', 'all processes', one, 'by parts: memory'],
      ['analysis: memory', 'analysis', one, 'by parts: analysis: memory'],
    ],
  },
  {
    title: 'Disk',
    unit: 'MB',
    series: [
      ['disk of the site', 'site', one, 'by parts: disk of the site'],
      ['disk of the cache', 'cache', one, 'by parts: disk of the cache'],
    ],
  },
];
const INKS = ['#1b4f8a', '#a2401d', '#4a6b24'];
const SIDE = 260;
const EDGE = { left: 62, top: 40, right: 20, bottom: 46 };
const WIDTH = SIDE + EDGE.left + EDGE.right;
const HEIGHT = SIDE + EDGE.top + EDGE.bottom;

/** A hollow point tells of a catalogue of which one part was built. */
type Point = readonly [n: number, value: number, hollow: boolean];

const lines = keptLines().filter(({ bench }) => bench === 'scale');

function pointsOf(what: string, factor: (n: number) => number, byParts: string | undefined): Point[] {
  const named = (name: string | undefined, hollow: boolean) =>
    lines
      .filter((line) => line.what === name)
      .map(({ n, median }): Point => [Number(n), Number(median) * factor(Number(n)), hollow]);
  return [...named(what, false), ...named(byParts, true)].sort(([a], [b]) => a - b);
}

/** Whole decades around values. */
function decades(values: readonly number[]): [number, number] {
  const low = Math.floor(Math.log10(Math.min(...values)));
  return [low, Math.max(low + 1, Math.ceil(Math.log10(Math.max(...values))))];
}

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

function panel({ title, unit, series }: Panel, index: number): string {
  const drawn = series.map(([what, label, factor, byParts]) => ({
    label,
    points: pointsOf(what, factor, byParts),
  }));
  const all = drawn.flatMap(({ points }) => points);
  if (all.length === 0) return '';
  const hollow = all.some(([, , byParts]) => byParts);
  const [left, right] = decades(all.map(([n]) => n));
  const [low, high] = decades(all.map(([, value]) => value));
  const x = (n: number) => EDGE.left + (SIDE * (Math.log10(n) - left)) / (right - left);
  const y = (value: number) => EDGE.top + (SIDE * (high - Math.log10(value))) / (high - low);
  const steps = (from: number, to: number) =>
    Array.from({ length: to - from + 1 }, (_, i) => 10 ** (from + i));
  const grid = [
    ...steps(left, right).map(
      (n) =>
        `<path d="M${x(n)} ${EDGE.top}v${SIDE}"/><text x="${x(n)}" y="${EDGE.top + SIDE + 16}" text-anchor="middle">${digits(n)}</text>`,
    ),
    ...steps(low, high).map(
      (value) =>
        `<path d="M${EDGE.left} ${y(value)}h${SIDE}"/><text x="${EDGE.left - 6}" y="${y(value) + 4}" text-anchor="end">${digits(value)}</text>`,
    ),
  ];
  const curves = drawn.map(({ label, points }, i) => {
    const ink = INKS[i] ?? '#000';
    const path = points.map(
      ([n, value], at) => `${at === 0 ? 'M' : 'L'}${x(n).toFixed(1)} ${y(value).toFixed(1)}`,
    );
    const dots = points.map(
      ([n, value, byParts]) =>
        `<circle cx="${x(n).toFixed(1)}" cy="${y(value).toFixed(1)}" r="3" stroke="${ink}" fill="${byParts ? '#fff' : ink}"/>`,
    );
    const name = `<text x="${EDGE.left + 8}" y="${EDGE.top + 16 + 15 * i}" fill="${ink}">${escaped(label)}</text>`;
    return `<path d="${path.join('')}" fill="none" stroke="${ink}" stroke-width="1.6"/>${dots.join('')}${name}`;
  });
  return [
    `<g transform="translate(${index * WIDTH} 0)">`,
    `<text x="${EDGE.left}" y="22" font-weight="bold">${escaped(title)}, ${unit}</text>`,
    `<g stroke="#ccc" fill="#333" stroke-width="0.7">${grid.join('').replaceAll('<text', '<text stroke="none"')}</g>`,
    ...curves,
    `<text x="${EDGE.left + SIDE / 2}" y="${HEIGHT - 10}" text-anchor="middle">molds${hollow ? '; hollow: by parts' : ''}</text>`,
    '</g>',
  ].join('\n');
}

const file = join(RESULTS, `${machine}-scale.svg`);
const size = `${WIDTH * PANELS.length} ${HEIGHT}`;
const [width, height] = size.split(' ');
writeFileSync(
  file,
  `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${size}" font-family="sans-serif" font-size="12">
<rect width="100%" height="100%" fill="#fff"/>
${PANELS.map(panel).join('\n')}
</svg>
`,
);
process.stdout.write(`${file}\n`);
