import { band, type Band } from '../core/quantity/band.ts';
import type { Source } from '../core/quantity/figure.ts';

/** A number that no entry of the catalogue states, with its band and where it comes from. */
export interface Assumption extends Band {
  readonly source: Source;
}

const assume = (value: Band, kind: Source['kind'], title: string, note?: string): Assumption => ({
  ...value,
  source: { kind, title, ...(note === undefined ? {} : { note }) },
});

const celsius = (value: number, low = value, high = value): Band =>
  band(value + 273.15, low + 273.15, high + 273.15);

/** A block that has stood in a workshop [K]. */
export const COLD_MOLD = assume(celsius(22, 15, 27), 'common practice', 'Room temperature of a workshop');

/** A block after some shots at an easy pace [K]. */
export const WARM_MOLD = assume(
  celsius(55, 50, 60),
  'common practice',
  'A block warmed by its own shots, still handled with light gloves',
);

/** What a block that was warmed to a temperature may be off [K], either way. */
export const WARMED_TOLERANCE = assume(
  band(0, -5, 5),
  'estimate',
  'A block warmed on a hot plate and measured on its face with a contact thermometer, ± 5 °C (9 °F)',
);

/** A block in the middle of a run, while a bait cools in it [K]. */
export const WORKING_MOLD = assume(
  celsius(38, 30, 45),
  'common practice',
  'A block in a run, rested so that it stays below the ten-minute touch threshold of 48 °C in ISO 13732-1',
);

/** Emissivity of the block's outside by finish [1]. */
export const EMISSIVITY = {
  bare: assume(band(0.09, 0.05, 0.2), 'published', 'Emissivity of machined aluminium', 'from memory'),
  anodised: assume(band(0.8, 0.7, 0.9), 'published', 'Emissivity of anodised aluminium', 'from memory'),
} as const;

/** Time in which a hand empties the injector into the mold [s]. */
export const FILL_TIME = assume(band(2, 1, 4), 'common practice', 'A steady push takes one to four seconds');

/** Air around the block [K]. */
export const AMBIENT = assume(celsius(22, 15, 27), 'common practice', 'Room temperature of a workshop');

/** What melt loses between the cup and the gate in a preheated injector [K]. */
export const TRANSFER_LOSS = assume(
  band(5, 3, 15),
  'estimate',
  'Cooling of a melt column in a warm injector over the seconds between drawing and shooting',
);

/** Push of one hand on a plunger [N]. */
export const HAND_FORCE = assume(
  band(110, 60, 250),
  'published',
  'Seo et al., Human Factors 50 (2008) 227, Table 2: one-hand push 113 ± 19 N; low end from design grip strength, high end leaning on the plunger (estimate)',
);

/** Cutting tolerance on the gap of a cavity [m], either way. */
export const GAP_TOLERANCE = assume(
  band(0, -0.00003, 0.00003),
  'estimate',
  'Machining of an aluminium half, ± 0.03 mm on the gap',
);

/** Time from one shot to the next into the same block, beyond the time it stays shut [s]. */
export const HANDLING_TIME = assume(
  band(60, 30, 120),
  'common practice',
  'Opening, lifting the bait out, closing, drawing and shooting again',
);

/** Safety factor on the clamping force [1]. */
export const CLAMP_FACTOR = assume(
  band(1.5),
  'common practice',
  'Full plunger pressure over the whole projected area, with half as much again',
);

/** Skin before contact [K]. */
export const SKIN = assume(
  celsius(33),
  'published',
  'Henriques & Moritz, Am. J. Pathol. 23 (1947) 531',
  'from memory',
);

/** Margin of every pour below the flash point [K]. */
export const FLASH_MARGIN = assume(
  band(15),
  'common practice',
  'Keep a heated oil well below its flash point',
);

/** Water that a bait is judged in [K]. */
export const WATER = assume(celsius(20), 'common practice', 'Water at 20 °C, fresh or of salinity 35');

/** Weight at the nose that a rigged bait is judged with [kg], of lead. */
export const NOSE_WEIGHT = assume(
  band(0.028349523125 / 8),
  'common practice',
  'An eighth of an ounce of lead at the nose, 11 340 kg/m³',
);

/** Density of lead [kg/m³]; handbook value, from memory. */
export const LEAD_DENSITY = 11340;

/** Mass fractions that people stir into a compound [1]: common practice. */
export const SALT_CHOICES = [0.1, 0.2] as const;
export const MICROBALLOON_CHOICES = [0.01, 0.02] as const;

/** Melt against the mold's metal [W/(m²·K)]. */
export const CONTACT_COEFFICIENT = assume(
  band(2500, 1000, 10000),
  'published',
  'Massé et al., Int. J. Heat Mass Transfer 47 (2004) 2015; Babenko et al., Appl. Therm. Eng. 130 (2018) 865: 1e3 to a few 1e4',
);

/** Cutting tolerance on the depth of a vent [m], either way. */
export const VENT_TOLERANCE = assume(
  band(0, -0.000005, 0.000005),
  'estimate',
  'Two ten-thousandths of an inch on a ground or finely milled vent',
);

/** Speeds of a retrieve, slow to fast [m/s]. */
export const RETRIEVES = {
  slow: assume(band(0.2), 'common practice', 'A crawl: a turn of the handle in two seconds or more'),
  medium: assume(band(0.4), 'common practice', 'A steady retrieve: about a turn a second'),
  fast: assume(band(0.8), 'common practice', 'Burned back: two turns a second or more'),
} as const;

/** What a caliper may be off on a soft bait [m], either way, when its entry does not say. */
export const CALIPER_TOLERANCE = assume(
  band(0, -0.00005, 0.00005),
  'estimate',
  'A caliper closed on soft plastic until it just drags, ± 0.05 mm',
);

/** More warm-up shots than this are better spent on a hot plate [1]: common practice. */
export const MOST_WARM_UPS = 12;
