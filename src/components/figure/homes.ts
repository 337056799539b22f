import type { Figure } from '../../core/quantity/figure.ts';
import type { Sheet } from '../../sheet/sheet.ts';

/** Where on a sheet a figure can be opened; each figure has one home. */
export type Home =
  'bait' | 'shot' | 'pour' | 'heat' | 'mold' | 'vent' | 'compound' | 'filling' | 'float' | 'other';

const HOMES: Readonly<Record<string, Home>> = {
  bait: 'bait',
  shot: 'shot',
  yield: 'shot',
  fill: 'filling',
  burn: 'heat',
  batch: 'shot',
  pour: 'pour',
  heat: 'heat',
  mold: 'mold',
  block: 'mold',
  vent: 'vent',
  hardness: 'compound',
  compound: 'compound',
  plastisol: 'compound',
  sink: 'float',
  float: 'float',
};

/** Figures that a table of the sheet opens in its own rows. */
export function figuresInTables(sheet: Sheet): Figure[] {
  return [
    ...sheet.features.flatMap((fill) => [fill.reachCold, fill.reachWarm, fill.reserveCold, fill.reserveWarm]),
    ...sheet.filling.gains,
    ...sheet.injectors.map((fit) => fit.pressure),
    ...sheet.hooks.flatMap((fit) => [fit.clearance, fit.ratio]),
    ...sheet.rigs.flatMap(({ stations }) => stations),
    ...sheet.batches.map((row) => row.compound),
    ...sheet.action.features.flatMap(({ onset, tested, flutter, beat, retrieves, compounds }) => [
      onset,
      ...(tested ? [tested] : []),
      flutter,
      beat,
      ...retrieves.flatMap(({ cauchy, step }) => [cauchy, step]),
      ...compounds.map((other) => other.onset),
    ]),
  ];
}

/** Every figure of a sheet that no table opens, by home and in the order of the sheet; nothing is left out. */
export function figuresByHome(sheet: Sheet): Readonly<Record<Home, readonly Figure[]>> {
  const elsewhere = new Set(figuresInTables(sheet).map((figure) => figure.key));
  const homes: Record<Home, Figure[]> = {
    bait: [],
    shot: [],
    pour: [],
    heat: [],
    mold: [],
    vent: [],
    compound: [],
    filling: [],
    float: [],
    other: [],
  };
  for (const figure of Object.values(sheet.figures)) {
    if (elsewhere.has(figure.key)) continue;
    homes[HOMES[figure.key.split('.')[0] ?? ''] ?? 'other'].push(figure);
  }
  return homes;
}

/** A figure that every sheet has, from the sheet or from what is brief of it. */
export function figureOf<Kind>(
  sheet: Pick<Sheet, 'id'> & { readonly figures: Readonly<Record<string, Kind>> },
  key: string,
): Kind {
  const figure = sheet.figures[key];
  if (!figure) throw new RangeError(`${sheet.id}: the sheet has no figure "${key}"`);
  return figure;
}
