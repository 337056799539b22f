import { describe, expect, test } from 'vitest';
import { sessionCost } from '../../../src/core/plan/cost.ts';
import type { SessionPlan } from '../../../src/core/plan/session-parts.ts';
import { band } from '../../../src/core/quantity/band.ts';

/** Half a litre to 2 L of liquid, 100 to 400 g of salt, for eight baits. */
const PLAN = {
  baits: 8,
  measured: { liquid: band(1e-3, 0.5e-3, 2e-3), salt: band(0.2, 0.1, 0.4) },
} as SessionPlan;

describe('what a session costs', () => {
  test('liquid at 24 a litre and salt at 10 a kilogram: 24 + 2, at least 12 + 1, at most 48 + 4', () => {
    expect(sessionCost(PLAN, { compound: 24e3, salt: 10 })).toEqual({
      whole: { value: 26, low: 13, high: 52 },
      each: { value: 3.25, low: 1.625, high: 6.5 },
    });
  });
  test('salt without a price costs nothing, and a price of 0 is one', () => {
    expect(sessionCost(PLAN, { compound: 24e3 })?.whole).toEqual({ value: 24, low: 12, high: 48 });
    expect(sessionCost(PLAN, { compound: 0, salt: 0 })?.whole).toEqual({ value: 0, low: 0, high: 0 });
  });
  test('nobody knows without the price of the compound, or without baits', () => {
    expect(sessionCost(PLAN, { salt: 10 })).toBeNull();
    expect(sessionCost({ ...PLAN, baits: 0 }, { compound: 24e3 })).toBeNull();
  });
  test('prices below 0 are refused', () => {
    expect(() => sessionCost(PLAN, { compound: -1 })).toThrow(
      'sessionCost: compound: wants a finite number of 0 or more, got -1',
    );
    expect(() => sessionCost(PLAN, { compound: 1, salt: -2 })).toThrow(
      'sessionCost: salt: wants a finite number of 0 or more, got -2',
    );
  });
});
