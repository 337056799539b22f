import { freezeConstant, shortShotViscosity } from '../core/fill/freeze-constant.ts';
import { VISCOSITY_AT, wallUnder, type ShortShot } from '../core/fill/grid/reserve-band.ts';
import { shotTheta } from '../core/fill/grid/reserve-table.ts';
import { arrheniusViscosity } from '../core/fill/viscosity.ts';
import { effusivity } from '../core/heat/contact.ts';
import { ALLOYS } from '../core/mold/alloy.ts';
import { handPressure } from '../core/mold/clamp.ts';
import { band, quadrature, within } from '../core/quantity/band.ts';
import { compoundDensity, hotDensity } from '../core/shot/compound-density.ts';
import type { Plastisol } from '../schema/collections.ts';

/** How far a kitchen scale, a feeler gauge and a ruler may be off, relative [1]: estimate. */
export const READING = { push: 0.15, gap: 0.03, reach: 0.05 } as const;

/** Short shots of a compound as they were measured [SI]; none without an entry. */
export function shortShotsOf({ measured }: Plastisol): ShortShot[] {
  return (measured?.shortShots ?? []).map(({ gap, reach, push, piston, pour, mold }) => ({
    ...{ gap, reach, mold },
    melt: pour,
    pressure: handPressure(piston, band(push)).value,
  }));
}

/** Viscosity at 175 °C that one short shot tells. */
function readingOf(plastisol: Plastisol, shot: ShortShot) {
  const alloy = ALLOYS['6061-T6'];
  const hot = hotDensity(plastisol.density ?? compoundDensity(plastisol.recipe)).value;
  const sides = {
    melt: effusivity(plastisol.conductivity.value, hot, plastisol.specificHeat.value),
    mold: effusivity(alloy.conductivity.value, alloy.density, alloy.specificHeat.value),
  };
  const wall = wallUnder({ effusivity: sides }, shot.melt, shot.mold);
  const { activation, diffusivity, noFlow } = plastisol;
  return quadrature(
    ({ push, gap, reach, ...values }) => {
      const constant = freezeConstant('slot', shotTheta({ noFlow: values.noFlow, melt: shot.melt, wall }));
      const there = shortShotViscosity(constant, shot.gap * gap, shot.reach * reach, {
        pressure: shot.pressure * push,
        diffusivity: values.diffusivity,
      });
      const shift = { reference: 1, at: VISCOSITY_AT, activation: values.activation };
      return there / arrheniusViscosity(shift, shot.melt);
    },
    {
      ...{ activation, diffusivity, noFlow },
      push: within(1, READING.push),
      gap: within(1, READING.gap),
      reach: within(1, READING.reach),
    },
  );
}

/** Compounds and what their short shots made of them: an entry is never changed. */
const known = new WeakMap<Plastisol, Plastisol>();

/**
 * A compound with the viscosity that its own short shots tell in place of the stated one; the compound itself when none
 * were measured.
 */
export function calibrated<Kind extends Plastisol>(plastisol: Kind): Kind {
  const found = (known.get(plastisol) as Kind | undefined) ?? withOwnViscosity(plastisol);
  known.set(plastisol, found);
  return found;
}

function withOwnViscosity<Kind extends Plastisol>(plastisol: Kind): Kind {
  const shots = shortShotsOf(plastisol);
  const { measured } = plastisol;
  if (shots.length === 0 || !measured) return plastisol;
  const readings = shots.map((shot) => readingOf(plastisol, shot));
  const mean = (pick: 'value' | 'low' | 'high') =>
    Math.exp(readings.reduce((sum, reading) => sum + Math.log(reading[pick]), 0) / readings.length);
  return {
    ...plastisol,
    viscosity: { ...band(mean('value'), mean('low'), mean('high')), source: measured.source },
  };
}
