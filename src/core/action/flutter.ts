import { need, needPositive } from '../quantity/guard.ts';
import { addedMass } from './beat.ts';
import { minus, over, plus, polynomialRoots, times, turn, type Complex } from './complex.ts';

/** An even strip that trails in a stream: sizes [m], Young's modulus [Pa], densities of plastic and water [kg/m³]. */
export interface TrailingStrip {
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
  readonly modulus: number;
  readonly density: number;
  readonly water: number;
}

/** A neutral state of a strip in an axial stream, dimensionless. */
export interface NeutralState {
  /** u = U·L·√(mₐ/EI) [1]. */
  readonly speed: number;
  /** ω = Ω·L²·√((m + mₐ)/EI) [1]. */
  readonly frequency: number;
}

/**
 * Determinant of the four conditions at the ends of a strip that swings at a real frequency, over the product of
 * the differences of its wave numbers, so that equal ones give no false root.
 */
function endDeterminant(beta: number, { speed: u, frequency: w }: NeutralState): Complex {
  const k = polynomialRoots([1, 0, -u * u, -2 * Math.sqrt(beta) * u * w, -w * w]);
  const wave = k.map((one) => times(times(one, one), turn(one)));
  let sum: Complex = [0, 0];
  let differences: Complex = [1, 0];
  for (let a = 0; a < 4; a++) {
    for (let b = a + 1; b < 4; b++) {
      differences = times(differences, minus(k[b]!, k[a]!));
      const [c, d] = [0, 1, 2, 3].filter((i) => i !== a && i !== b) as [number, number];
      const sign = (a + b) % 2 === 1 ? 1 : -1;
      const root = minus(k[b]!, k[a]!);
      const tip = times(times(wave[c]!, wave[d]!), minus(k[d]!, k[c]!));
      sum = plus(sum, times([sign, 0], times(root, tip)));
    }
  }
  return over(sum, differences);
}

/** Newton's method on the two parts of the determinant; null when it runs away. */
function neutralNear(beta: number, start: NeutralState): NeutralState | null {
  let [u, w] = [start.speed, start.frequency];
  for (let step = 0; step < 40; step++) {
    const at = (du: number, dw: number) => endDeterminant(beta, { speed: u + du, frequency: w + dw });
    const [h, f] = [1e-6, at(0, 0)];
    const [fu, fw] = [at(h, 0), at(0, h)].map((near) => over(minus(near, f), [h, 0])) as [Complex, Complex];
    const size = fu[0] * fw[1] - fu[1] * fw[0];
    const du = (f[0] * fw[1] - f[1] * fw[0]) / size;
    const dw = (fu[0] * f[1] - fu[1] * f[0]) / size;
    const reach = Math.min(1, 0.5 / Math.hypot(du / u, dw / w));
    u -= reach * du;
    w -= reach * dw;
    if (!(u > 0.5 && u < 40 && w > 1 && w < 300)) return null;
    if (Math.hypot(du, dw) < 1e-9 * w) return { speed: u, frequency: w };
  }
  return null;
}

/** A known neutral state in the middle of each stretch of the stability curve, from which Newton's method walks. */
const STRETCHES: readonly (NeutralState & { readonly beta: number })[] = [
  { beta: 0.2, speed: 5.591, frequency: 13.71 },
  { beta: 0.5, speed: 9.322, frequency: 26.5 },
  { beta: 0.8, speed: 13.493, frequency: 44.83 },
  { beta: 0.95, speed: 17.672, frequency: 72.29 },
];

/** No stretch reaches further than this from its known state in mass ratio. */
const REACH = 0.31;

/** Longest step of the mass ratio on such a walk. */
const STRIDE = 0.04;

/** Neutral states along each stretch, so many strides of the mass ratio up or down from its middle, as far as walked. */
const trails = STRETCHES.map(() => new Map<number, NeutralState | null>());

/** The neutral state some strides along a stretch; null where it ends before. */
function onTrail(stretch: number, strides: number): NeutralState | null {
  const trail = trails[stretch]!;
  const known = trail.get(strides);
  if (known !== undefined) return known;
  const start = STRETCHES[stretch]!;
  const before = strides === 0 ? start : onTrail(stretch, strides - Math.sign(strides));
  const found = before && neutralNear(start.beta + strides * STRIDE, before);
  trail.set(strides, found);
  return found;
}

function walked(stretch: number, beta: number): NeutralState | null {
  const strides = Math.trunc((beta - STRETCHES[stretch]!.beta) / STRIDE);
  const near = onTrail(stretch, strides);
  return near && neutralNear(beta, near);
}

/**
 * Slowest neutral state of a strip held at its upstream end in an axial stream.
 *
 * @param beta - added mass over the whole mass, mₐ/(m + mₐ) [1], 0.05 to 0.98
 * @returns dimensionless speed and frequency at which it begins to flutter [1]
 * @throws {RangeError} outside the range
 *
 * Valid: strip much longer than wide. Wide strips and real ones are more stable than this (Eloy et al. 2007, 2008).
 * The speed jumps at a mass ratio of about 0.29, 0.67 and 0.93, where another mode takes over.
 * Cost: some 15 determinants of four waves a stretch, about a millisecond; the first calls walk the stretches, 30 ms in all.
 * Source: R. W. Gregory & M. P. Païdoussis, Proc. R. Soc. A 293 (1966) 512: η'''' + u²η'' + 2√β·u·η̇' + η̈ = 0;
 * C. Eloy, C. Souilliez & L. Schouveiler, J. Fluids Struct. 23 (2007) 904.
 */
export function neutralState(beta: number): NeutralState {
  need(beta >= 0.05 && beta <= 0.98, 'neutralState', 'a mass ratio of 0.05 to 0.98', beta);
  const states = STRETCHES.flatMap((start, stretch) =>
    Math.abs(start.beta - beta) <= REACH ? (walked(stretch, beta) ?? []) : [],
  );
  const slowest = states.reduce<NeutralState | null>(
    (least, state) => (least && least.speed <= state.speed ? least : state),
    null,
  );
  if (!slowest) throw new RangeError(`neutralState: wants a mass ratio with a neutral state, got ${beta}`);
  return slowest;
}

/**
 * Speed at which a straight, flat strip that trails in a stream begins to flutter.
 *
 * @param strip - sizes [m], modulus [Pa], densities of plastic and water [kg/m³]
 * @returns speed [m/s]
 * @throws {RangeError} when a number is not positive, or the strip is so thin or thick that its mass ratio leaves
 * 0.05 to 0.98
 *
 * Valid: as `neutralState`; a curled tail or a paddle moves well below this speed.
 * Cost: as `neutralState`.
 * Source: as `neutralState`.
 */
export function flutterSpeed(strip: TrailingStrip): number {
  needPositive('flutterSpeed', { ...strip });
  const { length, width, thickness, modulus, density, water } = strip;
  const moving = addedMass(width, water);
  const beta = moving / (moving + density * width * thickness);
  const rigidity = (modulus * width * thickness ** 3) / 12;
  return (neutralState(beta).speed * Math.sqrt(rigidity / moving)) / length;
}
