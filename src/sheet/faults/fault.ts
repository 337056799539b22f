import type { Case } from '../case.ts';
import type { Fault, FaultCause, FeatureFill } from '../sheet.ts';
import type { Speaker } from '../words.ts';

/** What the table of faults is written from. */
export interface FaultParts {
  readonly given: Case;
  readonly speak: Speaker;
  readonly features: readonly FeatureFill[];
}

/** A cause with how much this mold's figures speak for it, 0 to 1: our own judgement, only for the order. */
export interface WeighedCause extends FaultCause {
  readonly weight: number;
}

/** Writes one fault for one mold. */
export type FaultOf = (parts: FaultParts) => Fault;

/** Causes without their weights, the likeliest first; equal ones stay in the order they are written in. */
export function inOrder(causes: readonly WeighedCause[]): FaultCause[] {
  return [...causes]
    .sort((a, b) => b.weight - a.weight)
    .map(({ cause, why, cure }) => ({ cause, why, cure }));
}

/** A share kept between 0 and 1. */
export const share = (value: number) => Math.min(1, Math.max(0, value));
