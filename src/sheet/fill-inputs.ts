import { band, quadrature, within, type Band } from '../core/quantity/band.ts';
import type { ReserveInputs, ReserveSetting } from '../core/fill/grid/reserve-band.ts';
import { effusivity } from '../core/heat/contact.ts';
import { ALLOYS } from '../core/mold/alloy.ts';
import type { Plastisol } from '../schema/collections.ts';
import type { Case } from './case.ts';
import { READING, shortShotsOf } from './fill-calibration.ts';
import { FILL_TIME, GAP_TOLERANCE, type Assumption } from './practice.ts';

/** Inputs of a fill reserve in words. */
export const FILL_INPUT_WORDS: Readonly<Record<keyof ReserveInputs, string>> = {
  pressure: 'hand pressure',
  viscosity: 'viscosity at 175 °C',
  activation: 'activation energy of the viscosity',
  diffusivity: 'thermal diffusivity',
  noFlow: 'no-flow temperature',
  melt: 'melt at the gate',
  mold: 'mold temperature',
  gap: 'cutting tolerance',
  closing: 'how the walls close',
  push: 'time of the push',
};

/** Reading errors of the short shots together, as a factor on the viscosity they tell. */
const READ: Band = quadrature(({ push, gap, reach }) => (push * gap ** 4) / reach ** 2, {
  push: within(1, READING.push),
  gap: within(1, READING.gap),
  reach: within(1, READING.reach),
});

/** Bands of what the compound brings; measured viscosities come as a factor on their short shots. */
export function compoundInputs(plastisol: Plastisol) {
  const { viscosity, activation, diffusivity, noFlow } = plastisol;
  const read = band(READ.value, READ.low, READ.high);
  const plain = ({ value, low, high }: Band) => band(value, low, high);
  return {
    viscosity: plastisol.measured ? read : plain(viscosity),
    activation: plain(activation),
    diffusivity: plain(diffusivity),
    noFlow: plain(noFlow),
  };
}

/** Bands of everything that decides whether a thin feature fills [SI]. */
export function fillInputs(given: Case, mold: Assumption): ReserveInputs {
  const { plastisol, pressure, gateTemperature } = given;
  const plain = ({ value, low, high }: Band) => band(value, low, high);
  return {
    ...compoundInputs(plastisol),
    pressure: plain(pressure),
    melt: plain(gateTemperature),
    mold: plain(mold),
    gap: plain(GAP_TOLERANCE),
    closing: band(0, -1, 1),
    push: plain(FILL_TIME),
  };
}

/** Effusivity of a compound's melt [W·√s/(m²·K)]. */
export function meltEffusivity({ conductivity, specificHeat }: Plastisol, hotDensity: number): number {
  return effusivity(conductivity.value, hotDensity, specificHeat.value);
}

/** What a fill reserve starts from and that has no band of its own. */
export function fillSetting({ mold, plastisol, shot, hotDensity }: Case): ReserveSetting {
  const alloy = ALLOYS[mold.block.alloy];
  return {
    volume: shot.total.value / mold.cavities.length,
    effusivity: {
      melt: meltEffusivity(plastisol, hotDensity.value),
      mold: effusivity(alloy.conductivity.value, alloy.density, alloy.specificHeat.value),
    },
    shortShots: shortShotsOf(plastisol),
  };
}
