import { band, type Band } from '../quantity/band.ts';
import type { Source } from '../quantity/figure.ts';

/** Plasticisers that Partline has numbers for, by their usual abbreviations. */
export type Plasticiser = 'DINP' | 'DEHT' | 'DOA' | 'ATBC' | 'DEHP';

/** What a compound is mixed from. */
export interface Recipe {
  readonly plasticiser: Plasticiser;
  /** Parts of plasticiser to a hundred of resin, by mass. */
  readonly phr: number;
  /** Mass fraction of salt in the whole [1]. */
  readonly salt: number;
  /** Mass fraction of hollow glass microspheres in the whole [1]. */
  readonly microballoons: number;
}

/** One thing in the pot: density at 20 °C [kg/m³] and where it was read. */
export interface Constituent {
  readonly density: Band;
  readonly source: Source;
}

/** Plasticisers at 20 °C. */
export const PLASTICISERS: Readonly<Record<Plasticiser, Constituent>> = {
  DINP: {
    density: band(972),
    source: {
      title: 'Producer data sheet, di-isononyl phthalate, relative density 0.972 at 20/20 °C',
      kind: 'published',
    },
  },
  DEHT: {
    density: band(984),
    source: {
      title: 'Di(2-ethylhexyl) terephthalate, density 0.984 g/cm³ at 20 °C',
      kind: 'published',
      note: 'from memory',
    },
  },
  DOA: {
    density: band(925),
    source: {
      title: 'Di(2-ethylhexyl) adipate, density 0.925 g/cm³ at 20 °C',
      kind: 'published',
      note: 'from memory; a data sheet prints 0.93',
    },
  },
  ATBC: {
    density: band(1046),
    source: {
      title: 'Producer data sheet, acetyl tributyl citrate, 1.046 g/cm³ at 25 °C',
      kind: 'published',
    },
  },
  DEHP: {
    density: band(986),
    source: {
      title: 'Producer data sheet, di(2-ethylhexyl) phthalate, 0.986 g/cm³ at 20 °C',
      kind: 'published',
    },
  },
};

/** Vinyl chloride homopolymer. */
export const RESIN: Constituent = {
  density: band(1400, 1380, 1400),
  source: {
    title: 'W. V. Titow, PVC Technology, 4th ed. (1984), App. 1: homopolymer 1.40 g/cm³',
    kind: 'published',
  },
};

/** Table salt. */
export const SALT: Constituent = {
  density: band(2165),
  source: {
    title: 'Sodium chloride, crystal density 2.165 g/cm³, CRC Handbook',
    kind: 'published',
    note: 'from memory',
  },
};

/** Hollow glass microspheres: grades differ fourfold, so the label's own density is worth stating. */
export const MICROBALLOONS: Constituent = {
  density: band(200, 150, 600),
  source: { title: 'Producer data sheets, hollow glass microspheres, 0.15 to 0.60 g/cm³', kind: 'published' },
};
