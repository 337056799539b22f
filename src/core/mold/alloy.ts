import { band, type Band } from '../quantity/band.ts';
import type { Source } from '../quantity/figure.ts';

/** A metal that molds are cut from. */
export interface Alloy {
  /** [kg/m³] */
  readonly density: number;
  /** [J/(kg·K)] */
  readonly specificHeat: Band;
  /** [W/(m·K)] */
  readonly conductivity: Band;
  /** Linear [1/K]. */
  readonly expansion: number;
  /** Young's modulus [Pa]. */
  readonly modulus: number;
  /** Yield strength [Pa]. */
  readonly yieldStrength: number;
  readonly source: Source;
}

/** Properties near room temperature, by the alloy's mark. */
export const ALLOYS: Readonly<Record<'6061-T6', Alloy>> = {
  '6061-T6': {
    density: 2700,
    specificHeat: band(896, 896, 950),
    conductivity: band(167, 155, 170),
    expansion: 23.6e-6,
    modulus: 68.9e9,
    yieldStrength: 276e6,
    source: {
      title:
        'Alloy data sheets, 6061-T6: 2700 kg/m³, 896 J/(kg·K), 167 W/(m·K); low conductivity and high specific heat from the NIST cryogenic fit at 300 K',
      kind: 'published',
    },
  },
};

/** Density of the steel of hooks, screws and pins [kg/m³]. */
export const STEEL_DENSITY = 7850;
