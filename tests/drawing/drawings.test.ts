import { describe, expect, test } from 'vitest';
import { hookFit } from '../../src/core/rigging/hook-fit.ts';
import { hookForm } from '../../src/core/rigging/hook-form.ts';
import { RIG_HABITS, type Rig } from '../../src/core/rigging/rigs.ts';
import { sideBody } from '../../src/core/rigging/side-body.ts';
import type { Drawing, DrawingOptions } from '../../src/drawing/drawing.ts';
import { curvesDrawing } from '../../src/drawing/curves.ts';
import { hookedDrawing } from '../../src/drawing/hooked.ts';
import { moldPlanDrawing } from '../../src/drawing/mold-plan.ts';
import { moldSectionDrawing } from '../../src/drawing/mold-section.ts';
import { outlinePrint } from '../../src/drawing/outline-print.ts';
import { tickStep } from '../../src/drawing/plot.ts';
import { thicknessMap } from '../../src/drawing/thickness-map.ts';
import { collisions, onSheet, readSvg, struckThrough } from './checks.ts';
import {
  BODY,
  grub,
  grubAreas,
  grubGrid,
  grubMold,
  grubMoldSection,
  GRUB_TITLE,
  HOOK,
  TAIL,
} from './shapes.ts';

const shared = { name: 'Curl-tail grub', projection: 'third', titleBlock: GRUB_TITLE } as const;
const hooked = (rig: Rig) => (options: DrawingOptions) => {
  const geometry = grub();
  const body = sideBody(geometry.across);
  const bait = {
    length: body.length,
    heightAt: (x: number) => body.backAt(x) - body.bellyAt(x),
    tailRoot: BODY.length - BODY.radius,
  };
  const fit = hookFit(HOOK, bait, rig);
  return hookedDrawing(
    {
      ...shared,
      geometry,
      lies: 'on its belly',
      section: geometry.across,
      hookName: '3/0 hook',
      hook: HOOK,
      form: hookForm(HOOK, RIG_HABITS[rig].lie, body, fit.entry),
      rig,
      height: fit.height,
      squeezed: fit.squeezed.value,
      clearance: fit.clearance.value,
      trim: fit.trim,
    },
    options,
  );
};

const DRAWINGS: Readonly<Record<string, (options: DrawingOptions) => Drawing>> = {
  'mold-plan': (options) =>
    moldPlanDrawing({ ...shared, ...grubMold(), marks: ['c', 'b'], cut: { x: 0.061, letter: 'A' } }, options),
  'mold-section': (options) =>
    moldSectionDrawing(
      { ...shared, ...grubMoldSection(), letter: 'A', block: grubMold().mold.block },
      options,
    ),
  'thickness-map': (options) =>
    thicknessMap({ ...shared, plan: grub().plan, grid: grubGrid(), thinnest: TAIL.tip }, options),
  curves: (options) => curvesDrawing({ ...shared, geometry: { ...grub(), areaCurve: grubAreas() } }, options),
  'hooked-texas': hooked('Texas'),
  'hooked-jig-head': hooked('jig head'),
  'hooked-tail-on-a-jig': hooked('tail on a jig'),
  'hooked-drop-shot': hooked('drop shot'),
  'outline-print': (options) => outlinePrint({ ...shared, geometry: grub(), lies: 'on its belly' }, options),
};

describe.each(Object.entries(DRAWINGS))('%s', (name, draw) => {
  test.each(['wide', 'compact'] as const)('%s: as text', async (layout) => {
    const { svg } = draw({ layout, prefix: 'grub', standalone: 'auto' });
    await expect(svg).toMatchFileSnapshot(`snapshots/${name}-${layout}.svg`);
  });

  test.each(['wide', 'compact'] as const)(
    '%s: well-formed, named, nothing collides, all on the sheet',
    (layout) => {
      const drawing = draw({ layout, prefix: 'one', standalone: 'auto' });
      const facts = readSvg(drawing.svg);
      expect(facts.title).toBe(drawing.title);
      expect(facts.desc).toBe(drawing.desc);
      expect(drawing.desc.length).toBeGreaterThan(60);
      expect(new Set(facts.ids).size).toBe(facts.ids.length);
      expect(facts.ids.every((id) => id.startsWith('one-'))).toBe(true);
      expect(collisions(drawing.picture)).toEqual([]);
      expect(struckThrough(drawing.picture)).toEqual([]);
      expect(onSheet(drawing.picture, drawing.width, drawing.height)).toBe(true);
      expect(new Set(drawing.dimensions.map(({ key }) => key)).size).toBe(drawing.dimensions.length);
      expect(Buffer.byteLength(drawing.svg)).toBeLessThanOrEqual(20_000);
    },
  );
});

const wide = { layout: 'wide', prefix: 'x' } as const;
const value = ({ dimensions }: Drawing, key: string) => dimensions.find((one) => one.key === key);

test('mold plan: stated sizes stand as stated, a vent to the micrometre', () => {
  const drawing = DRAWINGS['mold-plan']!(wide);
  expect(value(drawing, 'block-length')?.shown).toBe('150');
  expect(value(drawing, 'edge-depth')?.shown).toBe('0.038');
  expect(value(drawing, 'runner')?.shown).toBe('6');
  const { texts, classes } = readSvg(drawing.svg);
  for (const text of [
    'edge vent 0.038 × 5',
    'collector 0.2 × 3',
    'outlet 0.5 × 4',
    'sprue Ø11 to Ø7',
    '1 c',
    '2 b',
    'A',
  ]) {
    expect(texts).toContain(text);
  }
  for (const line of ['ln-visible', 'ln-cutting', 'ln-cutting-end', 'ln-centre'])
    expect(classes).toContain(line);
});

test('mold section: depths, wall and floor follow from circles in the block', () => {
  const drawing = DRAWINGS['mold-section']!(wide);
  const { layout, mold } = grubMold();
  expect(value(drawing, 'depth-upper')?.mm).toBeCloseTo(1000 * BODY.radius, 6);
  expect(value(drawing, 'depth-lower')?.mm).toBeCloseTo(1000 * BODY.radius, 6);
  expect(value(drawing, 'wall')?.mm).toBeCloseTo(1000 * (layout.cavities[0]!.y - BODY.radius), 6);
  expect(value(drawing, 'floor')?.mm).toBeCloseTo(1000 * (mold.block.thickness / 2 - BODY.radius), 6);
});

test('mold section: the halves are hatched opposite ways, the plastic both ways and closer', () => {
  const { picture } = DRAWINGS['mold-section']!(wide);
  const hatches = picture.paths.filter(({ line }) => line === 'hatch');
  const leans = hatches.map(({ runs }) =>
    [...new Set(runs.map(([a, b]) => Math.sign((b![1] - a![1]) * (b![0] - a![0]))))].sort(),
  );
  expect(leans).toEqual([[-1], [1], [-1, 1]]);
  for (const run of hatches.flatMap(({ runs }) => runs)) {
    const [a, b] = run;
    expect(Math.abs(Math.abs(b![0] - a![0]) - Math.abs(b![1] - a![1]))).toBeLessThan(1e-9);
  }
});

test('thickness map: the greatest thickness is the diameter of the body, levels are preferred numbers', () => {
  const drawing = DRAWINGS['thickness-map']!(wide);
  // The grid's cells miss the very middle by at most half a cell: 16 mm less a sagitta under 0.02 mm.
  expect(Math.abs(value(drawing, 'map-most')!.mm - 2000 * BODY.radius)).toBeLessThan(0.02);
  const levels = drawing.dimensions
    .filter(({ key }) => key.startsWith('map-contour'))
    .map(({ shown }) => shown);
  expect(levels.length).toBeGreaterThanOrEqual(3);
  for (const level of levels)
    expect(['1', '1.6', '2.5', '4', '6.3', '10', '1.25', '2', '3.15', '5', '8', '12.5']).toContain(level);
});

test.each(['wide', 'compact'] as const)(
  'thickness map, %s: every contour has its value on it or beside it',
  (layout) => {
    const drawing = DRAWINGS['thickness-map']!({ layout, prefix: 'x' });
    const { texts } = readSvg(drawing.svg);
    for (const { key, shown } of drawing.dimensions) {
      // Once in the legend, once at the contour.
      if (key.startsWith('map-contour')) expect(texts.filter((text) => text === shown).length).toBe(2);
    }
  },
);

test('hook: as long on paper as its scale says, dashed inside the body', () => {
  const drawing = DRAWINGS['hooked-texas']!(wide);
  const ring = drawing.picture.paths.find(({ line }) => line === 'hidden')!.runs[0]!;
  const xs = ring.map(([x]) => x);
  const [times, over] = drawing.scale.split(':').map(Number);
  const length = (Math.max(...xs) - Math.min(...xs)) * (over! / times!);
  expect(Math.abs(length - 1000 * (HOOK.length + HOOK.wire / 2))).toBeLessThan(0.1);
});

test('hook: the clearance stands on paper as wide as it is, from the squeezed back to the point', () => {
  const drawing = DRAWINGS['hooked-texas']!(wide);
  const [times, over] = drawing.scale.split(':').map(Number);
  const [phantom] = drawing.picture.paths.filter(({ line }) => line === 'phantom');
  const squeezedAt = phantom!.runs[0]![0]![1];
  // A body of 16 mm drawn as a polygon of 64 sides, squeezed to half: 14.3 less 8 mm.
  expect(Math.abs(value(drawing, 'clearance')!.mm - 1000 * (HOOK.gape - BODY.radius))).toBeLessThan(0.01);
  const uprights = drawing.picture.paths
    .filter(({ line, closed }) => line === 'dimension' && !closed)
    .flatMap(({ runs }) => runs)
    .filter(([a, b]) => a![0] !== b![0] && a![1] === b![1] && Math.abs(a![1] - squeezedAt) < 1e-9);
  expect(uprights.length).toBeGreaterThan(0);
  const point = squeezedAt - (value(drawing, 'clearance')!.mm * times!) / over!;
  const atPoint = drawing.picture.paths
    .filter(({ line }) => line === 'dimension')
    .flatMap(({ runs }) => runs.flat())
    .some(([, y]) => Math.abs(y - point) < 1e-6);
  expect(atPoint).toBe(true);
});

test('a bait cut to length shows where', () => {
  const drawing = DRAWINGS['hooked-tail-on-a-jig']!(wide);
  const [cut] = drawing.picture.paths.filter(({ line }) => line === 'cutting');
  const xs = drawing.picture.paths
    .filter(({ line }) => line === 'visible')
    .flatMap(({ runs }) => runs.flat());
  const [times, over] = drawing.scale.split(':').map(Number);
  const from = (cut!.runs[0]![0]![0] - Math.min(...xs.map(([x]) => x))) * (over! / times!);
  expect(from).toBeCloseTo(value(drawing, 'trim')!.mm, 1);
});

test('outline for print: true size and a ruler of true millimetres and inches', () => {
  const { picture, scale, desc } = DRAWINGS['outline-print']!(wide);
  expect(scale).toBe('1:1');
  expect(desc).toContain('Print at 100%');
  const at = (text: string) => picture.labels.filter((one) => one.text === text).map(({ at: [x] }) => x);
  expect(at('100')[0]! - at('0')[0]!).toBeCloseTo(100, 9);
  expect(at('4')[0]! - at('0')[1]!).toBeCloseTo(4 * 25.4, 9);
});

test('outline for print: a bait longer than the sheet is not passed off as true size', () => {
  const long = grub().plan.map((ring) => ring.map(([u, v]) => [2 * u, v] as const));
  const drawing = outlinePrint(
    { ...shared, geometry: { ...grub(), plan: long, across: long }, lies: 'on its belly' },
    { prefix: 'x' },
  );
  expect(drawing.scale).toBe('1:2');
  expect(readSvg(drawing.svg).texts.join()).toContain('Not true size: scale 1:2');
});

test('curves: areas and thickness stand on paper where their closed forms put them', () => {
  const { picture, dimensions } = DRAWINGS['curves']!(wide);
  const [areas] = picture.paths.filter(({ fill }) => fill === 'plastic');
  const points = areas!.runs[0]!;
  const { box } = grub();
  const across = points.at(-1)![0] - points[0]![0];
  const top = points.reduce((best, point) => (point[1] < best[1] ? point : best));
  // The ellipse of revolution is thickest at its middle.
  const share = (top[0] - points[0]![0]) / across;
  expect(Math.abs(share - BODY.length / 2 / (box.max[0] - box.min[0]))).toBeLessThan(0.01);
  const shownAt = (key: string) => dimensions.find((one) => one.key === key)?.mm;
  expect(shownAt('tail-root')).toBeCloseTo(1000 * TAIL.root, 9);
  expect(shownAt('tail-half')).toBeCloseTo(500 * (TAIL.root + TAIL.tip), 9);
  expect(shownAt('tail-tip')).toBeCloseTo(1000 * TAIL.tip, 9);
  expect(shownAt('tail-length')).toBeCloseTo(1000 * TAIL.length, 9);
});

test('thickness map: levels below the thinnest named part are its rounded rim and are left out', () => {
  const levels = (thinnest: number) =>
    thicknessMap({ ...shared, plan: grub().plan, grid: grubGrid(), thinnest }, wide)
      .dimensions.filter(({ key }) => key.startsWith('map-contour'))
      .map(({ shown }) => Number(shown));
  expect(Math.min(...levels(0.004))).toBeGreaterThanOrEqual(3.2);
  expect(Math.min(...levels(Infinity))).toBeLessThan(3.2);
});

test.each([
  [10, 5, 2],
  [127, 8, 20],
  [1.18, 8, 0.2],
  [3.5, 8, 0.5],
  [100, 10, 10],
])('an axis to %s with up to %s steps has ticks every %s', (end, most, step) => {
  expect(tickStep(end, most)).toBeCloseTo(step, 12);
});
