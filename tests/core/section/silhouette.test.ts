import { expect, test } from 'vitest';
import { outlineArea, silhouette } from '../../../src/core/section/silhouette.ts';
import { box, capsule, joined, mapped, torus, uvSphere } from '../../support/solids.ts';

const relative = (a: number, b: number) => Math.abs(a / b - 1);
const EXACT = 1e-9;

test('of a box are its faces', async () => {
  const block = box([0.01, 0.02, 0.03], [0.1, 0, -0.01]);
  expect(relative(outlineArea(await silhouette(block, 'plan')), 2e-4)).toBeLessThan(1e-9);
  const across = await silhouette(block, 'across');
  expect(relative(outlineArea(across), 3e-4)).toBeLessThan(1e-9);
  expect(Math.min(...across[0]!.map(([x]) => x))).toBeCloseTo(0.1, 9);
});

test('of a ball seen along its rows of vertices is the polygon of 48 of them', async () => {
  // Meridians lie at turns of 1/48 about x, so the outline in z = 0 is a polygon of the 2·24 band ends.
  const area = outlineArea(await silhouette(uvSphere(0.01, 24, 48), 'plan', EXACT));
  expect(relative(area, 24 * 1e-4 * Math.sin(Math.PI / 24))).toBeLessThan(1e-8);
});

test('of a ring in plan has a hole that runs clockwise; across it is a stadium', async () => {
  const ring = torus(0.02, 0.005, 720, 120);
  const plan = await silhouette(ring, 'plan', EXACT);
  expect(plan).toHaveLength(2);
  const [outer, hole] = plan.map((loop) => outlineArea([loop]));
  expect(relative(outer!, Math.PI * 0.025 ** 2)).toBeLessThan(2e-5);
  expect(relative(-hole!, Math.PI * 0.015 ** 2)).toBeLessThan(2e-5);
  const across = outlineArea(await silhouette(ring, 'across', EXACT));
  expect(relative(across, 4 * 0.02 * 0.005 + Math.PI * 0.005 ** 2)).toBeLessThan(1e-4);
});

test('of two blocks one over the other counts their overlap once', async () => {
  const pair = joined(box([0.02, 0.02, 0.01]), box([0.02, 0.02, 0.01], [0.01, 0.01, 0.03]));
  const plan = await silhouette(pair, 'plan');
  expect(plan).toHaveLength(1);
  expect(relative(outlineArea(plan), 7e-4)).toBeLessThan(1e-9);
});

test('simplified by 5 µm stays within perimeter × 5 µm of the exact area', async () => {
  const rod = capsule(0.005, 0.06, 128, 256);
  const exact = outlineArea(await silhouette(rod, 'plan', EXACT));
  const simple = await silhouette(rod, 'plan');
  const perimeter = 2 * 0.06 + 2 * Math.PI * 0.005;
  expect(Math.abs(outlineArea(simple) - exact)).toBeLessThan(perimeter * 5e-6);
  expect(simple[0]!.length).toBeLessThan((await silhouette(rod, 'plan', EXACT))[0]!.length);
});

test('does not change when the solid is turned over', async () => {
  const rod = capsule(0.005, 0.06, 32, 64);
  const over = mapped(rod, ([x, y, z]) => [x, -y, -z]);
  const [a, b] = [outlineArea(await silhouette(rod, 'plan')), outlineArea(await silhouette(over, 'plan'))];
  expect(relative(a, b)).toBeLessThan(1e-6);
});
