import { beforeShotTemperature, steadyCycle, type BlockCycle } from '../core/heat/block-warming.ts';
import { band, corners, type Band } from '../core/quantity/band.ts';
import type { HeatStudy } from './heat-study.ts';
import { AMBIENT, COLD_MOLD } from './practice.ts';

/** How a block warms, shot by shot at an even pace. */
export interface WarmUp {
  /** From shot to shot [s]. */
  readonly pace: Band;
  /** Block before the shot that follows 0, 1, 2 … shots [K]. */
  readonly before: readonly Band[];
  /** What it settles to, after a shot [K]. */
  readonly steady: number;
}

/** Shots that are shown. */
const SHOTS = 20;

/** Block temperatures shot by shot; hard bounds over pace, loss, room and the compound's heat. */
export function warmUp({ cycle, loss, pace }: HeatStudy, shotHeat: Band): WarmUp {
  const at = (shots: number) => {
    const inputs = { loss, pace, shotHeat, ambient: AMBIENT, start: COLD_MOLD };
    return corners(
      (values) => beforeShotTemperature({ ...cycle, ...values } satisfies BlockCycle, shots),
      inputs,
    );
  };
  return {
    pace: band(pace.value, pace.low, pace.high),
    before: Array.from({ length: SHOTS + 1 }, (_, shots) => at(shots)),
    steady: steadyCycle(cycle).after,
  };
}
