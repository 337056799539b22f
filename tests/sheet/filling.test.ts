import { beforeAll, describe, expect, test } from 'vitest';
import { cutCavity, cutHalf } from '../../src/core/fill/grid/cavity.ts';
import { filledFrom, filledShare } from '../../src/core/fill/grid/filled-share.ts';
import { isMirrored } from '../../src/core/fill/grid/mirror.ts';
import { shotFill } from '../../src/core/fill/grid/shot-fill.ts';
import { setupAnswer, setupMap, setupShot, type SetupChoice } from '../../src/core/fill/setup.ts';
import { partsOf } from '../../src/sheet/fill-grid.ts';
import { setupData } from '../../src/sheet/fill-setup.ts';
import { fillStudies, type FillModel } from '../../src/sheet/fill-study.ts';
import { fillWarnings, measureHints } from '../../src/sheet/fill-warnings.ts';
import { FILL_TIME } from '../../src/sheet/practice.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';
import { demoCase } from '../support/demo-case.ts';
import { demo, sheetNamed } from '../support/demo.ts';

let all: Awaited<ReturnType<typeof demo>>;
beforeAll(async () => {
  all = await demo();
}, 240_000);

const figure = (sheet: Sheet, key: string) => {
  const found = sheet.figures[key];
  if (!found) throw new Error(`${sheet.id} has no ${key}`);
  return found;
};
const kelvin = (sheet: Sheet, key: string) => figure(sheet, key).value + 273.15;

describe('every sheet', () => {
  test('tells time, reserves and gains; a warm mold fills no less than a cold one', () => {
    for (const sheet of all.sheets) {
      const [cold, warm] = ['cold', 'warm'].map((heat) => figure(sheet, `fill.reserve.${heat}`));
      expect(warm!.value, sheet.id).toBeGreaterThan(cold!.value);
      expect(figure(sheet, 'fill.time').low, sheet.id).toBeGreaterThan(0.5 * FILL_TIME.low);
      expect(sheet.filling.gains).toHaveLength(4);
      for (const gain of sheet.filling.gains)
        expect(gain.value, `${sheet.id} ${gain.key}`).toBeGreaterThanOrEqual(0);
    }
  });

  test('the grid of a bait that is its own mirror image can be halved twice; that of any other is as small as can be', () => {
    let mirrored = 0;
    for (const { id, filling, geometry } of all.sheets) {
      const { map, gate } = filling.model.grid;
      const { min, max } = geometry.box;
      const rows = Math.ceil((max[1] - min[1]) / map.cell);
      if (isMirrored(map)) {
        mirrored++;
        expect([map.ny, cutHalf(map, gate).halved], id).toEqual([4 * Math.ceil(rows / 4), true]);
      } else {
        expect([map.ny, cutHalf(map, gate).halved], id).toEqual([rows, false]);
      }
    }
    expect(mirrored).toBeGreaterThan(1);
    expect(mirrored).toBeLessThan(all.sheets.length);
  });

  test('least reserve is the least of its parts, at the end that counts', () => {
    for (const sheet of all.sheets) {
      const lows = sheet.features.map(({ reserveCold }) => reserveCold.low);
      expect(figure(sheet, 'fill.reserve.cold').low).toBeCloseTo(Math.min(...lows), 12);
    }
  });

  test('the map that is short is that of a part whose reserve is under 1', () => {
    for (const { id, features, filling } of all.sheets) {
      const least = Math.min(...features.map(({ reserveCold }) => reserveCold.value));
      // Reserves near 1 lie within the bracket of the search and the cell and a half of a tip.
      if (least > 1.03) expect(filling.model.cold.share, id).toBeGreaterThan(0.998);
      if (least < 0.97) expect(filling.model.cold.short.includes(1), id).toBe(true);
      const worst = Math.min(...features.map(({ reserveCold }) => reserveCold.low));
      expect(filling.model.adverse === null, id).toBe(worst >= 1);
      if (filling.model.adverse && worst < 0.97)
        expect(filling.model.adverse.short.includes(1), id).toBe(true);
    }
  });

  test('the window rises with both temperatures and passes through the figures', () => {
    for (const sheet of all.sheets) {
      const { pours, molds, nominal } = sheet.filling.window;
      nominal.forEach((reserve, k) => {
        const next = k % pours.length === pours.length - 1 ? Infinity : nominal[k + 1]!;
        const above = nominal[k + pours.length] ?? Infinity;
        expect(next >= reserve * (1 - 1e-9) && above >= reserve * (1 - 1e-9), `${sheet.id} ${k}`).toBe(true);
      });
      const [i, j] = [kelvin(sheet, 'pour.nominal'), sheet.filling.molds.cold].map((at, axis) => {
        const scale = axis === 0 ? pours : molds;
        return scale.findIndex((one) => one > at) - 1;
      });
      const corners = [0, 1, pours.length, pours.length + 1].map(
        (step) => nominal[i! + pours.length * j! + step]!,
      );
      const own = Math.min(...sheet.features.map(({ reserveCold }) => reserveCold.value));
      expect(own, sheet.id).toBeGreaterThanOrEqual(Math.min(...corners) * (1 - 1e-9));
      expect(own, sheet.id).toBeLessThanOrEqual(Math.max(...corners) * (1 + 1e-9));
    }
  });

  test('no vent can buy what ten degrees of mold do where plastic freezes on its way', () => {
    for (const sheet of all.sheets) {
      expect(figure(sheet, 'vent.gain').value, sheet.id).toBeLessThan(3);
      if (figure(sheet, 'fill.reserve.cold').low < 1)
        expect(figure(sheet, 'vent.gain').value).toBeLessThan(figure(sheet, 'fill.gain.mold').value);
    }
  });

  test('the block warms with every shot, inside its bounds, towards what it settles to', () => {
    for (const { id, filling } of all.sheets) {
      const { before, steady } = filling.warmUp;
      before.forEach((band, shots) => {
        if (shots > 0) expect(band.value, id).toBeGreaterThan(before[shots - 1]!.value);
        expect(band.low <= band.value && band.value <= band.high, id).toBe(true);
        expect(band.value, id).toBeLessThan(steady);
      });
    }
  });
});

// Common practice with no source.
describe('trade facts', () => {
  test('ordinary thin tails in a medium compound fill from a cold mold at about 330 °F', () => {
    const ordinary = all.sheets.filter(({ bait }) =>
      ['osier-grub', 'moss-lizard', 'reed-minnow'].includes(bait.id),
    );
    expect(ordinary.length).toBeGreaterThan(3);
    for (const sheet of ordinary) {
      expect(sheet.plastisol.id).toBe('medium-compound');
      expect(figure(sheet, 'fill.reserve.cold').value, sheet.id).toBeGreaterThan(1);
    }
  });

  test('the thinnest need a warmed mold, and some warm-up shots do it', () => {
    const sheet = sheetNamed(all, 'withy-worm-2');
    expect(figure(sheet, 'fill.reserve.cold').value).toBeLessThan(1);
    expect(figure(sheet, 'fill.reserve.warm').value).toBeGreaterThan(1);
    expect(sheet.verdicts.cold.code).toBe('warm it first');
    expect(sheet.figures['fill.reserve.first']!.value).toBeGreaterThan(1);
    expect(sheet.verdicts.cold.sentence).toMatch(/^Warm the mold to 90\s°F.*with about \d+ warm-up shots/u);
  });
});

describe('your set-up', () => {
  const choice = (sheet: Sheet, changes: Partial<SetupChoice> = {}): SetupChoice => ({
    ...sheet.filling.setup.own,
    pour: kelvin(sheet, 'pour.nominal'),
    mold: { temperature: sheet.filling.molds.cold },
    ...changes,
  });

  test('with the sheet’s own set-up it gives the sheet’s own reserves', () => {
    for (const sheet of all.sheets) {
      const { parts } = setupAnswer(setupData(sheet), choice(sheet));
      for (const { label, reserve } of parts) {
        const own = sheet.features.find((feature) => feature.label === label)?.reserveCold.value;
        expect(reserve.value / (own ?? NaN), `${sheet.id} ${label}`).toBeCloseTo(1, 9);
      }
    }
  });

  test('more shots warm the block, and what fills the more', () => {
    const data = setupData(sheetNamed(all, 'withy-worm-2'));
    const at = (shots: number) =>
      setupAnswer(data, choice(sheetNamed(all, 'withy-worm-2'), { mold: { shots } }));
    const [first, later] = [at(0), at(15)];
    expect(later.mold.value).toBeGreaterThan(first.mold.value + 5);
    expect(later.parts[0]!.reserve.value).toBeGreaterThan(first.parts[0]!.reserve.value);
    expect([first.verdict, later.verdict]).toEqual(['comes short', 'may come short']);
  });

  // The stated error of the table is 6 %: set-ups nearer to 1 than that may go either way.
  test('the filling that it draws stops short where the table says so', () => {
    const sheet = sheetNamed(all, 'osier-grub-6');
    const data = setupData(sheet);
    const cavity = cutCavity(setupMap(data), data.grid.gate);
    const [tail] = partsOf(
      sheet.geometry.features.filter(({ kind }) => kind !== 'rib'),
      cavity,
    );
    const pour = (f: number) => ((f - 32) * 5) / 9 + 273.15;
    const tried = data.compounds.flatMap(({ id: compound }) =>
      [pour(322), pour(352)].flatMap((at) =>
        [290, 330].map((temperature) => choice(sheet, { compound, pour: at, mold: { temperature } })),
      ),
    );
    let told = 0;
    for (const one of tried) {
      const { value } = setupAnswer(data, one).parts[0]!.reserve;
      if (Math.abs(value - 1) < 0.06) continue;
      const fill = shotFill(cavity, data.feed, setupShot(data, one));
      const full = filledShare(fill, tail!.cells) >= filledFrom(tail!.cells.length);
      expect(full, JSON.stringify(one)).toBe(value > 1);
      told++;
    }
    expect(told).toBeGreaterThan(8);
  });

  test('what is not listed is refused in words', () => {
    const sheet = sheetNamed(all, 'osier-grub-6');
    expect(() => setupAnswer(setupData(sheet), choice(sheet, { injector: 'syringe' }))).toThrow(
      'setup: wants one of',
    );
  });
});

test('short shots of a compound narrow every reserve that is shot in it', async () => {
  const given = await demoCase('heron-worm-4');
  const { model } = sheetNamed(all, 'heron-worm-4').filling;
  const stated = await demoCase('heron-worm-4', (catalogue) => ({
    ...catalogue,
    plastisols: catalogue.plastisols.map(({ measured: _, ...compound }) => compound),
  }));
  const width = ({ low, high }: { low: number; high: number }) => Math.log(high / low);
  const [measured, unmeasured] = [given, stated].map((one) => fillStudies(one, model)[0]!.cold);
  expect(width(measured!)).toBeLessThan(0.6 * width(unmeasured!));
  expect(measured!.shares[0]!.name).not.toBe('viscosity');
  expect(given.plastisol.viscosity.source.title).toContain('short shots');
});

describe('what the maker is told', () => {
  test('the one measurement that narrows most, once a compound, and none where shots were measured', () => {
    const hints = [...new Set(measureHints(all.sheets))];
    expect(hints).toEqual([expect.stringMatching(/^medium-compound: .*viscosity.*`measured`$/u)]);
    for (const hint of hints) expect(all.warnings).toContain(hint);
  });

  test('vents away from the last place, a starved cavity, a part that comes short, one that does not show', async () => {
    const given = await demoCase('osier-grub-6');
    const { model } = sheetNamed(all, 'osier-grub-6').filling;
    const studies = fillStudies(given, model);
    expect(fillWarnings(given, model, studies)).toEqual([]);
    const vents = given.layout.vents.map((vent) => ({
      ...vent,
      from: [vent.from[0] + 0.03, vent.from[1]] as const,
    }));
    const away = { ...given, layout: { ...given.layout, vents } };
    expect(fillWarnings(away, model, studies)[0]).toMatch(
      /its last place to fill lies \d+ mm .* put a vent there/u,
    );
    const [study] = studies;
    const starved = [{ ...study!, part: { ...study!.part, easier: 0.5 } }];
    expect(fillWarnings(given, model, starved)[0]).toMatch(
      /its runners starve cavity \d: the tail has 28% more/u,
    );
    const short = [{ ...study!, first: { ...study!.first, value: 0.8 } }];
    expect(fillWarnings(given, model, short)).toEqual(['the tail comes short in a cold mold at nominal']);
    const unseen: FillModel = { ...model, table: { ...model.table, parts: [] } };
    expect(fillWarnings(given, unseen, [])[0]).toContain('does not show in the plan');
  });
});
