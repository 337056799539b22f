// Runs every bench and renews what is kept of this machine: results, plot, and the table in DEVELOPERS.md; then compares
// with the last commit. Hours on two cores; --quick takes the smallest catalogue only, --tables runs nothing.
// Run: npx node tests/bench/all.ts [--quick | --tables]
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';
import { digits, keptLines, processor, type Line } from './harness.ts';

const quick = process.argv.includes('--quick');
const SMALL = ['mesh', 'section', 'fill', 'picture', 'study', 'card'];
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

const DOCUMENT = 'DEVELOPERS.md';
const MARKS = ['<!-- scale -->', '<!-- scale, end -->'] as const;

function table(lines: readonly Line[]): string {
  const sizes = [...new Set(lines.map(({ n }) => Number(n)))].sort((a, b) => a - b);
  const whats = [...new Set(lines.map(({ what, unit }) => `${what} [${unit}]`))];
  const cell = (what: string, n: number) =>
    lines.find((line) => `${line.what} [${line.unit}]` === what && Number(line.n) === n)?.median ?? '';
  const rows = whats.map((what) => [what, ...sizes.map((n) => cell(what, n))]);
  const head = ['', ...sizes.map((n) => `${n} molds`)];
  return [head, head.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');
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
  const head = ['100 000 molds', 'derived', `a mold more, measured ${span}`];
  return [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}

/** Puts the kept results of the scale bench between the marks in the document. */
async function renewTable(): Promise<void> {
  const text = readFileSync(DOCUMENT, 'utf8');
  const [from, to] = MARKS.map((mark) => text.indexOf(mark));
  if (from === undefined || to === undefined || from < 0 || to < from)
    throw new Error(`${DOCUMENT}: wants the marks ${MARKS.join(' and ')}`);
  const lines = keptLines().filter(({ bench }) => bench === 'scale');
  const { node = '', cores = '', commit = '' } = lines[0] ?? {};
  const words = `${processor}, ${cores} cores, Node ${node}, commit ${commit}; one run each.`;
  const renewed = `${text.slice(0, from)}${MARKS[0]}\n\n${table(lines)}\n\n${words}\n\n${derived(lines)}\n\n${text.slice(to)}`;
  const config = (await resolveConfig(DOCUMENT)) ?? {};
  writeFileSync(DOCUMENT, await format(renewed, { ...config, parser: 'markdown' }));
}

const ended = process.argv.includes('--tables')
  ? []
  : [...SMALL.map((name) => run(`${name}.bench`)), ...SCALE.map((args) => run('scale.bench', args))];
run('plot');
await renewTable();
run('compare');
process.exitCode = ended.every(Boolean) ? 0 : 1;
