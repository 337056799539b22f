import { band, corners, quadrature, type Band, type Spread } from '../core/quantity/band.ts';
import {
  coolDownTime,
  coolingConstant,
  firstShotRise,
  steadyCycle,
  type BlockCycle,
} from '../core/heat/block-warming.ts';
import { contactTemperature, effusivity } from '../core/heat/contact.ts';
import { sectionCoolingTime } from '../core/heat/cooling-time.ts';
import { blockLoss } from '../core/heat/surface-loss.ts';
import { SKIN_EFFUSIVITY, touchSafeTemperature } from '../core/heat/touch.ts';
import { ALLOYS } from '../core/mold/alloy.ts';
import { sectionAreaAt } from './sections.ts';
import type { Case } from './case.ts';
import { firstMold, workingMold } from './first-shot.ts';
import { AMBIENT, COLD_MOLD, EMISSIVITY, HANDLING_TIME, SKIN, type Assumption } from './practice.ts';

/** Heat of one mold [SI]. */
export interface HeatStudy {
  readonly inscribed: number;
  readonly sectionArea: number;
  readonly demold: Band;
  readonly demoldCold: Band;
  readonly rise: Spread;
  /** Loss coefficient of the block to the room [W/(m²·K)]. */
  readonly loss: Band;
  readonly pace: Band;
  readonly steady: Band;
  /** Lumped block at the nominal values, from cold. */
  readonly cycle: BlockCycle;
  readonly safeToTouch: Band;
  readonly skinContact: Band;
}

/** A minute's touch of bare metal must not burn [K]. */
export const MINUTE_LIMIT = touchSafeTemperature(60);
/** A second's touch of bare metal must not burn [K]. */
export const TOUCH_LIMIT = touchSafeTemperature(1);

function demoldTime(given: Case, mold: Assumption, inscribed: number, area: number): Band {
  const { plastisol } = given;
  return corners(
    ({ diffusivity, melt, wall, eject }) =>
      sectionCoolingTime(inscribed, area, { diffusivity, melt, mold: wall, eject }),
    {
      diffusivity: plastisol.diffusivity,
      melt: band(given.pour.nominal, given.pour.low, given.pour.high),
      wall: mold,
      eject: plastisol.demold,
    },
  );
}

function lossOf({ mold }: Case): Band {
  const height = mold.block.width;
  return corners(
    ({ emissivity, excess }) =>
      blockLoss({ height, surface: AMBIENT.value + excess, ambient: AMBIENT.value, emissivity }).total,
    { emissivity: EMISSIVITY[mold.block.finish], excess: band(30, 10, 50) },
  );
}

function cycleOf(given: Case, loss: number, pace: number): BlockCycle {
  return {
    shotMass: given.shotMass.value,
    shotHeat: given.plastisol.specificHeat.value,
    blockMass: given.blockMass,
    blockHeat: ALLOYS[given.mold.block.alloy].specificHeat.value,
    melt: given.gateTemperature.value,
    start: COLD_MOLD.value,
    ambient: AMBIENT.value,
    loss,
    surface: given.blockSurface,
    pace,
  };
}

function steadyOf(given: Case, cycle: BlockCycle, loss: Band, pace: Band): Band {
  return corners(
    (values) =>
      steadyCycle({
        ...cycle,
        loss: values.loss,
        pace: values.pace,
        shotHeat: values.heat,
        ambient: values.ambient,
      }).after,
    { loss, pace, heat: given.plastisol.specificHeat, ambient: AMBIENT },
  );
}

/** The block when it is left alone: after a long run, or warmed beforehand to more than a run brings. */
function hottestOf({ mold }: Case, steady: Band): Band {
  return mold.warmTo === undefined
    ? steady
    : band(steady.value, steady.low, Math.max(steady.high, firstMold(mold).high));
}

function safeToTouchOf(cycle: BlockCycle, steady: Band, loss: Band): Band {
  return corners(
    ({ from, shed, ambient }) =>
      from <= MINUTE_LIMIT
        ? 0
        : coolDownTime(from, MINUTE_LIMIT, ambient, coolingConstant({ ...cycle, loss: shed })),
    { from: steady, shed: loss, ambient: AMBIENT },
  );
}

function skinContactOf({ plastisol, density, pour }: Case): Band {
  return corners(
    ({ conductivity, heat, rho, skin }) =>
      contactTemperature(
        { temperature: pour.high, effusivity: effusivity(conductivity, rho, heat) },
        { temperature: SKIN.value, effusivity: skin },
      ),
    {
      conductivity: plastisol.conductivity,
      heat: plastisol.specificHeat,
      rho: density,
      skin: SKIN_EFFUSIVITY,
    },
  );
}

/** Works out the heat side of a mold: bands by corners where a wrong figure could hurt someone. */
export function heatStudy(given: Case): HeatStudy {
  const { thickness: inscribed, at } = given.geometry.thickest;
  const sectionArea = Math.max(sectionAreaAt(given.geometry, at), (Math.PI / 4) * inscribed ** 2);
  const demold = demoldTime(given, workingMold(given), inscribed, sectionArea);
  const pace = band(
    demold.value + HANDLING_TIME.value,
    demold.low + HANDLING_TIME.low,
    demold.high + HANDLING_TIME.high,
  );
  const loss = lossOf(given);
  const cycle = cycleOf(given, loss.value, pace.value);
  const steady = steadyOf(given, cycle, loss, pace);
  return {
    inscribed,
    sectionArea,
    demold,
    demoldCold: demoldTime(given, COLD_MOLD, inscribed, sectionArea),
    rise: quadrature((values) => firstShotRise({ ...cycle, ...values }), {
      shotMass: given.shotMass,
      shotHeat: given.plastisol.specificHeat,
      melt: given.gateTemperature,
      start: COLD_MOLD,
    }),
    loss,
    pace,
    steady,
    cycle,
    safeToTouch: safeToTouchOf(cycle, hottestOf(given, steady), loss),
    skinContact: skinContactOf(given),
  };
}
