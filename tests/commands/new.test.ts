import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { Refusal, type OptionName } from '../../src/commands/new/draft.ts';
import { writeNew } from '../../src/commands/new/write.ts';
import { inspected } from '../../src/commands/inspect.ts';
import { folderDigest } from '../support/folder-digest.ts';
import { runCommand } from '../support/run-command.ts';
import { binaryStl, spindle } from '../support/solids.ts';
import { temporaryFolder } from '../support/temporary.ts';

vi.spyOn(process.stdout, 'write').mockReturnValue(true);

type Options = Partial<Record<OptionName, string>>;

const write = (folder: string, kind: string, id: string, options: Options = {}): Promise<boolean> =>
  writeNew(kind, { id, folder, options, today: '2026-03-14' });

/** Why an entry is not written, in one line. */
async function refusal(...[folder, kind, id, options]: Parameters<typeof write>): Promise<string> {
  const error: unknown = await write(folder, kind, id, options).then(
    () => undefined,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(Refusal);
  return (error as Refusal).message;
}

const read = (folder: string, name: string): Promise<string> => readFile(join(folder, name), 'utf8');

/** A closed spindle, 5 in long and 0.6 in thick, in inches, lying along y with its parting plane at x = 2. */
async function spindleFile(folder: string): Promise<string> {
  const inch = 0.0254;
  const mesh = spindle(5 * inch, (share) => 0.3 * inch * Math.sin(Math.PI * share), 24, 32);
  const turned = mesh.positions.map((_, i) => {
    const at = i - (i % 3);
    return (
      [(mesh.positions[at + 1] ?? 0) + 2 * inch, mesh.positions[at] ?? 0, -(mesh.positions[at + 2] ?? 0)][
        i % 3
      ] ?? 0
    );
  });
  await mkdir(folder, { recursive: true });
  const path = join(folder, 'Spindle Draft.STL');
  await writeFile(path, binaryStl({ positions: turned, triangles: mesh.triangles }, 1 / inch));
  return path;
}

test(
  'an empty folder becomes a catalogue that passes the check, one command an entry',
  { timeout: 60_000 },
  async () => {
    const folder = join(await temporaryFolder(), 'mine');
    const mesh = await spindleFile(join(folder, '..', 'drawings'));
    const steps: [string, string, Options?][] = [
      ['shop', 'quiet-bench'],
      ['compound', 'soft-compound'],
      ['injector', 'hand-4'],
      ['hook', 'offset'],
      ['bait', 'peg'],
      ['bait', 'spindle', { from: mesh, unit: 'in', nose: '-y' }],
      ['mold', 'peg-6'],
      ['mold', 'spindle-2'],
      ['trial', 'peg-first'],
    ];
    for (const [kind, id, options] of steps)
      expect([kind, await write(folder, kind, id, options)]).toEqual([kind, true]);
    const { reading, problems } = await inspected(folder);
    expect(problems).toEqual([]);
    expect(reading?.catalogue.molds.map(({ id, cavities }) => [id, cavities.length])).toEqual([
      ['peg-6', 6],
      ['spindle-2', 2],
    ]);
    const spindleText = await read(folder, 'baits/spindle.yaml');
    expect(spindleText).toContain('file: meshes/spindle.stl\n      unit: in\n      length: 127 mm');
    expect(spindleText).toContain("axes: { nose: '-y', out: '+x' }\n      parting: 50.8 mm");
    // The volume of a spindle of radius r·sin: π r² L / 2, less the corners of 32 facets and 24 stations.
    const volume = Number(/([\d.]+) mL/u.exec(spindleText)?.[1]);
    expect(volume / ((Math.PI * 0.762 ** 2 * 12.7) / 2)).toBeCloseTo(0.99, 1);
    expect(await read(folder, 'trials/peg-first.yaml')).toContain('- { name: tail, moved: moved }');
  },
);

test.each([
  ['compound', 'plastisols'],
  ['hook', 'hooks'],
  ['injector', 'injectors'],
])('%s: the first line leads an editor to the schema', async (kind, collection) => {
  const folder = await temporaryFolder();
  await write(folder, kind, 'one');
  const [first = ''] = (await read(folder, `${collection}/one.yaml`)).split('\n', 1);
  const path = first.replace('# yaml-language-server: $schema=', '');
  expect(resolve(folder, collection, path)).toBe(resolve('public', 'schema', `${collection}.json`));
  expect(await readdir('public/schema')).toContain(`${collection}.json`);
});

/** A catalogue of a shop and one compound. */
async function started(): Promise<string> {
  const folder = join(await temporaryFolder(), 'mine');
  for (const [kind, id] of [
    ['shop', 'bench'],
    ['compound', 'soft'],
  ] as const)
    await write(folder, kind, id);
  return folder;
}

describe('what is not written', () => {
  test('what is there already, and nothing beside it', async () => {
    const folder = await started();
    const before = await folderDigest(folder);
    expect(await refusal(folder, 'shop', 'other')).toMatch(
      /shop\.yaml is there already — choose another id/u,
    );
    expect(await refusal(folder, 'compound', 'soft')).toMatch(/soft\.yaml is there already — /u);
    expect(await folderDigest(folder)).toBe(before);
    const mesh = await spindleFile(join(folder, '..', 'other'));
    await mkdir(join(folder, 'meshes'));
    await writeFile(join(folder, 'meshes', 'rod.stl'), 'someone else');
    expect(await refusal(folder, 'bait', 'rod', { from: mesh, unit: 'in' })).toMatch(
      /rod\.stl is there already/u,
    );
    expect(await read(folder, 'meshes/rod.stl')).toBe('someone else');
    expect(await readdir(join(folder, 'baits'))).toEqual([]);
  });

  test.each<[string, string, Options, RegExp]>([
    ['boat', 'x', {}, /^"boat" cannot be made — write npm run new -- bait\|mold/u],
    ['hook', 'Wide Gap', {}, /^"Wide Gap" cannot be an id — name the file with lower-case/u],
    ['hook', 'nul', {}, /^"nul" cannot be an id/u],
    ['hook', '../out', {}, /^"\.\.\/out" cannot be an id/u],
    ['mold', 'x', {}, /^there are no injectors yet — write one first: npm run new -- injector ID$/u],
    ['trial', 'x', {}, /^there are no baits yet — write one first: npm run new -- bait ID$/u],
    ['bait', 'x', { family: 'eel' }, /^--family: "eel" is not known — choose from: paddle-tail minnow/u],
    [
      'bait',
      'x',
      { plastisol: 'sft' },
      /^--plastisol: there is no "sft" in plastisols — choose from: soft$/u,
    ],
    ['bait', 'x', { from: 'gone.stl', unit: 'mm' }, /^gone\.stl: there is no such file; check its path — /u],
    ['bait', 'x', { from: 'part.step' }, /^part\.step: STEP files are not read; export STL/u],
    [
      'bait',
      'x',
      { from: 'content/meshes/reed-minnow.stl' },
      /carries no unit; .* \(--unit mm makes it 127\.03 mm long\) — correct it/u,
    ],
    [
      'bait',
      'x',
      { from: 'content/meshes/reed-minnow.stl', unit: 'in' },
      /^content\/meshes\/reed-minnow\.stl is 3226\.\d+ mm long — correct --unit$/u,
    ],
    [
      'bait',
      'x',
      { from: 'content/meshes/reed-minnow.stl', unit: 'mm', nose: '-x', out: '+x' },
      /^--out: is the axis of the nose — name another axis$/u,
    ],
  ])('%s %s %o', async (kind, id, options, expected) => {
    expect(await refusal(await started(), kind, id, options)).toMatch(expected);
  });

  test('anything on top of a catalogue with mistakes', async () => {
    const broken = join(await temporaryFolder(), 'mine');
    await write(broken, 'shop', 'bench');
    await writeFile(join(broken, 'shop.yaml'), 'name: Bench\n');
    expect(await refusal(broken, 'bait', 'x')).toMatch(
      /^the catalogue has mistakes — mend them first: .*"contact" is missing/u,
    );
  });
});

test('the command says how it is written, without a trace', async () => {
  const ended = await runCommand('new', { CONTENT_DIR: await temporaryFolder() });
  expect(ended).toEqual({
    code: 1,
    stdout: '',
    stderr:
      'what, and under which id? — write npm run new -- bait|mold|trial|compound|hook|injector|shop ID\n',
  });
});
