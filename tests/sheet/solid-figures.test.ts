import { beforeAll, describe, expect, test } from 'vitest';
import type { Figure } from '../../src/core/quantity/figure.ts';
import { analysisTools } from '../../src/io/analysis-tools.ts';
import { sheets as analyse } from '../../src/sheet/analyse.ts';
import { fromSI } from '../../src/core/quantity/units.ts';
import { moldStudy, shotCheck } from '../../src/sheet/mold-study.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';
import { forgetful } from '../../src/sheet/tools.ts';
import { demo, sheetNamed } from '../support/demo.ts';

let all: Awaited<ReturnType<typeof demo>>;
beforeAll(async () => {
  all = await demo();
}, 120_000);

const figure = (sheet: Sheet, key: string): Figure =>
  sheet.figures[key] ?? expect.fail(`${sheet.id} lacks ${key}`);
const value = (sheet: Sheet, key: string): number => figure(sheet, key).value;
const input = (sheet: Sheet, key: string, name: string): number =>
  figure(sheet, key).inputs.find((one) => one.name === name)?.value ?? NaN;

type Outline = readonly (readonly (readonly [number, number])[])[];

/** Shoelace over all rings: holes run the other way round [m²]. */
const areaOf = (outline: Outline): number =>
  outline.reduce(
    (sum, ring) =>
      sum +
      ring.reduce((part, [x, y], i) => {
        const [nextX, nextY] = ring[(i + 1) % ring.length]!;
        return part + (x * nextY - nextX * y) / 2;
      }, 0),
    0,
  );

describe('every mold of the demo', () => {
  test('its cavities hold the baits within the stated tolerance', () => {
    for (const sheet of all.sheets) {
      const tolerance = input(sheet, 'mold.shotCheck', 'tolerance') / 100;
      expect(tolerance).toBeLessThan(0.00001);
      expect(Math.abs(value(sheet, 'mold.shotCheck') - 1), sheet.id).toBeLessThan(tolerance);
      // Merging by 20 µm moves a bait's volume by less than 10 µm times its surface: chords lie inside what is convex.
      const merged = input(sheet, 'mold.shotCheck', 'all of the merged baits');
      const before = input(sheet, 'mold.shotCheck', 'baits before merging');
      const { surface, volume } = sheet.geometry;
      expect(Math.abs(merged / before - 1), sheet.id).toBeLessThan((10e-6 * surface) / volume);
    }
  });

  test('metal and hollows make up the block; the lower half as it was cut has half of the metal, but for the vents', () => {
    for (const { id, mold, halves, figures } of all.sheets) {
      const { block, metal, hollow, cut } = halves;
      const hollows = [hollow.cavities, hollow.gates, hollow.runner, hollow.sprue, hollow.pins];
      const total = [...hollows, ...Object.values(hollow.vents)].reduce((sum, part) => sum + part, 0);
      expect(block).toBeCloseTo(mold.block.length * mold.block.width * mold.block.thickness, 12);
      expect((metal + total) / block, id).toBeCloseTo(1, 12);
      // Merging moves the volume of the baits by 0.4 % at most; above and below the plane they may differ.
      const vents = Object.values(hollow.vents).reduce((sum, part) => sum + part, 0);
      const inUpper = hollow.cavities - cut.baits;
      const upper = block / 2 - inUpper - (total - hollow.cavities - vents) / 2;
      expect(Math.abs(cut.metal + upper - metal), id).toBeLessThan(0.004 * hollow.cavities);
      // 6061-T6 weighs 2.70 g/cm³ (ASM Handbook, vol. 2).
      expect(figures['mold.blockMass']!.value / (2700 * metal), id).toBeCloseTo(1, 9);
    }
  });

  test('its channels are a few percent more than simple bodies: round ends, gates up to the nose', () => {
    for (const sheet of all.sheets) {
      const { sprue, runner, gate, cavities } = sheet.mold;
      const frustum =
        ((Math.PI * sprue.length) / 12) * (sprue.mouth ** 2 + sprue.mouth * sprue.end + sprue.end ** 2);
      const bar = runner ? (Math.PI / 4) * runner.diameter ** 2 * sheet.halves.layout.runnerLength : 0;
      const bodies = frustum + bar + cavities.length * gate.width * gate.depth * gate.length;
      const over = value(sheet, 'shot.runner') / fromSI(bodies, 'mL');
      expect(over, sheet.id).toBeGreaterThan(1 - 1e-9);
      expect(over, sheet.id).toBeLessThan(1.05);
    }
  });

  test('a section through it: metal of both halves and plastic fill the rectangle but for channels and vents', () => {
    for (const { id, mold, halves, geometry } of all.sheets) {
      const { lower, upper, plastic } = halves.section;
      const whole = mold.block.width * mold.block.thickness;
      const parts = [lower, upper, plastic].map((outline) => areaOf(outline));
      expect(Math.min(...parts), id).toBeGreaterThan(0);
      const left = whole - parts.reduce((sum, part) => sum + part, 0);
      // Merging the surface within 2 µm moves no more than that times the rim.
      expect(left / whole, id).toBeGreaterThan(-1e-4);
      expect(left / whole, id).toBeLessThan(0.02);
      const rim = plastic.flat().map(([, z]) => z);
      const deep = Math.max(...rim) - Math.min(...rim);
      expect(deep, id).toBeGreaterThan(0.9 * geometry.thickest.thickness);
    }
  });

  test('its outlets lead to the edge of the block', () => {
    for (const { id, halves } of all.sheets) {
      expect(halves.layout.notes, id).toEqual([]);
      for (const vent of halves.layout.vents.filter(({ tier }) => tier === 'outlet')) {
        expect([id, vent.cavity, vent.open]).toEqual([id, vent.cavity, true]);
      }
    }
  });

  test('the wall map knows the thickest place, and nothing thicker', () => {
    for (const { id, walls, geometry } of all.sheets) {
      const most = Math.max(...walls.values);
      expect(most / geometry.thickest.thickness, id).toBeGreaterThan(0.97);
      expect(most / geometry.thickest.thickness, id).toBeLessThan(1.005);
    }
  });

  test('the balance point lies in the body; a long bait turns slower than it rolls', () => {
    for (const sheet of all.sheets) {
      const share = value(sheet, 'bait.centroid') / value(sheet, 'bait.length');
      expect(share, sheet.id).toBeGreaterThan(0.25);
      expect(share, sheet.id).toBeLessThan(0.6);
      const [roll, pitch, yaw] = ['Roll', 'Pitch', 'Yaw'].map((turn) => value(sheet, `bait.gyration${turn}`));
      expect(roll!).toBeLessThan(pitch!);
      expect(roll!).toBeLessThan(yaw!);
      // A uniform rod of the same length: L/√12.
      expect(yaw! * Math.sqrt(12), sheet.id).toBeLessThan(1.05 * value(sheet, 'bait.length'));
    }
  });
});

test('the section areas lead to the same balance point as the solid', () => {
  const sheet = sheetNamed(all, 'sliver-minnow-8');
  const { areaCurve, box } = sheet.geometry;
  const total = areaCurve.reduce((sum, { area }) => sum + area, 0);
  const mean = areaCurve.reduce((sum, { x, area }) => sum + x * area, 0) / total;
  expect((1000 * (mean - box.min[0])) / value(sheet, 'bait.centroid')).toBeCloseTo(1, 3);
});

test('a mold whose cavities do not hold the baits is refused with both shares', async () => {
  const { mold, geometry, halves } = sheetNamed(all, 'moss-lizard-1');
  const refused = (cut: typeof halves.cut) => {
    const remember: typeof forgetful = (what, inputs, make) =>
      what === 'mold'
        ? Promise.resolve({ ...halves, cut } as Awaited<ReturnType<typeof make>>)
        : forgetful(what, inputs, make);
    return expect(moldStudy({ mold, geometry }, remember)).rejects;
  };
  const { cut } = halves;
  const more = { ...cut, metal: cut.metal - 0.01 * cut.baits };
  expect(shotCheck({ mold, geometry }, { ...halves, cut: more }).ratio).toBeCloseTo(1.01, 4);
  await refused(more).toThrow(
    "shot check: wants cavities that hold 1 times the bait's volume within 0.0001 %, got 101.0000 % of it",
  );
  // All of it smaller alike: the merging went wrong.
  const less = {
    ...cut,
    metal: cut.metal + 0.03 * cut.baits,
    baits: 0.97 * cut.baits,
    merged: 0.97 * cut.merged,
  };
  expect(shotCheck({ mold, geometry }, { ...halves, cut: less }).ratio).toBeCloseTo(1, 6);
  await refused(less).toThrow(
    /shot check: wants cavities that hold 1 times the bait's volume within 0\.\d{4} %, got 9[67]\.\d{4} % of it/u,
  );
});

test('runners that were measured are taken as stated', { timeout: 60_000 }, async () => {
  const stated = 0.123;
  const { reading } = all;
  const molds = reading.catalogue.molds
    .filter(({ id }) => id === 'osier-grub-2')
    .map((mold) => ({ ...mold, runner: { ...mold.runner!, length: stated } }));
  const baits = reading.catalogue.baits.filter(({ id }) => id === 'osier-grub');
  const result = await analyse({ ...reading.catalogue, molds, baits }, analysisTools('content'));
  const sheet = sheetNamed(result, 'osier-grub-2');
  const bar = (Math.PI / 4) * sheet.mold.runner!.diameter ** 2 * stated;
  expect(input(sheet, 'shot.runner', 'runners')).toBeCloseTo(fromSI(bar, 'mL'), 9);
  expect(figure(sheet, 'shot.runner').basis).toContain('runners as measured');
});
