import { beforeAll, describe, expect, test } from 'vitest';
import { planAnswer } from '../../src/core/plan/answer.ts';
import { freshPlan } from '../../src/core/plan/plan-state.ts';
import { printed } from '../../src/core/quantity/print.ts';
import { toSI } from '../../src/core/quantity/units.ts';
import { hookIndex } from '../../src/core/rigging/hook-size.ts';
import { planData } from '../../src/sheet/plan-data.ts';
import { REQUIRED_FIGURES, type Sheet } from '../../src/sheet/sheet.ts';
import { specOf, specSchema } from '../../src/sheet/spec.ts';
import { demo, sheetNamed } from '../support/demo.ts';

let all: Awaited<ReturnType<typeof demo>>;
beforeAll(async () => {
  all = await demo();
}, 120_000);

const value = (sheet: Sheet, key: string) => sheet.figures[key]?.value ?? NaN;
const words = (text: string) => text.split(/\s+/u).filter(Boolean).length;

describe('every sheet of the demo', () => {
  test('there are eight families, and one bait in two molds', () => {
    expect(new Set(all.sheets.map(({ bait }) => bait.family)).size).toBe(8);
    expect(all.sheets.filter(({ bait }) => bait.id === 'osier-grub').length).toBeGreaterThanOrEqual(2);
    expect(all.problems).toEqual([]);
  });

  test('has every required figure, ordered low ≤ value ≤ high, with basis and source', () => {
    for (const { id, figures } of all.sheets) {
      for (const key of REQUIRED_FIGURES) expect(figures[key], `${id} ${key}`).toBeDefined();
      for (const figure of Object.values(figures)) {
        expect(figure.low <= figure.value && figure.value <= figure.high, `${id} ${figure.key}`).toBe(true);
        expect(figure.basis.length, `${id} ${figure.key}`).toBeGreaterThan(20);
        expect(figure.sources.length, `${id} ${figure.key}`).toBeGreaterThan(0);
      }
    }
  });

  test('its shot is the sum of its parts', () => {
    for (const sheet of all.sheets) {
      const parts =
        sheet.mold.cavities.length * value(sheet, 'shot.perCavity') +
        value(sheet, 'shot.runner') +
        value(sheet, 'shot.topOff');
      expect(value(sheet, 'shot.total')).toBeCloseTo(parts, 9);
    }
  });

  test('one cavity holds the volume of the bait', () => {
    for (const sheet of all.sheets) {
      expect(value(sheet, 'shot.perCavity')).toBeCloseTo(value(sheet, 'bait.volume'), 9);
    }
  });

  test('short answers have at most 60 words, and every figure that an answer names exists', () => {
    for (const { id, answers, figures } of all.sheets) {
      expect(answers.map(({ key }) => key)).toEqual(
        expect.arrayContaining(['shoot-cold', 'how-much-plastic', 'how-hot']),
      );
      for (const answer of answers) {
        expect(words(answer.short), `${id} ${answer.key}`).toBeLessThanOrEqual(60);
        for (const key of answer.figures) expect(figures[key], `${id} ${answer.key} ${key}`).toBeDefined();
      }
    }
  });

  test('no printed sentence holds a broken value', () => {
    for (const { verdicts, answers, cautions } of all.sheets) {
      const text = JSON.stringify([verdicts, answers, cautions]);
      expect(text).not.toMatch(/NaN|Infinity|undefined|null|\[object/u);
    }
  });

  test('the machine-readable twin fits its schema and carries the same numbers', () => {
    for (const sheet of all.sheets) {
      const spec = specSchema.parse(JSON.parse(JSON.stringify(specOf(sheet))));
      for (const [key, figure] of Object.entries(spec.figures)) {
        expect(Math.abs(figure.value - value(sheet, key))).toBeLessThanOrEqual(
          1e-11 * Math.abs(value(sheet, key)),
        );
      }
    }
  });
});

describe('cautions', () => {
  test('each hazard of hot plastisol has its caution on every sheet', () => {
    const hazards = [
      'no-water',
      'hot-plastisol',
      'overheating',
      'fire',
      'clamp-first',
      'wait-to-open',
      'hot-block',
      'data-sheet-first',
    ];
    for (const { id, cautions } of all.sheets) {
      expect(
        cautions.map(({ key }) => key),
        id,
      ).toEqual(expect.arrayContaining(hazards));
    }
  });

  test('a burn by hot plastisol is never below WARNING, and says first aid', () => {
    for (const { cautions } of all.sheets) {
      const burn = cautions.find(({ key }) => key === 'hot-plastisol');
      expect(['WARNING', 'DANGER']).toContain(burn?.signal);
      expect(burn?.avoid.join(' ')).toMatch(/20 minutes.*Do not peel/u);
    }
  });
});

describe('rigs', () => {
  test('each rig that a hook fits has its best size between the smallest and the largest that will do', () => {
    for (const { id, rigs, bestHook } of all.sheets) {
      expect(rigs[0]?.best, id).toBe(bestHook ?? undefined);
      for (const { rig, from, to, best } of rigs) {
        const order = [from, best.size, to].map(hookIndex);
        expect(
          [...order].sort((a, b) => a - b),
          `${id} ${rig}`,
        ).toEqual(order);
      }
    }
  });

  test('the clearance is the gape less half the body at the point, and every station lies on the bait', () => {
    for (const sheet of all.sheets) {
      for (const { best, stations, form } of sheet.rigs) {
        const gape = Math.hypot(form.point[0] - form.foot[0], form.point[1] - form.foot[1]);
        expect(gape - best.fit.squeezed.value).toBeCloseTo(best.fit.clearance.value, 9);
        for (const { key } of stations) {
          expect(value(sheet, key), `${sheet.id} ${key}`).toBeGreaterThanOrEqual(0);
          expect(value(sheet, key)).toBeLessThan(value(sheet, 'bait.length'));
        }
      }
    }
  });

  test('a tail on a jig is cut ahead of its tail; a bait rigged whole is not cut', () => {
    const grub = sheetNamed(all, 'osier-grub-6');
    const tail = grub.geometry.features.find(({ kind }) => kind === 'curl-tail')!.stations[0]!.at[0];
    expect(value(grub, 'rig.tail-on-a-jig.trim') / 1e3).toBeLessThan(tail);
    expect(value(grub, 'rig.tail-on-a-jig.point') / 1e3).toBeLessThan(tail);
    expect(grub.figures['rig.texas.trim']).toBeUndefined();
  });
});

test('a mold of tails is rigged on a jig alone, and shot in one colour', () => {
  const tails = sheetNamed(all, 'osier-tail-4');
  expect(new Set(tails.hooks.map(({ rig }) => rig))).toEqual(new Set(['tail on a jig']));
  expect(tails.plan.split).toBeUndefined();
});

describe('floating', () => {
  test('salt makes it heavier, hollow glass lighter; the first row is the verdict', () => {
    for (const { id, floating, verdicts } of all.sheets) {
      const [own, salted, saltier, glass, glassier] = floating.map(({ density }) => density.value);
      const order = [glassier!, glass!, own!, salted!, saltier!];
      expect(
        [...order].sort((a, b) => a - b),
        id,
      ).toEqual(order);
      expect(floating[0]?.cells[0]?.code).toBe(verdicts.float.code);
    }
  });

  test('in salt water nothing sinks faster than in fresh, and a weight never slows it', () => {
    for (const { id, floating } of all.sheets) {
      for (const { name, cells } of floating) {
        const speed = (water: string, load: string) =>
          cells.find((cell) => cell.water === water && cell.load === load)?.speed?.value ?? 0;
        for (const load of ['bare', 'hooked', 'weighted']) {
          expect(speed('salt', load), `${id} ${name} ${load}`).toBeLessThanOrEqual(speed('fresh', load));
        }
        expect(speed('fresh', 'weighted')).toBeGreaterThan(speed('fresh', 'hooked'));
      }
    }
  });
});

describe('planner', () => {
  test('both colours of a shot are the shot', () => {
    const minnow = sheetNamed(all, 'reed-minnow-2');
    const parts = value(minnow, 'shot.colour-ahead') + value(minnow, 'shot.colour-behind');
    expect(parts).toBeCloseTo(value(minnow, 'shot.total'), 9);
  });

  test('the planner’s numbers are the sheet’s batches when nothing is added, melted again or left', () => {
    for (const sheet of all.sheets) {
      const data = planData(all.reading.catalogue, [{ ...sheet, plan: { ...sheet.plan, warmUps: 0 } }]);
      const fresh = freshPlan(data);
      for (const { baits, shots, compound } of sheet.batches) {
        const { plan } = planAnswer(
          { baits: { [sheet.id]: `${baits}` }, fields: { ...fresh.fields, heel: '' } },
          data,
        );
        expect(plan?.shots, `${sheet.id} ${baits}`).toBe(shots);
        expect((plan?.measured.liquid.value ?? NaN) * 1e6).toBeCloseTo(compound.value, 6);
      }
    }
  });
});

// Common practice with no source: what a pourer would hold a sheet against.
describe('trade facts', () => {
  test('330 °F is an ordinary shooting temperature for a medium compound', () => {
    const sheet = sheetNamed(all, 'osier-grub-2');
    const usual = toSI(330, '[degF]') - 273.15;
    expect(sheet.plastisol.id).toBe('medium-compound');
    expect(usual).toBeGreaterThan(value(sheet, 'pour.low'));
    expect(usual).toBeLessThan(value(sheet, 'pour.high'));
    expect(Math.abs(usual - value(sheet, 'pour.nominal'))).toBeLessThan(3);
  });

  test('a bulky five-inch bait takes about a 3/0 extra wide gap rigged Texas style', () => {
    const sheet = sheetNamed(all, 'reed-minnow-2');
    const best = sheet.hooks.find(
      ({ rig, hook, verdict }) => rig === 'Texas' && hook.pattern === 'extra wide gap' && verdict === 'best',
    );
    expect(printed(sheet.figures['bait.length']!, 'us').text).toMatch(/^5\.0/u);
    expect(best?.size).toBe('3/0');
  });

  test('ordinary thin tails fill from a cold mold; the thinnest need a warm one at the adverse end', () => {
    expect(value(sheetNamed(all, 'heron-worm-4'), 'fill.reserve.cold')).toBeGreaterThan(1);
    const grub = sheetNamed(all, 'osier-grub-6').figures['fill.reserve.cold']!;
    expect(grub.value).toBeGreaterThan(1);
    expect(grub.low).toBeLessThan(1);
  });

  test('vents of one to two thousandths stop plastisol; several times deeper they flash', () => {
    for (const sheet of all.sheets) {
      const [edge] = sheet.mold.vents;
      const through = sheet.figures['vent.flashThrough.edge']!;
      expect(sheet.figures['vent.flash.edge']!.high, sheet.id).toBeLessThan((edge?.land ?? 0) * 1e3);
      expect(through.low / 1e6).toBeGreaterThan((edge?.depth ?? 0) * 1.5);
      expect(through.low / 1e6).toBeLessThan((edge?.depth ?? 0) * 6);
    }
  });
});
