import { band, quadrature, type Band } from '../quantity/band.ts';
import type { Source } from '../quantity/figure.ts';
import { need } from '../quantity/guard.ts';
import type { FeatureMeasure } from '../section/geometry.ts';
import { STROUHAL, wetFrequency } from './beat.ts';
import { bendingSpeed } from './bending.ts';
import { flutterSpeed } from './flutter.ts';
import { equivalentThickness, meanWidth, stripLimpness, type Strip } from './strip.ts';

/** How a kind of part is set moving by the water. */
export interface Manner {
  /** Held across the stream: it has to fold, and to be pushed no slower than half its own frequency. */
  readonly across: boolean;
  /** Share of the flutter speed of a flat strip from which it moves [1]; null when flutter plays no part. */
  readonly flutterShare: Band | null;
}

const TRAILING: Manner = { across: false, flutterShare: band(1, 0.7, 1.5) };

/** Manner by kind of part. A curl leans into the stream, so it moves well below the speed of a flat strip. */
export const MANNERS: Readonly<Record<FeatureMeasure['kind'], Manner>> = {
  'curl-tail': { across: true, flutterShare: band(0.5, 0.25, 1) },
  'ribbon-tail': TRAILING,
  fin: TRAILING,
  arm: TRAILING,
  leg: TRAILING,
  rib: TRAILING,
  paddle: { across: true, flutterShare: null },
  claw: { across: true, flutterShare: null },
};

/** Where the rule comes from. */
export const ONSET_SOURCES: readonly Source[] = [
  {
    title: 'E. de Langre, Annu. Rev. Fluid Mech. 40 (2008) 141: Cauchy number of a strip bent by a stream',
    kind: 'published',
    note: 'from memory',
  },
  {
    title:
      'C. Eloy, C. Souilliez & L. Schouveiler, J. Fluids Struct. 23 (2007) 904, slender limit; R. W. Gregory & M. P. Païdoussis, Proc. R. Soc. A 293 (1966) 512: flutter of a strip in an axial stream',
    kind: 'published',
  },
  {
    title:
      'A curl moves from a quarter of a flat strip’s flutter speed up; a part across the stream moves once it folds (Cauchy number 8, 1 to 10) and eddies push at half its own frequency or faster',
    kind: 'estimate',
  },
];

/** A thin part in water: its shape, the compound's modulus [Pa], densities of plastic and water [kg/m³]. */
export interface Mover {
  readonly kind: FeatureMeasure['kind'];
  readonly strip: Strip;
  readonly density: number;
  readonly water: number;
  /** Of the body in front of it, across the stream [m]. */
  readonly body: number;
}

/** The even strip that bends as far as a tapered one, in a compound. */
function trailing({ strip, density, water }: Mover, modulus: number) {
  const thickness = equivalentThickness(strip);
  return { length: strip.length, width: meanWidth(strip), thickness, modulus, density, water };
}

/** Cauchy number from which a part across the stream counts as folded [1]. */
const FOLDED: Band = band(8, 1, 10);

/** Eddies push a part along from this share of its own frequency up [1]. */
const PUSHED: Band = band(0.5, 0.25, 1);

/** Above this multiple of its own frequency eddies pass a trailing part by [1]. */
const PASSED: Band = band(2, 1, 4);

/** Speeds that decide when a part begins to move, for one modulus [m/s, Hz]. */
export interface ActionSpeeds {
  /** At a Cauchy number of 8. */
  readonly folding: number;
  /** Of a flat strip that trails. */
  readonly flutter: number;
  /** At which eddies off the body, or off the part when it stands across, come at its own frequency. */
  readonly inStep: number;
  /** Its own frequency in water. */
  readonly frequency: number;
}

/** Mass ratios beyond which the flutter theory says nothing are taken at the end of its range. */
const HEAVIEST_WATER = 0.98;

function boundedWidth(even: ReturnType<typeof trailing>) {
  const most = (HEAVIEST_WATER / (1 - HEAVIEST_WATER)) * even.density * even.thickness;
  return { ...even, width: Math.min(even.width, (most * 4) / (Math.PI * even.water)) };
}

/**
 * The speeds at which the water begins to bend, shake and push a thin part.
 *
 * @param mover - kind, strip [m], densities [kg/m³]
 * @param modulus - Young's modulus of the compound [Pa]
 * @returns speeds [m/s] and the part's own frequency in water [Hz]
 * @throws {RangeError} when a size, density or the modulus is not positive
 *
 * Valid: parts longer than wide; each speed ∝ √E.
 * Cost: as `flutterSpeed`.
 * Source: `bendingSpeed` and `wetFrequency` of the part from root to tip; `flutterSpeed` of the even strip that bends as far.
 */
export function actionSpeeds(mover: Mover, modulus: number): ActionSpeeds {
  const even = trailing(mover, modulus);
  const { strip, density, water } = mover;
  const frequency = wetFrequency({ strip, modulus, density, water });
  return {
    folding: bendingSpeed({ limpness: stripLimpness(mover.strip), modulus, water: mover.water }),
    flutter: flutterSpeed(boundedWidth(even)),
    inStep: (frequency * (MANNERS[mover.kind].across ? even.width : mover.body)) / STROUHAL,
    frequency,
  };
}

/** When a thin part is expected to move. */
export interface Onset {
  readonly speeds: ActionSpeeds;
  /** Speed from which it moves [m/s]. */
  readonly from: Band;
  /** Speeds at which eddies off the body shake a part that trails [m/s]; null when they play no part. */
  readonly shaken: { readonly from: Band; readonly to: Band } | null;
}

/** What widens an onset speed: Young's modulus [Pa], and a factor on the thickness for the cutting tolerance [1]. */
export interface OnsetSpread {
  readonly modulus: Band;
  readonly thickness: Band;
}

/**
 * Speed of retrieve from which a thin part moves.
 *
 * @param mover - kind, strip and body [m], densities [kg/m³]
 * @param spread - modulus [Pa] and tolerance factor on the thickness [1], with their bands
 * @param slowest - slowest speed that is fished [m/s]; eddies that are in step only below it do not count
 * @returns speeds [m/s], banded by the modulus, the tolerance and the rule itself
 * @throws {RangeError} as `actionSpeeds`
 *
 * Valid: an order of magnitude; the ratio of two shapes in one compound holds far better than either speed.
 * Cost: as `flutterSpeed`.
 * Source: own rule, see `ONSET_SOURCES`: a part across the stream, or curled, when all its conditions hold; one that
 * trails when it flutters or is shaken.
 */
export function onsetOf(mover: Mover, spread: OnsetSpread, slowest: number): Onset {
  const speeds = actionSpeeds(mover, spread.modulus.value);
  const { across, flutterShare } = MANNERS[mover.kind];
  const spreadOf = (share: Band, speed: number) =>
    quadrature(
      ({ modulus, thickness, ...x }) => {
        const stiffness = (modulus / spread.modulus.value) * thickness ** 3;
        return Math.sqrt(stiffness) * x.share * speed;
      },
      { ...spread, share },
    );
  const plain = ({ value, low, high }: Band) => band(value, low, high);
  const root = ({ value, low, high }: Band) =>
    band(...([value, low, high].map((x) => Math.sqrt(x / value)) as [number, number, number]));
  const flutter = spreadOf(flutterShare ?? band(1), speeds.flutter);
  if (across) {
    const conditions = [
      spreadOf(root(FOLDED), speeds.folding),
      spreadOf(PUSHED, speeds.inStep),
      ...(flutterShare ? [flutter] : []),
    ];
    return { speeds, from: plain(conditions.reduce((a, b) => (a.value >= b.value ? a : b))), shaken: null };
  }
  const [from, to] = [spreadOf(PUSHED, speeds.inStep), spreadOf(PASSED, speeds.inStep)];
  if (to.value < slowest) return { speeds, from: plain(flutter), shaken: null };
  return {
    speeds,
    from: plain(from.value < flutter.value ? from : flutter),
    shaken: { from: plain(from), to: plain(to) },
  };
}

/** How a part is expected to do at a speed. */
export type Chance = 'likely' | 'marginal' | 'unlikely';

/**
 * Whether a part moves at a speed.
 *
 * @param onset - as `onsetOf` gives it [m/s]
 * @param speed - of the retrieve [m/s]
 * @returns `likely` from the top of the band on, `unlikely` below its foot, `marginal` between; where eddies shake
 * a trailing part, `marginal` again once they pass it by
 * @throws {RangeError} when the speed is negative
 *
 * Cost: constant.
 * Source: definition.
 */
export function chanceAt({ from, shaken }: Pick<Onset, 'from' | 'shaken'>, speed: number): Chance {
  need(speed >= 0, 'chanceAt', 'a speed of 0 m/s or more', speed);
  if (speed < from.low) return 'unlikely';
  const inStep = !shaken || speed <= shaken.to.value;
  return speed >= from.high && inStep ? 'likely' : 'marginal';
}
