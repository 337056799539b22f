// Runs every bench and renews what is kept of this machine: results, plot, and the table in DEVELOPERS.md; then compares
// with the last commit. Hours on two cores; --quick takes the smallest catalogue only.
// Run: npx node tests/bench/all.ts [--quick]
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';
import { digits, keptLines, processor, type Line } from './harness.ts';

const quick = process.argv.includes('--quick');
const SMALL = ['mesh', 'section', 'fill', 'picture', 'study'];
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

/** What 100 000 molds would take, from the largest catalogue that was built whole. */
function derived(lines: readonly Line[]): string {
  const built = lines.filter(({ what }) => what === 'cold build: core a mold').map(({ n }) => Number(n));
  const n = Math.max(...built);
  const value = (what: string) =>
    Number(lines.find((line) => line.what === what && Number(line.n) === n)?.median);
  const each = (what: string) => value(what) / n;
  const [analysis, pages] = [value('analysis: core a mold'), value('pages: core a mold')];
  const hours = (seconds: number) => `${digits((seconds * FARM) / 3600)} core hours`;
  const rows = [
    ['analysis', hours(analysis), `${digits(analysis)} s of core a mold × 100 000`],
    ['pages, pictures, cards', hours(pages), `${digits(pages)} s a mold × 100 000`],
    [
      'cache',
      `${digits((each('disk of the cache') * FARM) / 1e3)} GB`,
      `${digits(each('disk of the cache'))} MB a mold`,
    ],
    [
      'site',
      `${digits((each('disk of the site') * FARM) / 1e3)} GB`,
      `${digits(each('disk of the site'))} MB a mold`,
    ],
    ['files', digits(each('files of the site') * FARM), `${digits(each('files of the site'))} a mold`],
    [
      'catalogue page as it is',
      `${digits((each('/index.html') * FARM) / 1e3)} MB`,
      `${digits(each('/index.html'))} kB a mold`,
    ],
    [
      'search index as it is',
      `${digits((each('/search.json') * FARM) / 1e3)} MB`,
      `${digits(each('/search.json'))} kB a mold`,
    ],
  ];
  const head = ['100 000 molds', 'derived', `measured at ${n} molds`];
  return [head, head.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');
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

const ended = [
  ...SMALL.map((name) => run(`${name}.bench`)),
  ...SCALE.map((args) => run('scale.bench', args)),
];
run('plot');
await renewTable();
run('compare');
process.exitCode = ended.every(Boolean) ? 0 : 1;
