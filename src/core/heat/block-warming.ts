import { between, positive } from '../quantity/guard.ts';

/** A mold block that is shot again and again. */
export interface BlockCycle {
  /** Mass of one whole shot of the mold [kg]. */
  readonly shotMass: number;
  /** Specific heat of the compound [J/(kg·K)]. */
  readonly shotHeat: number;
  /** Mass of the block, both halves [kg]. */
  readonly blockMass: number;
  /** Specific heat of the block [J/(kg·K)]. */
  readonly blockHeat: number;
  /** Temperature of the melt as it enters [K]. */
  readonly melt: number;
  /** Temperature of the block before the first shot [K]. */
  readonly start: number;
  /** Temperature of the room [K]. */
  readonly ambient: number;
  /** Heat transfer coefficient to the room [W/(m²·K)]. */
  readonly loss: number;
  /** Outer surface of the block [m²]. */
  readonly surface: number;
  /** From shot to shot [s]. */
  readonly pace: number;
}

/**
 * Share of the way from block to melt that one shot moves the block.
 *
 * @param cycle - masses [kg] and specific heats [J/(kg·K)]
 * @returns r = mc/(mc + MC) [1]
 * @throws {RangeError} when a mass or specific heat is not positive
 *
 * Valid: the bait stays in until it has the block's temperature: an upper bound.
 * Cost: constant.
 * Source: energy balance.
 */
export function shotShare(
  cycle: Pick<BlockCycle, 'shotMass' | 'shotHeat' | 'blockMass' | 'blockHeat'>,
): number {
  const shot =
    positive('shotShare: shotMass', cycle.shotMass) * positive('shotShare: shotHeat', cycle.shotHeat);
  const block =
    positive('shotShare: blockMass', cycle.blockMass) * positive('shotShare: blockHeat', cycle.blockHeat);
  return shot / (shot + block);
}

/**
 * Rise of the block by the first shot.
 *
 * @param cycle - masses [kg], specific heats [J/(kg·K)], melt and start temperatures [K]
 * @returns temperature difference [K]
 * @throws {RangeError} when a mass or specific heat is not positive
 *
 * Valid: upper bound, see `shotShare`; heat spreads through an aluminium block within about half a minute.
 * Cost: constant.
 * Source: energy balance.
 */
export function firstShotRise(
  cycle: Pick<BlockCycle, 'shotMass' | 'shotHeat' | 'blockMass' | 'blockHeat' | 'melt' | 'start'>,
): number {
  return shotShare(cycle) * (cycle.melt - cycle.start);
}

/**
 * Time constant of the block's cooling in air.
 *
 * @param cycle - block mass [kg], specific heat [J/(kg·K)], loss [W/(m²·K)], surface [m²]
 * @returns τ = MC/(hA) [s]
 * @throws {RangeError} when a value is not positive
 *
 * Valid: Biot number well below 0.1 (aluminium blocks: below 0.01).
 * Cost: constant.
 * Source: lumped capacitance, Incropera et al. (2007), 5.1, from memory.
 */
export function coolingConstant(
  cycle: Pick<BlockCycle, 'blockMass' | 'blockHeat' | 'loss' | 'surface'>,
): number {
  const heat =
    positive('coolingConstant: blockMass', cycle.blockMass) *
    positive('coolingConstant: blockHeat', cycle.blockHeat);
  return (
    heat /
    (positive('coolingConstant: loss', cycle.loss) * positive('coolingConstant: surface', cycle.surface))
  );
}

/** What a block settles to when it is shot at an even pace. */
export interface SteadyCycle {
  /** Just before a shot [K]. */
  readonly before: number;
  /** Just after a shot [K]. */
  readonly after: number;
  /** What is left of a deviation after one cycle [1]. */
  readonly memory: number;
}

/**
 * Temperatures that a block settles to at an even pace.
 *
 * @param cycle - block, shot, room [K] and pace [s]
 * @returns before and after a shot [K], and what one cycle leaves of a deviation [1]
 * @throws {RangeError} when a mass, specific heat, loss, surface or pace is not positive
 *
 * Valid: lumped block, constant loss coefficient.
 * Cost: constant.
 * Source: linear recurrence summed as a geometric series (own derivation); lumped capacitance, Incropera et al. (2007),
 * 5.1, from memory.
 */
export function steadyCycle(cycle: BlockCycle): SteadyCycle {
  const share = shotShare(cycle);
  const kept = Math.exp(-positive('steadyCycle: pace', cycle.pace) / coolingConstant(cycle));
  const memory = (1 - share) * kept;
  const before = (share * cycle.melt * kept + cycle.ambient * (1 - kept)) / (1 - memory);
  return { before, after: before + share * (cycle.melt - before), memory };
}

/**
 * Temperature of the block before the shot that follows `shots` shots.
 *
 * @param cycle - block, shot, room [K] and pace [s]
 * @param shots - made so far [1], 0 or more
 * @returns temperature [K]
 * @throws {RangeError} when `shots` is negative, or as `steadyCycle`
 *
 * Valid: lumped block, even pace.
 * Cost: constant.
 * Source: as `steadyCycle`.
 */
export function beforeShotTemperature(cycle: BlockCycle, shots: number): number {
  between('beforeShotTemperature: shots', shots, 0, 1e6);
  const { before, memory } = steadyCycle(cycle);
  return before + (cycle.start - before) * memory ** shots;
}

/**
 * Warm-up shots after which the block is at least at a temperature before the next shot.
 *
 * @param cycle - block, shot, room [K] and pace [s]
 * @param target - wanted before a shot [K]
 * @returns whole number of shots [1]; 0 when it starts there; Infinity when this pace never gets there
 * @throws {RangeError} as `steadyCycle`
 *
 * Valid: lumped block, even pace.
 * Cost: constant.
 * Source: as `steadyCycle`.
 */
export function warmUpShots(cycle: BlockCycle, target: number): number {
  if (cycle.start >= target) return 0;
  const { before, memory } = steadyCycle(cycle);
  if (before <= target) return Infinity;
  return Math.ceil(Math.log((before - target) / (before - cycle.start)) / Math.log(memory) - 1e-9);
}

/**
 * Cycles until a given share of the way to the steady temperature is made.
 *
 * @param cycle - block, shot, room [K] and pace [s]
 * @param share - of the way [1], between 0 and 1
 * @returns cycles, not rounded [1]
 * @throws {RangeError} when `share` is not in 0 … 1, or as `steadyCycle`
 *
 * Cost: constant.
 * Source: as `steadyCycle`.
 */
export function cyclesToShare(cycle: BlockCycle, share: number): number {
  between('cyclesToShare: share', share, 0, 1 - 1e-12);
  return Math.log(1 - share) / Math.log(steadyCycle(cycle).memory);
}

/**
 * Steady highest and lowest temperature when every shot gives the same rise.
 *
 * @param rise - of the block by one shot [K]
 * @param pace - from shot to shot [s]
 * @param constant - time constant of the block [s]
 * @param ambient - room [K]
 * @returns peak after a shot and valley before it [K]
 * @throws {RangeError} when pace or time constant is not positive
 *
 * Cost: constant.
 * Source: geometric series (own derivation).
 */
export function fixedHeatCycle(rise: number, pace: number, constant: number, ambient: number) {
  const kept = Math.exp(
    -positive('fixedHeatCycle: pace', pace) / positive('fixedHeatCycle: constant', constant),
  );
  const peak = ambient + rise / (1 - kept);
  return { peak, valley: ambient + (peak - ambient) * kept };
}

/**
 * Time until a block left alone has cooled to a temperature.
 *
 * @param from - temperature now [K]
 * @param to - temperature wanted [K], above ambient
 * @param ambient - room [K]
 * @param constant - time constant of the block [s]
 * @returns time [s]; 0 when it is there already
 * @throws {RangeError} when `to` is not above `ambient` or the time constant is not positive
 *
 * Valid: constant loss coefficient.
 * Cost: constant.
 * Source: Newton's law of cooling; lumped capacitance, Incropera et al. (2007), 5.1, from memory.
 */
export function coolDownTime(from: number, to: number, ambient: number, constant: number): number {
  positive('coolDownTime: constant', constant);
  positive('coolDownTime: to − ambient', to - ambient);
  return from <= to ? 0 : constant * Math.log((from - ambient) / (to - ambient));
}

/**
 * Time from shot to shot at which a block settles to a temperature just after a shot.
 *
 * @param cycle - block, shot, melt and room; its own pace is not used
 * @param peak - wanted just after a shot [K], above the room
 * @returns pace [s]; 0 when it never gets there, Infinity when one shot into a block at room temperature exceeds it
 * @throws {RangeError} when `peak` is not above the room, or as `coolingConstant`
 *
 * Valid: lumped block, even pace.
 * Cost: constant.
 * Source: as `steadyCycle`, solved for the pace.
 */
export function paceForPeak(cycle: Omit<BlockCycle, 'pace' | 'start'>, peak: number): number {
  positive('paceForPeak: peak − ambient', peak - cycle.ambient);
  if (peak >= cycle.melt) return 0;
  const share = shotShare(cycle);
  const before = (peak - share * cycle.melt) / (1 - share);
  if (before <= cycle.ambient) return Infinity;
  return coolingConstant(cycle) * Math.log((peak - cycle.ambient) / (before - cycle.ambient));
}

/**
 * Biot number of a block: whether it may be taken as one temperature.
 *
 * @param loss - heat transfer coefficient [W/(m²·K)]
 * @param volumeToSurface - volume over outer surface [m]
 * @param conductivity - of the block [W/(m·K)]
 * @returns h·V/(A·k) [1]; lumped below 0.1
 * @throws {RangeError} when a value is not positive
 *
 * Cost: constant.
 * Source: Incropera et al. (2007), 5.2, from memory.
 */
export function blockBiot(loss: number, volumeToSurface: number, conductivity: number): number {
  const product = positive('blockBiot: loss', loss) * positive('blockBiot: volumeToSurface', volumeToSurface);
  return product / positive('blockBiot: conductivity', conductivity);
}
