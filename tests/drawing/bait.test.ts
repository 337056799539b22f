import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { baitDrawing, type BaitDrawingInput } from '../../src/drawing/bait.ts';
import type { Layout } from '../../src/drawing/layout.ts';
import { collisions, onSheet, readSvg, struckThrough } from './checks.ts';
import { BODY, grub, grubCuts, grubEdges, GRUB_TITLE, TAIL } from './shapes.ts';

const input = (change: Partial<BaitDrawingInput> = {}): BaitDrawingInput => ({
  name: 'Curl-tail grub',
  geometry: grub(),
  edges: grubEdges(),
  lies: 'on its belly',
  cuts: grubCuts(),
  projection: 'third',
  titleBlock: GRUB_TITLE,
  ...change,
});

/** The grub at `times` its size. */
function scaled(times: number): Pick<BaitDrawingInput, 'geometry' | 'cuts' | 'edges'> {
  const geometry = grub();
  const flat = (rings: typeof geometry.plan) =>
    rings.map((ring) => ring.map(([u, v]) => [u * times, v * times] as const));
  const edges = grubEdges();
  const grown = ({ contours, ridges, grooves }: typeof edges.plan) => ({
    contours: flat(contours),
    ridges: flat(ridges),
    grooves: flat(grooves),
  });
  return {
    geometry: {
      ...geometry,
      box: {
        min: [0, geometry.box.min[1] * times, geometry.box.min[2] * times] as const,
        max: [geometry.box.max[0] * times, geometry.box.max[1] * times, geometry.box.max[2] * times] as const,
      },
      plan: flat(geometry.plan),
      across: flat(geometry.across),
      features: geometry.features.map((feature) => ({
        ...feature,
        stations: feature.stations.map((station) => ({
          ...station,
          at: [station.at[0] * times, station.at[1] * times, station.at[2] * times] as const,
        })),
      })),
    },
    edges: { plan: grown(edges.plan), across: grown(edges.across) },
    cuts: grubCuts().map(({ x, outline }) => ({ x: x * times, outline: flat(outline) })),
  };
}

test.each(['wide', 'compact'] as const)('the grub, %s, as text', async (layout) => {
  const { svg } = baitDrawing(input(), { layout, prefix: 'grub', standalone: 'auto' });
  await expect(svg).toMatchFileSnapshot(`snapshots/bait-${layout}.svg`);
});

describe.each(['wide', 'compact'] as const)('%s', (layout: Layout) => {
  const ways = (['on its belly', 'on its side'] as const).flatMap((lies) =>
    (['first', 'third'] as const).map((projection) => ({ lies, projection })),
  );

  test.each(ways)(
    '$lies, $projection angle: well-formed, named, nothing collides',
    ({ lies, projection }) => {
      const drawing = baitDrawing(input({ lies, projection }), { layout, prefix: 'one', standalone: 'auto' });
      const facts = readSvg(drawing.svg);
      expect(facts.title).toBe(drawing.title);
      expect(facts.desc).toBe(drawing.desc);
      expect(facts.root['aria-labelledby']).toBe('one-t one-d');
      expect(new Set(facts.ids).size).toBe(facts.ids.length);
      expect(facts.ids.every((id) => id.startsWith('one-'))).toBe(true);
      expect(collisions(drawing.picture)).toEqual([]);
      expect(struckThrough(drawing.picture)).toEqual([]);
      expect(onSheet(drawing.picture, drawing.width, drawing.height)).toBe(true);
      expect(Buffer.byteLength(drawing.svg)).toBeLessThanOrEqual(16_384);
    },
  );

  test('from a 40 mm to a 300 mm bait nothing collides and all lies on the sheet', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.4, max: 2.8, noNaN: true }), (times) => {
        const drawing = baitDrawing(input(scaled(times)), { layout, prefix: 'p' });
        return (
          collisions(drawing.picture).length === 0 &&
          struckThrough(drawing.picture).length === 0 &&
          onSheet(drawing.picture, drawing.width, drawing.height)
        );
      }),
      { seed: 17, numRuns: 60 },
    );
  });
});

test('every line class of a sectioned drawing is there', () => {
  const { svg } = baitDrawing(input(), { layout: 'wide', prefix: 'c' });
  const { classes } = readSvg(svg);
  for (const line of [
    'visible',
    'centre',
    'cutting',
    'cutting-end',
    'hatch',
    'dimension',
    'leader',
    'frame',
  ]) {
    expect(classes).toContain(`ln-${line}`);
  }
});

test('paper size is in millimetres, one unit a millimetre', () => {
  const drawing = baitDrawing(input(), { layout: 'wide', prefix: 'c' });
  const { root } = readSvg(drawing.svg);
  expect(root['width']).toBe('190mm');
  expect(root['viewBox']).toBe(`0 0 190 ${root['height']?.replace('mm', '')}`);
});

test('at 1:1 the outline is as long on paper as the bait, at 1:2 half as long', () => {
  const real =
    Math.max(
      ...grub()
        .plan.flat()
        .map(([x]) => x),
    ) * 1000;
  for (const [layout, scale, factor] of [
    ['wide', '1:1', 1],
    ['compact', '1:2', 0.5],
  ] as const) {
    const drawing = baitDrawing(input(), { layout, prefix: 'c' });
    expect(drawing.scale).toBe(scale);
    const plan = drawing.picture.paths.find(({ line }) => line === 'visible');
    const xs = plan?.runs.flat().map(([x]) => x) ?? [];
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(real * factor, 1);
  }
});

test('dimensions are those of the shape, each stands in the drawing and names its figure', () => {
  const { dimensions, svg } = baitDrawing(input(), { layout: 'wide', prefix: 'c' });
  const by = Object.fromEntries(dimensions.map((one) => [one.key, one]));
  expect(by['height']?.mm).toBeCloseTo(2000 * BODY.radius, 9);
  expect(by['A-width']?.mm).toBeCloseTo(2000 * BODY.radius, 9);
  expect(by['tail-root']?.mm).toBeCloseTo(1000 * TAIL.root, 9);
  expect(by['tail-tip']?.mm).toBeCloseTo(1000 * TAIL.tip, 9);
  expect(by['length']?.figure).toBe('bait.length');
  const texts = readSvg(svg).texts.join(' | ');
  for (const { shown } of dimensions) expect(texts).toContain(shown);
});

test('a bait on its side shows the parting-plane outline as its side view', () => {
  const on = (lies: BaitDrawingInput['lies']) =>
    baitDrawing(input({ lies }), { layout: 'wide', prefix: 'c' }).dimensions.find(
      ({ key }) => key === 'height',
    );
  const ys = grub()
    .plan.flat()
    .map(([, y]) => y * 1000);
  expect(on('on its side')?.mm).toBeCloseTo(Math.max(...ys) - Math.min(...ys), 9);
  expect(on('on its belly')?.mm).toBeCloseTo(2000 * BODY.radius, 9);
});

test('hostile names stay text', () => {
  const name = `"><script>alert('x')</script>&\u0000\ud800`;
  const drawing = baitDrawing(input({ name, titleBlock: { ...GRUB_TITLE, title: name, owner: name } }), {
    layout: 'wide',
    prefix: 'c',
    standalone: 'light',
  });
  const facts = readSvg(drawing.svg);
  expect(facts.elements).not.toContain('script');
  expect(facts.title).toContain(`"><script>alert('x')</script>&`);
});

test('a prefix that is no id is refused', () => {
  expect(() => baitDrawing(input(), { layout: 'wide', prefix: '1 x' }).svg).toThrow(
    'svgText: prefix wants a lower-case letter, then letters, digits and dashes, got 1 x',
  );
});
