import { describe, expect, test } from 'vitest';
import { ellipseSection } from '../../../src/core/fill/channel-flow.ts';
import {
  freezeConstant,
  freezeConstantUniform,
  freezeReach,
} from '../../../src/core/fill/freeze-constant.ts';
import {
  criticalDrive,
  fillReserve,
  frontReach,
  limitedFillReserve,
  type RootFeed,
  type ThinPart,
} from '../../../src/core/fill/reach.ts';

const MM = 1e-3;
const WANTS = 'wants a finite number above 0';

describe('a front in a thin part', () => {
  const even = (length: number, ageing: ThinPart['ageing'] = 'own age', theta = 0.005): ThinPart => ({
    stations: [0, length].map((s) => ({ s, thickness: MM, width: 10 * MM })),
    ...{ form: 'slot', ageing, theta },
  });
  /** Nothing freezes. */
  const hot: RootFeed = { pressure: 2e5, viscosity: 3, diffusivity: 1e-20 };

  test('fills in 6μx²/(Ph²), under the full pressure', () => {
    const { filled, distance, time, pressure } = frontReach(even(0.05), hot);
    expect([filled, distance]).toEqual([true, 0.05]);
    expect(time / ((6 * 3 * 0.05 ** 2) / (2e5 * MM ** 2))).toBeCloseTo(1, 4);
    expect(pressure / 2e5).toBeCloseTo(1, 9);
  });

  test('at a given flow it takes V/Q, under 12μQL/(bh³) and what the channel before it takes', () => {
    const [flowLimit, volume] = [1e-6, 0.05 * 1e-5];
    const { time, pressure } = frontReach(even(0.05), { ...hot, flowLimit });
    expect(time).toBeCloseTo(volume / flowLimit, 9);
    const own = (12 * 3 * flowLimit * 0.05) / (10 * MM * MM ** 3);
    expect(pressure / own).toBeCloseTo(1, 7);
    const fed = frontReach(even(0.05), { ...hot, flowLimit, feedDrag: 1e9 });
    expect(fed.pressure / (own + 3 * flowLimit * 1e9)).toBeCloseTo(1, 7);
    // Where the hand cannot press that hard it presses all it can, and the flow falls.
    const weak = frontReach(even(0.05), { ...hot, flowLimit, pressure: own / 2 });
    expect(weak.pressure / (own / 2)).toBeCloseTo(1, 7);
    expect(weak.time).toBeGreaterThan(1.2 * (volume / flowLimit));
  });

  test('feed drag D: time ∝ x²/2 + D·x in units of its own drag', () => {
    const drag = 12 / (10 * MM * MM ** 3);
    const fed = frontReach(even(0.05), { ...hot, feedDrag: 0.03 * drag });
    const exact = ((3 * drag * 1e-5) / 2e5) * (0.05 ** 2 / 2 + 0.03 * 0.05);
    expect(fed.time / exact).toBeCloseTo(1, 4);
  });

  test('melt too cold to flow stays at the root', () => {
    const feed = { ...hot, diffusivity: 7.5e-8 };
    expect(frontReach(even(0.05, 'own age', 0.986), feed)).toEqual({
      ...{ filled: false, distance: 0, time: 0, pressure: 2e5 },
    });
    expect(frontReach(even(0.001, 'own age', 0.985), { ...feed, pressure: 1e9 }).filled).toBe(true);
    expect(criticalDrive(even(0.05, 'own age', 0.986), 8)).toBe(Infinity);
    expect(criticalDrive(even(0.05, 'own age', 0.985), 8)).toBeLessThan(Infinity);
    // Warmer than any freezing is as 0.005.
    expect(criticalDrive(even(0.05, 'own age', -3), 8)).toBe(criticalDrive(even(0.05, 'own age', 0.005), 8));
  });

  test.each([
    { ageing: 'own age', of: () => freezeConstant('slot', 0.5) },
    { ageing: 'fresh core', of: () => freezeConstant('fresh core', 0.5) },
    { ageing: 'gate age', of: () => freezeConstantUniform('slot', 0.5) },
  ] as const)('$ageing: it stops at K·h²√(P/(μα)), one stretch more or less', ({ ageing, of }) => {
    const feed = { pressure: 2e5, viscosity: 3, diffusivity: 7.5e-8 };
    const reach = freezeReach(of(), MM, feed);
    const stopped = frontReach(even(2 * reach, ageing, 0.5), feed, 200);
    expect(stopped.filled).toBe(false);
    expect(Math.abs(stopped.distance - reach)).toBeLessThan(0.02 * reach);
    expect(stopped.pressure / 2e5).toBeCloseTo(1, 12);
    expect(stopped.time).toBeGreaterThan(0);
    expect(fillReserve(even(reach, ageing, 0.5), feed, 120)).toBeCloseTo(1, 2);
    expect(limitedFillReserve(even(reach, ageing, 0.5), feed, 80)).toBeCloseTo(1, 2);
    expect(
      1 / Math.sqrt(criticalDrive(even(reach, ageing, 0.5), 120)) / Math.sqrt((3 * 7.5e-8) / 2e5),
    ).toBeCloseTo(1, 2);
  });

  // An oval of axes h and w: area π·hw/4, drag 4(a² + b²)/(πa³b³) on the semi-axes; no freezing: t = μ·A·drag·x²/2P.
  test('an oval fills by its own area and drag, and one half round closes between slot and bar', () => {
    const oval = (width: number, theta: number, length: number): ThinPart => ({
      stations: [0, length].map((s) => ({ s, thickness: MM, width })),
      ...{ form: 'oval', ageing: 'own age', theta },
    });
    const { area, drag } = ellipseSection(0.5 * MM, 1.5 * MM);
    expect(
      frontReach(oval(3 * MM, 0.005, 0.05), hot).time / ((3 * area * drag * 0.05 ** 2) / 4e5),
    ).toBeCloseTo(1, 4);
    const feed = { pressure: 2e5, viscosity: 3, diffusivity: 7.5e-8 };
    const reach = (width: number) => frontReach(oval(width, 0.5, 0.1), feed, 200).distance;
    const bar = freezeReach(freezeConstant('round', 0.5), 0.5 * MM, feed);
    expect(Math.abs(reach(MM) / bar - 1)).toBeLessThan(0.03);
    // A very flat oval closes like a slot; at one gradient its melt is slower by the ratio of area times drag.
    const flat = freezeReach(freezeConstant('slot', 0.5), MM, feed);
    const oblong = ellipseSection(0.5, 0.5 * MM);
    const sides = Math.sqrt(12 / MM ** 2 / (oblong.drag * oblong.area));
    expect(Math.abs(reach(1) / (flat * sides) - 1)).toBeLessThan(0.03);
    expect(reach(2 * MM)).toBeGreaterThan(reach(MM));
    expect(reach(2 * MM)).toBeLessThan(reach(1));
  });

  test('the reserve under a flow limit is the stretch that just fills', () => {
    const feed = { pressure: 2e5, viscosity: 3, diffusivity: 7.5e-8, flowLimit: 1e-6, feedDrag: 1e12 };
    const part = even(0.02, 'own age', 0.5);
    const reserve = limitedFillReserve(part, feed, 100);
    expect(frontReach(even(0.02 * reserve * 0.985, 'own age', 0.5), feed, 400).filled).toBe(true);
    expect(frontReach(even(0.02 * reserve * 1.015, 'own age', 0.5), feed, 400).filled).toBe(false);
  });

  test('reserves end at a thousandth and at a thousand', () => {
    const feed = { pressure: 2e5, viscosity: 3, diffusivity: 7.5e-8 };
    expect(limitedFillReserve(even(1e5, 'own age', 0.5), feed, 6)).toBe(1e-3);
    expect(limitedFillReserve(even(1e-6, 'own age', 0.5), feed, 6)).toBe(1e3);
    expect(limitedFillReserve(even(0.05, 'own age', 0.99), feed, 6)).toBe(1e-3);
  });

  test('properties of nothing are refused', () => {
    for (const name of ['pressure', 'viscosity', 'diffusivity'] as const) {
      expect(() => frontReach(even(0.05), { ...hot, [name]: 0 })).toThrow(`frontReach: ${name}: ${WANTS}`);
      expect(() => fillReserve(even(0.05), { ...hot, [name]: 0 })).toThrow(`fillReserve: ${name}: ${WANTS}`);
    }
  });
});
