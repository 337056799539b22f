import { slabExcess } from '../heat/conduction-series.ts';
import { besselJ0, besselJ0Zeros } from '../numeric/bessel.ts';
import { between } from '../quantity/guard.ts';
import { erfc, erfInverse } from '../numeric/error-function.ts';
import { bisect, interpolate } from '../numeric/root.ts';

/** How a wetted section closes as it cools: still melt in a slot or a round channel, or a slot whose core stays hot. */
export type ClosingLaw = 'slot' | 'round' | 'fresh core';

/** Open share of a section over the time since it was wetted, for one no-flow temperature. */
export interface Closing {
  readonly law: ClosingLaw;
  /** Dimensionless no-flow temperature [1]. */
  readonly theta: number;
  /** Fo = α·t/L² at which it shuts, L half the gap or the radius [1]. */
  readonly shut: number;
  /** Squared open share at √(Fo/shut) = i/(length − 1) [1]. */
  readonly squares: Float64Array;
}

const NODES = 128;
const SAMPLES = 513;
const ZEROS = 40;
const SHORT_ROUND = 0.015;

/** Tables that are kept: the parts of a bait cool alike, so they ask for the same ones. */
const TABLES = 256;
const tables = new Map<string, Closing>();

let radial: Float64Array[] | undefined;

/** 2·J₀(λₙr)/(λₙJ₁(λₙ)) at r = k/NODES, one array of `ZEROS` a node; the same for every θ. */
function radialModes(): Float64Array[] {
  radial ??= Array.from({ length: NODES }, (_, k) =>
    Float64Array.from(
      besselJ0Zeros(ZEROS),
      ({ root, slope }) => (2 * besselJ0((root * k) / NODES)) / (root * slope),
    ),
  );
  return radial;
}

/** Excess temperature in a round bar at radius k/NODES; short times by the curved-wall expansion. */
function roundExcess(k: number, fourier: number): number {
  const r = k / NODES;
  if (fourier < SHORT_ROUND) {
    if (r < 0.05) return 1;
    const x = (1 - r) / (2 * Math.sqrt(fourier));
    const next = Math.exp(-x * x) / Math.sqrt(Math.PI) - x * erfc(x);
    return 1 - erfc(x) / Math.sqrt(r) - ((1 - r) * Math.sqrt(fourier) * next) / (4 * r ** 1.5);
  }
  const modes = radialModes()[k] as Float64Array;
  let sum = 0;
  besselJ0Zeros(ZEROS).every(({ root }, n) => {
    sum += (modes[n] as number) * Math.exp(-root * root * fourier);
    return root * root * fourier < 40;
  });
  return sum;
}

/** Fourier number at which the place k/NODES from the middle has cooled to θ. */
function shutTime(law: ClosingLaw, theta: number, k: number): number {
  if (law === 'fresh core') return (1 - k / NODES) ** 2 / (4 * erfInverse(theta) ** 2);
  const excess = (fo: number) => (law === 'slot' ? slabExcess(k / NODES, fo) : roundExcess(k, fo));
  const latest =
    (Math.log(law === 'slot' ? 4 / Math.PI : 1.602) - Math.log(theta)) / (law === 'slot' ? 2.4674 : 5.7831);
  return bisect((fo) => excess(fo) - theta, 1e-9, 1.2 * latest + 0.05, 46);
}

/**
 * How a section closes, tabulated once for a no-flow temperature.
 *
 * @param law - still melt in a slot or round channel, or a slot whose core stays hot
 * @param theta - dimensionless no-flow temperature [1], 0.005 to 0.985
 * @returns table for `openFraction` [1]
 * @throws {RangeError} when `theta` is outside 0.005 … 0.985
 *
 * Valid: walls at constant temperature, no latent heat. Open share within 1e-3 of the series.
 * Cost: 128 roots of the series, about 1 ms; nothing when it was asked for lately.
 * Source: Carslaw & Jaeger (1959), 3.3, 7.6, 13.3, from memory; fresh core: skins 2η√(αt) on a hot core (own
 * derivation).
 */
export function closing(law: ClosingLaw, theta: number): Closing {
  between('closing: theta', theta, 0.005, 0.985);
  const key = `${law} ${theta}`;
  const known = tables.get(key);
  if (known) return known;
  const table = tabulated(law, theta);
  if (tables.size >= TABLES) tables.clear();
  tables.set(key, table);
  return table;
}

function tabulated(law: ClosingLaw, theta: number): Closing {
  const shut = shutTime(law, theta, 0);
  const roots = [0];
  const squared = [1];
  for (let k = NODES - 1; k >= 0; k--) {
    roots.push(Math.sqrt(shutTime(law, theta, k) / shut));
    squared.push((k / NODES) ** 2);
  }
  const squares = Float64Array.from({ length: SAMPLES }, (_, i) =>
    interpolate(roots, squared, i / (SAMPLES - 1)),
  );
  return { law, theta, shut, squares };
}

/**
 * Share of the gap (or of the radius) that still flows.
 *
 * @param table - from `closing`
 * @param fourier - Fo = α·t/L² since it was wetted, L half the gap or the radius [1]
 * @returns open share [1], 1 when just wetted, 0 once shut
 *
 * Valid: as `closing`.
 * Cost: one look-up.
 * Source: as `closing`.
 */
export function openFraction(table: Closing, fourier: number): number {
  if (fourier <= 0) return 1;
  const place = Math.sqrt(fourier / table.shut) * (SAMPLES - 1);
  if (place >= SAMPLES - 1) return 0;
  const i = Math.floor(place);
  const a = table.squares[i]!;
  const b = table.squares[i + 1]!;
  return Math.sqrt(a + (b - a) * (place - i));
}
