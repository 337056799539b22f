import { beforeAll, describe, expect, test } from 'vitest';
import { analysisTools } from '../../src/io/analysis-tools.ts';
import { fromSI, toSI } from '../../src/core/quantity/units.ts';
import type { BaitSheet, Comparison } from '../../src/sheet/bait-sheet.ts';
import { baitSheets } from '../../src/sheet/bait-study.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';
import { demo, sheetNamed } from '../support/demo.ts';

let grub: BaitSheet;
let sheet: Sheet;
let tails: Sheet;
beforeAll(async () => {
  const { reading, sheets } = await demo();
  const { catalogue } = reading;
  const only = { ...catalogue, baits: catalogue.baits.filter(({ id }) => id === 'osier-grub') };
  const [found] = await baitSheets(only, sheets, analysisTools('content'));
  grub = found!;
  sheet = sheetNamed({ sheets }, 'osier-grub-6');
  tails = sheetNamed({ sheets }, 'osier-tail-4');
}, 300_000);

const pair = (from: string, to: string): Comparison =>
  grub.comparisons.find((one) => one.from === from && one.to === to)!;
const thou = (metres: number) => fromSI(metres, '[mil_i]');

describe('revisions of the grub, whose drawings differ by ten thousandths in the tail', () => {
  test('every pair is there, the newest first', () => {
    expect(grub.comparisons.map(({ from, to }) => `${from}-${to}`)).toEqual(['b-c', 'a-c', 'a-b']);
  });

  test('the solids show it: ten and twenty thousandths at root and tip', () => {
    for (const [from, to, expected] of [
      ['b', 'c', -10],
      ['a', 'b', -10],
      ['a', 'c', -20],
    ] as const) {
      const [tail] = pair(from, to).parts.changed;
      const changes = tail!.sizes
        .filter(({ label }) => label.startsWith('thickness'))
        .map(({ change }) => thou(toSI(change.value, change.unit)));
      expect(changes.length).toBe(2);
      for (const change of changes) expect(Math.abs(change - expected)).toBeLessThan(0.1);
    }
  });

  test('ratios chain: a to c is a to b times b to c, and stay inside cube and three-halves of the taper', () => {
    const of = (from: string, to: string) => pair(from, to).parts.changed[0]!;
    for (const key of ['stiffness', 'onset'] as const) {
      const chained = of('a', 'b')[key].value * of('b', 'c')[key].value;
      expect(of('a', 'c')[key].value / chained).toBeCloseTo(1, 6);
    }
    const drawn = (id: string) => {
      const { revision } = grub.faces.find((face) => face.revision.id === id)!;
      return revision.sections!.appendages.find(({ name }) => name === 'tail')!.thickness!;
    };
    // The ratio lies between that at the tip and that at the root, as drawn.
    const [b, c] = [drawn('b'), drawn('c')];
    const { stiffness, onset } = of('b', 'c');
    for (const [figure, power] of [
      [stiffness, 3],
      [onset, 1.5],
    ] as const) {
      expect(figure.value).toBeGreaterThan((c.tip / b.tip) ** power * 0.97);
      expect(figure.value).toBeLessThan((c.root / b.root) ** power * 1.03);
    }
  });

  test('in plan nothing has moved; across, the tail has, behind the body', () => {
    const { plan, across } = pair('b', 'c');
    expect(plan.moved).toEqual([]);
    expect(across.moved.length).toBeGreaterThan(0);
    for (const [x] of across.moved.flat()) expect(x).toBeGreaterThan(0.037);
  });

  test('a thinner tail: less volume and mass, less reserve, sooner moving', () => {
    const ratio = (key: string) => {
      const change = pair('a', 'c').figures.find(({ to }) => to.key === key);
      return change!.to.value / change!.from.value;
    };
    for (const key of ['bait.volume', 'bait.mass', 'shot.total', 'fill.reserve.cold', 'action.tail.onset'])
      expect(ratio(key), key).toBeLessThan(1);
    expect(ratio('bait.length')).toBeCloseTo(1, 6);
  });

  test('the words name it, and the water tests stand beside it', () => {
    const { sentences, facts } = pair('b', 'c');
    expect(sentences[0]).toMatch(/^The tail is 10\.0\sthou \/ 0\.25\smm thinner at the root/u);
    expect(sentences[0]).toMatch(
      /It is 0\.\d+ \(0\.\d+ to 0\.\d+\) times as stiff and starts to move at 0\.\d+ \(0\.\d+ to 0\.\d+\) times the speed\.$/u,
    );
    expect(facts).toContainEqual({ label: 'Last water test', from: 'failed', to: 'passed' });
  });
});

test('caliper readings stand beside the solid, and agree', () => {
  const newest = grub.faces.at(-1)!;
  expect(newest.revision.id).toBe('c');
  expect(newest.readings.map(({ agrees, used }) => ({ agrees, used }))).toEqual([
    { agrees: true, used: false },
    { agrees: true, used: false },
  ]);
});

test('the compound goes by the water tests: the medium one still moves at the slow retrieve', () => {
  expect(sheet.action.compound).toMatchObject({ plastisol: { id: 'medium-compound' }, moves: true });
  expect(sheet.figures['action.tail.tested']!.value).toBeCloseTo(20, 6);
});

describe('molds of one bait', () => {
  test('side by side, fewest cavities first, the draft left out', () => {
    expect(grub.variants.molds.map(({ mold }) => mold.id)).toEqual([
      'osier-grub-1',
      'osier-grub-2',
      'osier-tail-4',
      'osier-grub-6',
    ]);
  });

  test('advice names the right one for each wish', () => {
    const advice = grub.variants.advice.join('\n');
    expect(advice).toMatch(/^Smallest injector: Osier Grub, two cavities/mu);
    expect(advice).toMatch(/^Most baits a shot: Osier Grub, six cavities/mu);
    expect(advice).toMatch(/^Least money a cavity: Osier Grub, six cavities, 31\.50 USD/mu);
    expect(advice).toMatch(/^Tails alone.*Osier Grub tails, four cavities/mu);
    expect(advice).toMatch(/^No longer made: Osier Grub, one cavity/mu);
  });

  test('the tail mold makes the rear part: less plastic a cavity, the same tail', () => {
    expect(tails.makes).toMatch(/^rear part, from 0\.709\sin \/ 18\.00\smm behind the nose on/u);
    expect(tails.figures['bait.volume']!.value).toBeLessThan(0.75 * sheet.figures['bait.volume']!.value);
    expect(tails.figures['bait.thinnestFeature']!.value).toBeCloseTo(
      sheet.figures['bait.thinnestFeature']!.value,
      9,
    );
  });
});
