import { bubbles, dents, sunkenSprue } from './faults/inside.ts';
import type { FaultOf, FaultParts } from './faults/fault.ts';
import { flashed, shortShot } from './faults/filling.ts';
import { haze, sticking, tearing, yellowing } from './faults/surface.ts';
import type { Fault } from './sheet.ts';

const FAULTS: readonly FaultOf[] = [
  shortShot,
  flashed,
  bubbles,
  dents,
  sunkenSprue,
  sticking,
  tearing,
  haze,
  yellowing,
];

/** What can be wrong with a bait, and why, with the figures of this mold: the likeliest cause first. */
export function faults(parts: FaultParts): Fault[] {
  return FAULTS.map((fault) => fault(parts));
}
