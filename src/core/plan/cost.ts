import type { Band } from '../quantity/band.ts';
import { needNonNegative } from '../quantity/guard.ts';
import { endwise, times } from './endwise.ts';
import type { SessionPlan } from './session-parts.ts';

/** Prices, in one currency; left out where unknown. */
export interface Prices {
  /** Of liquid compound [1/m³]. */
  readonly compound?: number | undefined;
  /** Of salt [1/kg]. */
  readonly salt?: number | undefined;
}

/**
 * What the materials of a session cost.
 *
 * @param plan - the session
 * @param prices - of compound [currency/m³] and salt [currency/kg]
 * @returns whole cost and cost of one bait [currency]; null without the price of the compound
 * @throws {RangeError} when a price is negative
 *
 * Valid: compound and salt only; glitter, colour and heat are not counted.
 * Cost: constant.
 * Source: definition.
 */
export function sessionCost(plan: SessionPlan, prices: Prices): { whole: Band; each: Band } | null {
  const { compound, salt = 0 } = prices;
  if (compound === undefined || plan.baits === 0) return null;
  needNonNegative('sessionCost', { compound, salt });
  const whole = endwise((end) => plan.measured.liquid[end] * compound + plan.measured.salt[end] * salt);
  return { whole, each: times(whole, 1 / plan.baits) };
}
