import { beforeAll, describe, expect, test, vi } from 'vitest';
import { analysisTools } from '../../src/io/analysis-tools.ts';
import { readCatalogue } from '../../src/io/catalogue.ts';
import { problemLine } from '../../src/io/problem-text.ts';
import type { EntryProblem } from '../../src/schema/problem.ts';
import { sheets, type Analysed } from '../../src/sheet/analyse.ts';
import { gateProblems, successorProblems } from '../../src/sheet/gate.ts';
import { changedCatalogue, TINY, type Changes } from '../support/temporary.ts';

vi.setConfig({ testTimeout: 60_000 });

const MOLD = 'molds/peg-2.yaml';
const TRIAL = 'trials/peg-a-2026-01-20.yaml';

async function read(folder: string) {
  const reading = await readCatalogue(folder);
  if ('problems' in reading) throw new Error(reading.problems.map(problemLine).join('\n'));
  return reading.catalogue;
}

async function refusals(changes: Changes): Promise<readonly EntryProblem[]> {
  const folder = await changedCatalogue(changes);
  const { refusals: found, problems } = await sheets(await read(folder), analysisTools(folder));
  expect(problems).toEqual([]);
  return found;
}

const text = ({ id, path, message, remedy }: EntryProblem) =>
  `${id} ${path.join('.')}: ${message} — ${remedy}`;

const SECOND = `  - id: b
    date: '2026-02-01'
    note: Tail thinned.
    sections:
      stations:
        - { at: 0 mm, width: 3 mm, above: 1.5 mm, below: 1.5 mm }
        - { at: 60 mm, width: 8 mm, above: 4 mm, below: 4 mm }
        - { at: 100 mm, width: 2 mm, above: 1 mm, below: 1 mm }
`;
const FIN = `        - { at: 100 mm, width: 2.4 mm, above: 1.2 mm, below: 1.2 mm }
      appendages:
        - name: tail
          kind: fin
          root: { at: 92 mm }
          length: 80 mm
          width: { root: 3 mm, tip: 3 mm }
          thickness: { root: 0.35 mm, tip: 0.3 mm }
`;
/** A fin that comes short in a cold mold and fills in a warmed one. */
const SLENDER = FIN.replace('80 mm', '55 mm').replace(
  'root: 0.35 mm, tip: 0.3 mm',
  'root: 1.45 mm, tip: 1.4 mm',
);

/** Blocks that hold the longer bait. */
const LARGE: Changes = {
  [MOLD]: [['length: 140 mm', 'length: 230 mm']],
  'molds/peg-draft.yaml': [['length: 140 mm', 'length: 230 mm']],
};
/** The same, and customers are told to warm the mold first. */
const warmedTo = (temperature: string): Changes[string] => [
  ['length: 140 mm', 'length: 230 mm'],
  ['vents:', `warmTo: ${temperature}\nvents:`],
];
const LAST = '        - { at: 100 mm, width: 2.4 mm, above: 1.2 mm, below: 1.2 mm }\n';

const AGAIN = `date: '2026-01-25'
bait: peg
revision: a
plastisol: plain
colour: white
clarity: clear
rig: Texas
retrieve: 0.3 m/s
passed: false
`;

describe('a mold may not be called final', () => {
  test.each<[string, Changes, RegExp]>([
    [
      'while its cavities carry different revisions',
      {
        'baits/peg.yaml': [[LAST, `${LAST}${SECOND}`]],
        [MOLD]: [['{ revision: a, x: 20 mm, y: 50 mm }', '{ revision: b, x: 20 mm, y: 50 mm }']],
      },
      /^peg-2 cavities\.1\.revision: a final mold carries one revision: cavity 1 has a, cavity 2 has b — recut that cavity/u,
    ],
    [
      'while the last water test of its revision failed',
      { [TRIAL]: [['passed: true', 'passed: false']] },
      /^peg-2 cavities\.0\.revision: the last water test of revision a, peg-a-2026-01-20 of 2026-01-20, failed — change the bait and test/u,
    ],
    [
      'when an earlier test passed and the last one failed',
      { 'trials/peg-a-again.yaml': AGAIN },
      /last water test of revision a, peg-a-again of 2026-01-25, failed/u,
    ],
    [
      'without a water test of its revision',
      {
        'baits/peg.yaml': [[LAST, `${LAST}${SECOND}`]],
        [TRIAL]: [['revision: a', 'revision: b']],
      },
      /^peg-2 cavities\.0\.revision: revision a of peg has no water test — swim it and record the test in trials\//u,
    ],
    [
      'while a thin part comes short at nominal in every block that still sets baits',
      { 'baits/peg.yaml': [[LAST, FIN]], ...LARGE },
      /^peg-2 status: a thin part comes short at nominal, in a cold mold and in the warmest .*: The tail .* — thicken or shorten it/u,
    ],
    [
      'while a thin part comes short in a cold mold and the sheet tells of no other',
      { 'baits/peg.yaml': [[LAST, SLENDER]], ...LARGE },
      /^peg-2 status: the tail comes short at nominal in a cold mold, and the entry tells customers of no other — write `warmTo: 130 °F` if you shoot it so warm yourself \(it fills from 1[12]\d.°F/u,
    ],
    [
      'while it comes short in the very block that the sheet tells to warm',
      { 'baits/peg.yaml': [[LAST, SLENDER]], ...LARGE, [MOLD]: warmedTo('100 °F') },
      /^peg-2 warmTo: the tail comes short at nominal in a mold at 100.°F \/ 38.°C, as `warmTo` tells customers — write `warmTo: 130 °F`/u,
    ],
    [
      'while the scale contradicts the computed mass',
      { [MOLD]: [['vents:', 'measured: { mass: 40 g }\nvents:']] },
      /^peg-2 measured\.mass: one bait weighs 40\.00\sg, outside the computed [\d.]+\sg \([\d.]+ to [\d.]+\) — weigh again/u,
    ],
  ])('%s', async (_, changes, expected) => {
    const found = await refusals(changes);
    expect(found.map(text)).toContainEqual(expect.stringMatching(expected));
  });

  test('and may, when nothing of this holds', async () => {
    expect(await refusals({})).toEqual([]);
  });

  test('and may, when the tail fills in the block that customers are told to warm, which all of its sheet then says', async () => {
    const folder = await changedCatalogue({
      'baits/peg.yaml': [[LAST, SLENDER]],
      ...LARGE,
      [MOLD]: warmedTo('130 °F'),
    });
    const found = await sheets(await read(folder), analysisTools(folder));
    expect([found.problems, found.refusals]).toEqual([[], []]);
    const sheet = found.sheets.find(({ id }) => id === 'peg-2')!;
    const { cold } = sheet.verdicts;
    expect(cold.code).toBe('needs a warm mold');
    expect(cold.sentence).toMatch(
      /^Warm the mold to 130\s°F \/ 54\s°C before the first shot, on a hot plate\. There it should fill; in a cold mold the tail comes short\. With stiff plastic/u,
    );
    const told = {
      value: sheet.figures['fill.mold.first']!.value,
      reserve: sheet.figures['fill.reserve.first']!.value,
    };
    expect(told.value).toBeCloseTo(((130 - 32) * 5) / 9, 9);
    expect(told.reserve).toBeGreaterThan(1);
    expect(sheet.figures['fill.reserve.cold']!.value).toBeLessThan(1);
    // A block that starts warmer than a usual run keeps a bait hot for longer: as far as one still sets, 2 °C under 50 °C.
    expect(sheet.figures['heat.demoldTime']!.inputs.find(({ name }) => name === 'mold')!.high).toBe(48);
    for (const text of [
      sheet.cautions.find(({ key }) => key === 'hot-block')!.hazard,
      sheet.answers.find(({ key }) => key === 'shoot-cold')!.short,
      sheet.answers.find(({ key }) => key === 'short-tips')!.short,
      sheet.faults
        .find(({ key }) => key === 'fault-short-shot')!
        .causes.map(({ cure }) => cure)
        .join(' '),
    ])
      expect(text).toContain('130\u00a0°F / 54\u00a0°C');
    expect(sheet.warnings.join(' ')).not.toContain('comes short');
  });

  test('a draft is not asked', async () => {
    expect(
      await refusals({
        [TRIAL]: [['passed: true', 'passed: false']],
        [MOLD]: [['status: final', 'status: proof']],
      }),
    ).toEqual([]);
  });
});

describe('cautions that the figures call for', () => {
  let tiny: Analysed;
  let catalogue: Awaited<ReturnType<typeof read>>;
  beforeAll(async () => {
    catalogue = await read(TINY);
    tiny = await sheets(catalogue, analysisTools(TINY));
  }, 60_000);

  test('every one that is taken away is missed', () => {
    const sheet = tiny.sheets.find(({ id }) => id === 'peg-2')!;
    expect(sheet.cautions.length).toBeGreaterThan(7);
    for (const { key } of sheet.cautions) {
      const without = { ...sheet, cautions: sheet.cautions.filter((caution) => caution.key !== key) };
      const found = gateProblems(catalogue, [without]).map(({ message }) => message);
      expect(found, key).toEqual([expect.stringContaining(`the sheet lacks the caution "${key}"`)]);
    }
  });

  test('a cool block needs no caution of its heat', () => {
    const sheet = tiny.sheets.find(({ id }) => id === 'peg-2')!;
    const steady = sheet.figures['heat.blockSteady']!;
    const cool = {
      ...sheet,
      figures: { ...sheet.figures, 'heat.blockSteady': { ...steady, value: 30, low: 25, high: 35 } },
      cautions: sheet.cautions.filter(({ key }) => key !== 'hot-block'),
    };
    expect(gateProblems(catalogue, [cool])).toEqual([]);
  });
});

test('a retired mold points on only to one that can be bought', async () => {
  const folder = await changedCatalogue({
    [MOLD]: [['status: final', 'status: retired\nreplacedBy: peg-draft']],
  });
  expect(successorProblems(await read(folder)).map(text)).toEqual([
    'peg-2 replacedBy: a retired mold points on to one that can be bought, and peg-draft is development — name a final mold, or leave `replacedBy` out until it is final',
  ]);
});
