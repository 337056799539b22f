import type { Band } from '../core/quantity/band.ts';
import { compoundDensity, filledDensity } from '../core/shot/compound-density.ts';
import { MICROBALLOONS, SALT } from '../core/shot/constituents.ts';
import type { Case } from './case.ts';
import { MICROBALLOON_CHOICES, SALT_CHOICES } from './practice.ts';

/** A compound, plain or with something stirred in, and its density [kg/m³]. */
export interface FloatCompound {
  readonly name: string;
  readonly density: Band;
}

const percent = (share: number) => `${Math.round(100 * share)} %`;

/** What a bait may be shot in: its own compound, that with salt or hollow glass, and the others of the catalogue. */
export function floatCompounds({ plastisol, density, catalogue }: Case): FloatCompound[] {
  const own = plastisol.name;
  return [
    { name: own, density },
    ...SALT_CHOICES.map((share) => ({
      name: `${own}, ${percent(share)} salt added`,
      density: filledDensity(density, SALT.density, share),
    })),
    ...MICROBALLOON_CHOICES.map((share) => ({
      name: `${own}, ${percent(share)} hollow glass added`,
      density: filledDensity(density, MICROBALLOONS.density, share),
    })),
    ...catalogue.plastisols
      .filter(({ id }) => id !== plastisol.id)
      .map((other) => ({ name: other.name, density: other.density ?? compoundDensity(other.recipe) })),
  ];
}
