// Runs every bench and renews what is kept of this machine: results, plot, and the tables in DEVELOPERS.md and README.md; then
// compares with the last commit. Hours on two cores; --quick takes the smallest catalogue only, --tables runs nothing.
// Run: npx node tests/bench/all.ts [--quick | --tables]
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';
import { digits, keptLines, processor, type Line } from './harness.ts';

const quick = process.argv.includes('--quick');
const SMALL = ['mesh', 'section', 'fill', 'picture', 'study', 'card', 'pages', 'reader'];
const SCALE = quick
  ? [['--molds', '10']]
  : [
      ['--molds', '10,100,1000'],
      ['--molds', '10000', '--part', '1/64'],
    ];

/** Runs a file of this folder; whether it ended well. */
function run(name: string, args: readonly string[] = []): boolean {
  process.stdout.write(`${name} ${args.join(' ')}\n`);
  const file = `tests/bench/${name}.ts`;
  return spawnSync(process.execPath, [file, ...args], { stdio: 'inherit' }).status === 0;
}

/** Rows of a catalogue of which one part was built. */
const BY_PARTS = 'by parts: ';

/** The largest catalogue, by its parts. */
function partsTable(all: readonly Line[]): string {
  const lines = all.filter(({ what }) => what.startsWith(BY_PARTS));
  const rows = lines.map(({ what, unit, median }) => [`${what.slice(BY_PARTS.length)} [${unit}]`, median]);
  return rows.length === 0 ? '' : `${ruled([[`${lines[0]?.n ?? ''} molds by parts`, ''], ...rows])}\n\n`;
}

const ruled = ([head = [], ...rows]: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');

function table(all: readonly Line[]): string {
  const lines = all.filter(({ what }) => !what.startsWith(BY_PARTS));
  const sizes = [...new Set(lines.map(({ n }) => Number(n)))].sort((a, b) => a - b);
  const whats = [...new Set(lines.map(({ what, unit }) => `${what} [${unit}]`))];
  const cell = (what: string, n: number) =>
    lines.find((line) => `${line.what} [${line.unit}]` === what && Number(line.n) === n)?.median ?? '';
  const rows = whats.map((what) => [what, ...sizes.map((n) => cell(what, n))]);
  return ruled([['', ...sizes.map((n) => `${n} molds`)], ...rows]);
}

const FARM = 100_000;

/** What 100 000 molds would take: what one mold more took between the two largest catalogues that were built whole. */
function derived(lines: readonly Line[]): string {
  const built = lines.filter(({ what }) => what === 'cold build: core a mold').map(({ n }) => Number(n));
  const [n = 1, less = 0] = built.sort((a, b) => b - a);
  const value = (what: string, size: number) =>
    Number(lines.find((line) => line.what === what && Number(line.n) === size)?.median ?? 0);
  const more = (what: string) => (value(what, n) - value(what, less)) / (n - less);
  const moreCore = (what: string) => (n * value(what, n) - less * value(what, less)) / (n - less);
  const row = (name: string, each: number, unit: string, per: number, whole: string) => [
    name,
    `${digits((each * FARM) / per)} ${whole}`,
    `${digits(each)} ${unit}`,
  ];
  const rows = [
    row('analysis', moreCore('analysis: core a mold'), 's of core', 3600, 'core hours'),
    row('pages, pictures, cards', moreCore('pages: core a mold'), 's of core', 3600, 'core hours'),
    row('cache', more('disk of the cache'), 'MB', 1e3, 'GB'),
    row('site', more('disk of the site'), 'MB', 1e3, 'GB'),
    row('files', more('files of the site'), 'files', 1e6, 'million'),
    row('catalogue page as it is', more('/index.html'), 'kB', 1e3, 'MB'),
    row('search index as it is', more('/search.json'), 'kB', 1e3, 'MB'),
  ];
  const span = less === 0 ? `over ${n} molds with what all share` : `from ${less} to ${n} molds`;
  return ruled([['100 000 molds', 'derived', `a mold more, measured ${span}`], ...rows]);
}

/** What was measured, on what, with which program. */
function measuredOn(lines: readonly Line[]): string {
  const { node = '', cores = '', commit = '' } = lines[0] ?? {};
  return `${processor}, ${cores} cores, Node ${node}, commit ${commit}`;
}

/** Which program each size was built with. */
function commits(lines: readonly Line[]): string {
  const bySize = Map.groupBy(lines, ({ n }) => Number(n));
  const told = [...bySize].map(
    ([n, own]) => `${n} molds: ${[...new Set(own.map(({ commit }) => commit))].join(', ')}`,
  );
  return `Commits: ${told.join('; ')}.`;
}

/** Builds of catalogues of several sizes. */
function scaleTables(): string {
  const lines = linesOfBench('scale');
  return `${table(lines)}\n\n${partsTable(lines)}${processor}, ${lines[0]?.cores ?? ''} cores, Node ${lines[0]?.node ?? ''}; one run each. ${commits(lines)}\n\n${derived(lines)}`;
}

/** How long a reader of catalogues of several sizes waits for the pages that speak of every mold. */
function growthTable(): string {
  const lines = linesOfBench('reader').filter(({ what }) => /^\/(?!molds\/)/u.test(what));
  const sizes = [...new Set(lines.map(({ n }) => Number(n)))].sort((a, b) => a - b);
  const pages = [...new Set(lines.map(({ what }) => what.replace(/: .*$/u, '')))];
  const value = (n: number, what: string) =>
    Number(lines.find((line) => Number(line.n) === n && line.what === what)?.median);
  const cell = (page: string, n: number) =>
    [
      `${(value(n, `${page}: LCP`) / 1000).toFixed(2)} s`,
      `${value(n, `${page}: INP`)} ms`,
      `${Math.round(value(n, `${page}: on the wire`))} kB`,
    ].join(', ');
  const rows = pages.map((page) => [`\`${page}\``, ...sizes.map((n) => cell(page, n))]);
  return ruled([['', ...sizes.map((n) => `${n} molds`)], ...rows]);
}

/** What a reader of the smallest catalogue waits for, a row a page, the bare page first. */
function readerTable(): string {
  const all = linesOfBench('reader');
  const least = Math.min(...all.map(({ n }) => Number(n)));
  const lines = all.filter(({ n }) => Number(n) === least);
  const value = (page: string, measure: string) =>
    Number(lines.find(({ what }) => what === `${page}: ${measure}`)?.median);
  const measured = lines.filter(({ what }) => what.endsWith(': LCP'));
  const pages = measured.map(({ what }) => what.replace(/: LCP$/u, ''));
  const rows = pages
    .toSorted((a, b) => Number(a.startsWith('/')) - Number(b.startsWith('/')))
    .map((page) => [
      page.startsWith('/') ? `\`${page}\`` : page,
      `${(value(page, 'LCP') / 1000).toFixed(2)} s`,
      value(page, 'CLS').toFixed(3),
      page.startsWith('/') ? `${value(page, 'INP')} ms` : '',
      `${Math.round(value(page, 'on the wire'))} kB`,
    ]);
  const head = ['page', 'largest paint', 'jumps', 'longest answer to a tap or key', 'on the wire'];
  return `${ruled([head, ...rows])}\n\n${measuredOn(lines)}; medians of ${lines[0]?.runs ?? ''} visits.`;
}

const linesOfBench = (name: string) => keptLines().filter(({ bench }) => bench === name);

/** Puts a text between two marks of a document, `<!-- NAME -->` and `<!-- NAME, end -->`. */
async function renew(document: string, name: string, between: string): Promise<void> {
  const text = readFileSync(document, 'utf8');
  const marks = [`<!-- ${name} -->`, `<!-- ${name}, end -->`] as const;
  const [from, to] = marks.map((mark) => text.indexOf(mark));
  if (from === undefined || to === undefined || from < 0 || to < from)
    throw new Error(`${document}: wants the marks ${marks.join(' and ')}`);
  const renewed = `${text.slice(0, from)}${marks[0]}\n\n${between}\n\n${text.slice(to)}`;
  const config = (await resolveConfig(document)) ?? {};
  writeFileSync(document, await format(renewed, { ...config, parser: 'markdown' }));
}

const ended = process.argv.includes('--tables')
  ? []
  : [...SMALL.map((name) => run(`${name}.bench`)), ...SCALE.map((args) => run('scale.bench', args))];
run('plot');
await renew('DEVELOPERS.md', 'scale', scaleTables());
await renew('DEVELOPERS.md', 'growth', growthTable());
await renew('README.md', 'reader', readerTable());
run('compare');
process.exitCode = ended.every(Boolean) ? 0 : 1;
