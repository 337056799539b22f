import { expect, test } from 'vitest';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import type { Outline } from '../../../src/core/section/geometry.ts';
import { moldSection } from '../../../src/core/solid/mold-section.ts';
import { placedOutline } from '../../../src/core/solid/plan.ts';
import { box } from '../../support/solids.ts';

const mm = 1e-3;
const block = { length: 120 * mm, width: 60 * mm, thickness: 24 * mm };
/** 60 mm long, from 4 mm below its middle line to 6 mm above, 3 mm deep and 5 mm high. */
const mesh = box([60 * mm, 10 * mm, 8 * mm], [0, -4 * mm, -3 * mm]);
const plan: Vec2[] = [[0, -4 * mm], [60 * mm, -4 * mm], [60 * mm, 6 * mm], [0, 6 * mm]]; // prettier-ignore
const lying = (x: number, y: number, mirrored = false) => {
  const place = { x: x * mm, y: y * mm, turn: 0, mirrored };
  const outline = placedOutline([plan], place);
  return { ...place, outline, gate: { at: [0, 0] as const, out: [-1, 0] as const } };
};
const area = (outline: Outline): number =>
  outline.reduce(
    (sum, ring) =>
      sum +
      ring.reduce((part, [x, y], i) => {
        const [u, v] = ring[(i + 1) % ring.length]!;
        return part + (x * v - u * y) / 2;
      }, 0),
    0,
  ) /
  mm ** 2;
/** A square bar along the block, half of it in either half. */
const channel = box([90 * mm, 2 * mm, 2 * mm], [0, 50 * mm, -mm]);

test('metal of both halves without baits and channels; a bait beside the plane is not cut', async () => {
  const cavities = [{ mesh, plan: [plan] }, { mesh, plan: [plan] }, { mesh, plan: [plan] }]; // prettier-ignore
  const lies = [lying(20, 15), lying(20, 35, true), lying(70, 15)];
  const { x, lower, upper, plastic } = await moldSection({ block, cavities }, lies, channel, 50 * mm);
  expect(x).toBe(50 * mm);
  expect(plastic).toHaveLength(2);
  expect(area(plastic)).toBeCloseTo(160, 9);
  expect(area(lower)).toBeCloseTo(60 * 12 - 2 * 10 * 3 - 2, 6);
  expect(area(upper)).toBeCloseTo(60 * 12 - 2 * 10 * 5 - 2, 6);
  // One reaches 6 mm up, the mirrored one 6 mm down.
  const across = plastic.map((ring) => ring.map(([y]) => y / mm));
  expect(across.map((ys) => [Math.min(...ys), Math.max(...ys)])).toEqual([
    [expect.closeTo(11, 9), expect.closeTo(21, 9)],
    [expect.closeTo(29, 9), expect.closeTo(39, 9)],
  ]);
});

test('baits that lie alike along the block but are not the same are cut each by itself', async () => {
  const low = box([60 * mm, 10 * mm, 4 * mm], [0, -4 * mm, -2 * mm]);
  const cavities = [{ mesh, plan: [plan] }, { mesh: low, plan: [plan] }]; // prettier-ignore
  const { plastic } = await moldSection({ block, cavities }, [lying(20, 15), lying(20, 35)], channel, 100 * mm - 25 * mm); // prettier-ignore
  expect(plastic.map((ring) => area([ring]))).toEqual(
    [80, 40].map((one) => expect.closeTo(one, 9) as number),
  );
});
