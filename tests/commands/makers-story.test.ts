import { existsSync } from 'node:fs';
import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { demo, sheetNamed } from '../support/demo.ts';
import { runCommand, type Ended } from '../support/run-command.ts';
import { changedCatalogue } from '../support/temporary.ts';

const station = (at: number, half: number) =>
  `        - { at: ${at} mm, width: ${2 * half} mm, above: ${half} mm, below: ${half} mm }`;

/** A worm with a straight tail: only the tail's thickness changes from revision to revision. */
const revision = (id: string, date: string, note: string, thou: number) => `  - id: ${id}
    date: '${date}'
    note: ${note}
    sections:
      stations:
${[station(0, 2), station(12, 4.5), station(60, 4), station(70, 2)].join('\n')}
      appendages:
        - name: tail
          kind: ribbon-tail
          root: { at: 62 mm }
          length: 40 mm
          width: { root: 4 mm, tip: 4 mm }
          thickness: { root: ${thou} thou, tip: ${thou} thou }
`;

const HEAD = `name: Peg
family: straight finesse worm
summary: A worm whose tail is thinned until it swims.
lies: on its side
rigs: [Texas, weightless]
plastisol: plain
revisions:
`;
const A = revision('a', '2026-01-05', 'First drawing.', 90);
const B = revision('b', '2026-01-12', 'Tail thinned by ten thousandths.', 80);
const C = revision('c', '2026-01-19', 'Another ten thousandths off.', 70);

const water = (id: string, date: string, moved: string, passed: boolean) => `date: '${date}'
bait: peg
revision: ${id}
plastisol: plain
colour: white
clarity: clear
rig: Texas
retrieve: 0.4 m/s
features:
  - { name: tail, moved: ${moved} }
passed: ${passed}
seen: well
`;

/** A maker at the bench: files in, commands out. */
async function bench() {
  const folder = await changedCatalogue({ 'baits/peg.yaml': HEAD + A });
  await rm(join(folder, 'molds/peg-draft.yaml'));
  const settings = { CONTENT_DIR: folder, OUT_DIR: join(folder, '..', 'site') };
  return {
    folder,
    write: (name: string, text: string) => writeFile(join(folder, name), text),
    change: async (name: string, from: string, to: string) => {
      const before = await readFile(join(folder, name), 'utf8');
      expect(before).toContain(from);
      await writeFile(join(folder, name), before.replaceAll(from, to));
    },
    run: (name: string, ...args: string[]): Promise<Ended> => runCommand(name, settings, args),
  };
}

const MOLD = 'molds/peg-2.yaml';
const FIRST_TEST = 'trials/peg-a-2026-01-20.yaml';

test('three revisions, two water tests, one wrong cavity, publish, revise, publish', async () => {
  const maker = await bench();
  await maker.change(MOLD, 'status: final', 'status: development');
  await maker.write(FIRST_TEST, water('a', '2026-01-08', 'did not move', false));

  // The first tail fails in the water: that mold may not be called final.
  await maker.change(MOLD, 'status: development', 'status: final');
  const failed = await maker.run('check');
  expect(failed.code).toBe(1);
  expect(failed.stderr).toMatch(
    /peg-2\.yaml:7:\d+ the last water test of revision a, peg-a-2026-01-20 of 2026-01-08, failed — change the bait/u,
  );

  // Nor is it built: a site without it is not made in its place either.
  const site = join(maker.folder, '..', 'site');
  const refused = await maker.run('build');
  expect(refused.code).toBe(1);
  expect(refused.stderr).toMatch(/of 2026-01-08, failed — change the bait/u);
  expect(refused.stderr).toMatch(
    /a final mold that the bench does not back is not built\n.*not built; the last site is as it was/u,
  );
  expect(existsSync(site)).toBe(false);

  // Two more revisions; the third swims, but one cavity still carries the second.
  await maker.write('baits/peg.yaml', HEAD + A + B + C);
  await maker.write('trials/peg-c.yaml', water('c', '2026-01-22', 'moved', true));
  await maker.change(MOLD, 'revision: a, x: 20 mm, y: 25 mm', 'revision: c, x: 20 mm, y: 25 mm');
  await maker.change(MOLD, 'revision: a, x: 20 mm, y: 50 mm', 'revision: b, x: 20 mm, y: 50 mm');
  const mixed = await maker.run('check');
  expect(mixed.code).toBe(1);
  expect(mixed.stderr).toMatch(/cavity 1 has c, cavity 2 has b — recut that cavity/u);
  expect(mixed.stderr).toMatch(/revision b of peg has no water test — swim it/u);
  expect((await maker.run('publish', '--all', '--note', 'Too early.')).code).toBe(1);

  // Recut: it passes, and is published.
  await maker.change(MOLD, 'revision: b, x: 20 mm, y: 50 mm', 'revision: c, x: 20 mm, y: 50 mm');
  expect((await maker.run('check')).code).toBe(0);
  const noNote = await maker.run('publish', 'peg-2');
  expect(noNote).toMatchObject({
    code: 1,
    stderr: expect.stringContaining('--note: say in a sentence') as string,
  });
  const lost = await maker.run('publish', 'peg-9', '--note', 'Not yet.');
  expect(lost.stderr).toContain('peg-9 is not a final or retired mold of this catalogue');
  const first = await maker.run('publish', 'peg-2', '--note', 'First published.', '--date', '2026-02-01');
  expect(first).toMatchObject({ code: 0, stdout: 'peg-2: published for the first time\n' });

  // A wider sprue moves the shot: the check tells old and new, and fails until it is accepted.
  await maker.change(MOLD, 'mouth: 10 mm, end: 7 mm', 'mouth: 12 mm, end: 8 mm');
  const moved = await maker.run('check');
  expect(moved.code).toBe(1);
  expect(moved.stderr).toMatch(/^peg-2: \d+ published figures would move$/mu);
  expect(moved.stderr).toMatch(/^ {2}[^\n]*\(shot\.total\): [\d.]+\sfl oz.* → [\d.]+\sfl oz/mu);
  expect(moved.stderr).toMatch(/accept it: npm run publish -- peg-2 --note "why"/u);
  const second = await maker.run('publish', 'peg-2', '--note', 'Sprue widened.', '--date', '2026-03-01');
  expect(second.code).toBe(0);
  expect((await maker.run('check')).code).toBe(0);

  // The sheet tells the story.
  const { sheets } = await demo(maker.folder);
  const sheet = sheetNamed({ sheets }, 'peg-2');
  expect(sheet.ledger?.entries.map(({ note }) => note)).toEqual(['First published.', 'Sprue widened.']);
  const answer = sheet.answers.find(({ key }) => key === 'which-revision');
  expect(answer?.short).toMatch(/revision C of 2026-01-19, last changed 2026-03-01\. It is the newest\./u);
  expect(sheet.trials.trials.map(({ trial, after }) => [trial.passed, after?.id ?? null])).toEqual([
    [false, 'b'],
    [true, null],
  ]);
}, 300_000);

test('a damaged record is named, and nothing is written over it', async () => {
  const maker = await bench();
  await mkdir(join(maker.folder, 'published'));
  await maker.write('published/peg-2.json', '{ "format": "partline-published/1" }\n');
  const ended = await maker.run('check');
  expect(ended.code).toBe(1);
  expect(ended.stderr).toMatch(
    /published\/peg-2\.json:1:1 "entries": .* — bring it back from version control/u,
  );
  expect((await maker.run('publish', '--all', '--note', 'Anew.')).code).toBe(1);
  expect(await readFile(join(maker.folder, 'published/peg-2.json'), 'utf8')).toBe(
    '{ "format": "partline-published/1" }\n',
  );
});
