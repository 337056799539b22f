import type { Plastisol } from '../schema/collections.ts';
import { FLASH_MARGIN } from './practice.ts';

/** Temperatures at which a compound may be poured [K]. */
export interface PourBand {
  /** Fully fused. */
  readonly low: number;
  /** To aim at: a third of the way up, so that a thermometer may err either way. */
  readonly nominal: number;
  /** The lowest of what limits it. */
  readonly high: number;
  /** What sets `high`. */
  readonly limit: 'its own upper limit' | 'break-down' | 'flash point';
}

/**
 * Pour band of a compound: from fully fused up to the lowest of its own limit, the lowest temperature at which it
 * may break down, and its flash point less a margin. A compound whose limits leave no band has none.
 */
export function pourBand(
  plastisol: Pick<Plastisol, 'fusion' | 'upperLimit' | 'degradation' | 'flashPoint'>,
): PourBand {
  const limits = [
    { limit: 'its own upper limit', at: plastisol.upperLimit },
    { limit: 'break-down', at: plastisol.degradation.low },
    { limit: 'flash point', at: plastisol.flashPoint.low - FLASH_MARGIN.value },
  ] as const;
  const { limit, at: high } = limits.reduce((least, next) => (next.at < least.at ? next : least));
  const low = plastisol.fusion.value;
  if (!(low < high)) {
    throw new RangeError(
      `pourBand: wants the fusion temperature below every upper limit, got ${low} K and ${high} K`,
    );
  }
  return { low, nominal: low + (high - low) / 3, high, limit };
}
