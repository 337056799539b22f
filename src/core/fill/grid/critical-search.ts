import { interpolate } from '../../numeric/root.ts';
import { filledFrom } from './filled-share.ts';

/** A cavity under a shot, at viscosities that are tried. */
export interface Trials {
  /** What has been tried so far, ln of viscosity over the given one. */
  readonly tried: () => readonly number[];
  /** Share of each feature that fills at a viscosity exp(at) times the given one. */
  readonly sharesAt: (at: number) => readonly number[];
}

/** How far the viscosity is taken up and down from the given one, in ln: reserves from 0.1 to 10. */
const WIDEST = 2 * Math.log(10);

/** Runs of one search at most [1]. */
const MOST = 20;

/** A feature's stiffest melt under known conditions, and how its share falls with stiffer ones. */
export interface KnownCritical {
  /** ln of the stiffest melt relative to the given one. */
  readonly at: number;
  /** How far beyond it, in ln: from 0, rising. */
  readonly beyond: readonly number[];
  /** The share there over the one that counts as filled [1]: from 1, falling. */
  readonly shares: readonly number[];
}

/** Where a search looks first, and when it is content. */
interface Wanted {
  /** Share that counts as filled [1]. */
  readonly share: number;
  /** Of the feature [1]. */
  readonly cells: number;
  /** Where the first run is made, in ln. */
  readonly first: number;
  /** How far on when that one fills, in ln. */
  readonly stride: number;
  /** Each stride over the last [1]. */
  readonly growth: number;
  /** How far off the answer may be, in ln. */
  readonly tolerance: number;
  /** How the share is expected to fall. */
  readonly known?: KnownCritical;
}

interface Run {
  /** ln of the viscosity relative to the given one. */
  readonly at: number;
  readonly share: number;
}

/** Where a feature's end is expected, and how far off that may be, in ln. */
interface Aim {
  readonly at: number;
  readonly error: number;
}

/** What the runs so far tell of a feature. */
interface Found {
  /** Stiffest that filled below the thinnest that did not. */
  readonly low: number;
  /** Those that came short, thinnest first. */
  readonly short: readonly Run[];
}

function found(trials: Trials, feature: number, wanted: number): Found {
  const runs = trials.tried().map((at) => ({ at, share: trials.sharesAt(at)[feature]! }));
  const short = runs.filter(({ share }) => share < wanted).sort((a, b) => a.at - b.at);
  // What fills beyond a melt that does not is no reserve.
  const high = short[0]?.at ?? Infinity;
  const below = runs.filter(({ at, share }) => share >= wanted && at < high);
  return { low: Math.max(-Infinity, ...below.map(({ at }) => at)), short };
}

/** Shares below this part of the wanted one tell nothing of how far off the end is [1]. */
const TELLING = 0.2;
/** Slope from which a share falls steeply, as where a part is cut off at its root [1]. */
const STEEP = 1;
/** How unlike the fall of a share under other conditions may be: of the way bridged by it, gentle and steep, and of its height [1]. */
const [UNLIKE, DEEP] = [[0.12, 0.5], 0.06] as const;
/** How much a slope itself changes a unit of ln [1]: a gentle one, a steep one for its slope and at most, and more in few cells. */
const BEND = { gentle: 0.5, steep: 2.5, most: 10, cells: 60 } as const;
/** How far off the guess from a single run is: of the way to it [1], and at least, in ln, since its slope is not known. */
const GUESS = [0.3, 0.1] as const;

/** How far beyond its end a feature has a share, as far as is known, in ln. */
const wayTo = ({ beyond, shares }: KnownCritical, share: number) =>
  interpolate([...shares].reverse(), [...beyond].reverse(), share);

/** From the fall of the share under known conditions. */
function byKnown({ at, share }: Run, known: KnownCritical, wanted: Wanted): Aim | undefined {
  const relative = share / wanted.share;
  if (known.shares.length < 2 || relative < known.shares.at(-1)!) return undefined;
  const way = wayTo(known, relative);
  const unlike = UNLIKE[(1 - relative) / way > STEEP ? 1 : 0];
  // Between two runs the fall is taken for straight, which it is not.
  const between = Math.min(...known.beyond.map((ln) => Math.abs(ln - way)));
  return { at: at - way, error: unlike * (way + between) + DEEP * (1 - relative) };
}

/** Along the line through the two thinnest runs that came short. */
function byLine([one, other]: readonly Run[], { share, cells }: Wanted): Aim | undefined {
  if (!one || !other || !(other.share < one.share) || other.share < TELLING * share) return undefined;
  const apart = other.at - one.at;
  const slope = (one.share - other.share) / apart;
  const way = (share - one.share) / slope;
  const own = slope > STEEP ? Math.min(BEND.most, BEND.steep * slope) : BEND.gentle;
  const bend = own + BEND.cells / cells;
  return { at: one.at - way, error: bend * way * (way + apart) };
}

/** A short feature got as far as √(1/viscosity) lets it. */
function byReach({ at, share }: Run, wanted: number): Aim {
  const way = 2 * Math.log(wanted / share);
  return { at: at - way, error: Math.max(GUESS[0] * way, GUESS[1]) };
}

/** The surest of all guesses; none where the thinnest run that came short hardly got anywhere. */
function aimed({ short }: Found, wanted: Wanted): Aim | undefined {
  const [thinnest] = short;
  if (!thinnest || thinnest.share < TELLING * wanted.share) return undefined;
  const known = wanted.known && byKnown(thinnest, wanted.known, wanted);
  const line = byLine(short, wanted);
  if (known && line) return known.error < line.error ? known : line;
  return known ?? line ?? byReach(thinnest, wanted.share);
}

/** How far beyond the expected end a run is placed at least, so that it comes short, in ln. */
const ASIDE = 0.012;

/** Where the next run tells most. */
function next({ low, short }: Found, aim: Aim | undefined, stride: number, wanted: Wanted): number {
  const high = short[0]?.at ?? Infinity;
  if (high === Infinity) return low === -Infinity ? wanted.first : low + stride;
  const middle = low === -Infinity ? high - stride : (low + high) / 2;
  // What lies further below what has filled than it may be off is no help.
  if (!aim || aim.at + 2 * aim.error < low) return middle;
  const least = low === -Infinity ? low : low + 0.25 * (high - low);
  const most = high - Math.min(0.25 * (high - low), Math.max(0.25 * (high - aim.at), 0.5 * aim.error));
  return Math.max(least, Math.min(most, aim.at + Math.max(ASIDE, 0.6 * aim.error)));
}

const within = (at: number) => Math.min(WIDEST, Math.max(-WIDEST, at));

/** ln of the stiffest melt with which a feature fills, relative to the given one. */
function critical(trials: Trials, feature: number, wanted: Wanted): number {
  let stride = wanted.stride;
  for (let run = 0; ; run++) {
    const known = found(trials, feature, wanted.share);
    const { low, short } = known;
    const high = short[0]?.at ?? Infinity;
    const aim = aimed(known, wanted);
    if (low >= WIDEST || high <= -WIDEST) return within(Math.max(low, -WIDEST));
    const middle = (within(low) + within(high)) / 2;
    if (aim && aim.error <= wanted.tolerance) return within(Math.max(low, aim.at));
    if (high - low <= 2 * wanted.tolerance || run === MOST) return middle;
    const unseen = run === 0 && !aim && wanted.first > low && wanted.first < high;
    trials.sharesAt(within(unseen ? wanted.first : next(known, aim, stride, wanted)));
    if (run > 0) stride *= wanted.growth;
  }
}

/**
 * Stiffest melt of a feature of which nothing is known.
 *
 * @param trials - from `viscosityTrials`; what other features tried counts
 * @param feature - index of the feature
 * @param cells - how many it has [1]
 * @param tolerance - how far off the answer may be, in ln
 * @returns ln of the stiffest melt relative to the given one, −4.6 to 4.6
 *
 * Valid: while the feature stops by freezing along its length; where it jumps from short to full within a bracket of twice
 * the tolerance.
 * Cost: 4 to 8 filling runs.
 * Source: secant method on the share that fills, from the short side; own estimates of its errors.
 */
export function soughtCritical(trials: Trials, feature: number, cells: number, tolerance: number): number {
  const share = filledFrom(cells);
  return critical(trials, feature, { share, cells, first: 0, stride: 1.2, growth: 1, tolerance });
}

/** How far beyond the stiffest melt the fall of a share is looked at, and how far it is followed, in ln. */
const [BEYOND, FOLLOWED] = [0.2, 0.5];

/**
 * How the share of a feature falls beyond its stiffest melt.
 *
 * @param trials - those in which it was found
 * @param feature - index of the feature
 * @param cells - how many it has [1]
 * @param at - ln of its stiffest melt relative to the given one
 * @returns `at` with the share over what is tried up to half a unit beyond
 *
 * Cost: a filling run where nothing was tried from 0.12 to 0.5 beyond.
 * Source: definition.
 */
export function knownCritical(trials: Trials, feature: number, cells: number, at: number): KnownCritical {
  const near = (ln: number) => ln > at + 0.6 * BEYOND && ln <= at + FOLLOWED;
  if (!trials.tried().some(near)) trials.sharesAt(at + BEYOND);
  const [beyond, shares] = [[0], [1]];
  const filled = filledFrom(cells);
  for (const ln of [...trials.tried()].sort((a, b) => a - b)) {
    const share = trials.sharesAt(ln)[feature]! / filled;
    if (ln <= at || ln > at + FOLLOWED || !(share < shares.at(-1)!)) continue;
    beyond.push(ln - at);
    shares.push(share);
  }
  return { at, beyond, shares };
}

/** Where the first run of an expected end is placed: where a share that falls steeply has come down to this [1]. */
const AHEAD = 0.75;

const ahead = (known: KnownCritical, most: number) => Math.min(most, Math.max(ASIDE, wayTo(known, AHEAD)));

/**
 * Stiffest melt of a feature under conditions a little off known ones: as a rule one run that comes short, put right by how
 * the share fell under the known ones.
 *
 * @param trials - of the new conditions
 * @param feature - index of the feature
 * @param cells - how many it has [1]
 * @param known - under the old conditions
 * @param guess - by how much it is expected to change, in ln
 * @returns ln of the stiffest melt relative to the given one
 *
 * Valid: within 0.04.
 * Cost: 1 or 2 filling runs, 5 where the share falls steeply or far from what was expected.
 * Source: own derivation.
 */
export function shiftedCritical(
  trials: Trials,
  feature: number,
  cells: number,
  known: KnownCritical,
  guess: number,
): number {
  const first = known.at + guess + ahead(known, 0.12);
  const search = {
    share: filledFrom(cells),
    cells,
    first,
    stride: 0.15,
    growth: 1.8,
    tolerance: 0.04,
    known,
  };
  return critical(trials, feature, search);
}

/** By how much stiffer a melt fills on a grid of half the pitch, on the mean of 20 parts, in ln. */
const FINER = 0.09;

/**
 * Stiffest melt of a feature that is known from a grid of twice the pitch.
 *
 * @param trials - on the finer grid
 * @param feature - index of the feature
 * @param cells - how many it has [1]
 * @param known - on the coarser grid
 * @returns ln of the stiffest melt relative to the given one
 *
 * Valid: within 0.015, for 75 parts of 59 molds; 0.004 on the mean.
 * Cost: 1 or 2 filling runs, 5 where the share falls steeply, none for one that is like another.
 * Source: as `soughtCritical`.
 */
export function closerCritical(trials: Trials, feature: number, cells: number, known: KnownCritical): number {
  const first = known.at + FINER + ahead(known, 0.05);
  const search = {
    share: filledFrom(cells),
    cells,
    first,
    stride: 0.12,
    growth: 1.8,
    tolerance: 0.015,
    known,
  };
  return critical(trials, feature, search);
}
