import { band, type Band } from '../quantity/band.ts';
import { need, needNonNegative, needPositive } from '../quantity/guard.ts';
import { CLINGING_SHARE } from '../shot/batch.ts';
import { filledDensity, hotDensity } from '../shot/compound-density.ts';
import { MICROBALLOONS, SALT } from '../shot/constituents.ts';
import { INJECTOR_RESERVE, wholeShots } from '../shot/injector-fit.ts';
import { shotMass } from '../shot/shot-volume.ts';
import { rotation, type Rotation } from './rotation.ts';
import type {
  Balance,
  Measured,
  MoldPlan,
  PlanMold,
  PlanOrder,
  PlanRequest,
  SessionPlan,
} from './session-parts.ts';
import { endwise, sum, times, type End } from './endwise.ts';

/** Glitter and liquid colour over liquid compound, by volume [1]: common practice, half to two teaspoons a cup. */
export const GLITTER_SHARE: Band = band(1 / 48, 1 / 96, 1 / 24);
/** A fifth of a teaspoon to a whole one a cup of eight fluid ounces [1]: common practice. */
export const COLOUR_SHARE: Band = band(1 / 96, 1 / 240, 1 / 48);

function checked(request: PlanRequest): void {
  const { orders, density, capacity, heel, remelt, salt, microballoons, shelf } = request;
  needPositive('sessionPlan', { density: density.low, capacity });
  needNonNegative('sessionPlan', { heel, shelf: shelf ?? 0 });
  need(remelt >= 0 && remelt <= 0.5, 'sessionPlan', 'old sprues of 0 to 50 %', `${100 * remelt} %`);
  need(salt >= 0 && salt <= 0.4, 'sessionPlan', 'salt of 0 to 40 %', `${100 * salt} %`);
  need(
    microballoons >= 0 && microballoons <= 0.1,
    'sessionPlan',
    'hollow glass of 0 to 10 %',
    `${100 * microballoons} %`,
  );
  for (const { baits } of orders) {
    need(
      Number.isInteger(baits) && baits >= 0 && baits <= 100_000,
      'sessionPlan',
      'whole baits of 0 to 100 000',
      baits,
    );
  }
}

/**
 * Hot melt of each colour of a two-colour shot.
 *
 * @param mold - shot and channels [m³], share of the bait ahead of the change of colour [1], where the gate is
 * @returns melt ahead and behind [m³], together the whole shot; null when the bait has one colour
 *
 * Valid: the part that the gate feeds takes sprue, runners and gates.
 * Cost: constant.
 * Source: sum of the parts.
 */
export function colourShots({ split, shot, channels, gate }: PlanMold): MoldPlan['colours'] {
  if (split === undefined) return null;
  const part = (end: End, share: number, extra: number) => share * (shot[end] - channels) + extra;
  const [first, second] = gate === 'tail' ? [0, channels] : [channels, 0];
  return [endwise((end) => part(end, split, first)), endwise((end) => part(end, 1 - split, second))];
}

function moldPlan({ mold, baits }: PlanOrder, capacity: number): MoldPlan {
  const shots = Math.ceil(baits / mold.cavities);
  const warmUps = shots > 0 ? mold.warmUps : 0;
  const perFilling = wholeShots(mold.shot, capacity);
  const fillingsEach = perFilling >= 1 ? 1 : Math.ceil((mold.shot.high * (1 + INJECTOR_RESERVE)) / capacity);
  return {
    id: mold.id,
    baits,
    shots,
    warmUps,
    shot: mold.shot,
    perFilling,
    fillings: (shots + warmUps) * fillingsEach,
    colours: colourShots(mold),
  };
}

interface Melt {
  readonly plan: MoldPlan;
  /** Mass of one shot, and of its channels [kg]. */
  readonly shot: Band;
  readonly sprue: Band;
}

function balanceOf(melts: readonly Melt[], heel: Band, remelt: number): Balance {
  const total = (pick: (melt: Melt, end: End) => number) =>
    endwise((end) => melts.reduce((all, melt) => all + pick(melt, end), 0));
  const bait = ({ shot, sprue }: Melt, end: End) => shot[end] - sprue[end];
  const all = ({ plan }: Melt) => plan.shots + plan.warmUps;
  const clinging = total((melt, end) => CLINGING_SHARE * all(melt) * melt.shot[end]);
  const out = {
    baits: total((melt, end) => melt.plan.shots * bait(melt, end)),
    sprues: total((melt, end) => all(melt) * melt.sprue[end]),
    scrap: total((melt, end) => melt.plan.warmUps * bait(melt, end)),
    clinging,
    heel: melts.some(({ plan }) => plan.shots > 0) ? heel : band(0),
  };
  const heated = sum(Object.values(out));
  return { ...out, heated, raw: times(heated, 1 - remelt), remelted: times(heated, remelt) };
}

function measuredOf(raw: Band, { density, salt, microballoons }: PlanRequest): Measured {
  const base = 1 - salt - microballoons;
  const liquid = endwise((end) => (raw[end] * base) / density.value);
  return {
    liquid,
    salt: times(raw, salt),
    microballoons: times(raw, microballoons),
    glitter: band(
      liquid.value * GLITTER_SHARE.value,
      liquid.low * GLITTER_SHARE.low,
      liquid.high * GLITTER_SHARE.high,
    ),
    colour: band(
      liquid.value * COLOUR_SHARE.value,
      liquid.low * COLOUR_SHARE.low,
      liquid.high * COLOUR_SHARE.high,
    ),
  };
}

function shelfVerdict(liquid: Band, shelf: number | undefined): SessionPlan['shelf'] {
  if (shelf === undefined) return null;
  if (liquid.high <= shelf) return 'enough';
  return liquid.value <= shelf ? 'barely' : 'short';
}

/**
 * Density of a compound with salt and hollow glass stirred in.
 *
 * @param density - without them [kg/m³]
 * @param salt - mass fraction of salt in the whole [1]
 * @param microballoons - mass fraction of hollow glass in the whole [1]
 * @returns density band [kg/m³]
 * @throws {RangeError} when the fractions leave nothing for the compound
 *
 * Valid: additive volumes.
 * Cost: ten evaluations of the rule of mixtures.
 * Source: rule of mixtures, 1/ρ = Σ wᵢ/ρᵢ.
 */
export function stirredDensity(density: Band, salt: number, microballoons: number): Band {
  need(salt + microballoons < 1, 'stirredDensity', 'fractions below 1 together', salt + microballoons);
  const light = filledDensity(density, MICROBALLOONS.density, microballoons / (1 - salt));
  return filledDensity(light, SALT.density, salt);
}

/**
 * A session at the bench: what to heat, how often to fill the injector, in what order to shoot, how long it takes.
 *
 * @param request - molds and baits, compound, injector, heel, old sprues, salt and hollow glass, shelf [SI]
 * @returns the plan [SI]; every band end by end, so that what goes in is what comes out at each end
 * @throws {RangeError} when a share or a number of baits is out of range, or a size is not positive
 *
 * Valid: no spoiled shots; heating the compound and cleaning up are not in the time.
 * Cost: linear in the shots.
 * Source: mass balance; a tenth on cup and injector, a tenth of headroom, glitter and colour: common practice.
 */
export function sessionPlan(request: PlanRequest): SessionPlan {
  checked(request);
  const { orders, capacity, heel, remelt, shelf } = request;
  const density = stirredDensity(request.density, request.salt, request.microballoons);
  const hot = hotDensity(density);
  const melts = orders.map((order): Melt => {
    const { mold } = order;
    const shot = shotMass(mold.shot, hot);
    const sprue = endwise((end) => (shot[end] * mold.channels) / mold.shot[end]);
    return { plan: moldPlan(order, capacity), shot, sprue };
  });
  const molds = melts.map(({ plan }) => plan);
  const balance = balanceOf(melts, times(density, heel), remelt);
  const measured = measuredOf(balance.raw, request);
  const turns = rotationOf(orders, molds, 'value');
  return {
    molds,
    baits: molds.reduce((all, plan) => all + plan.baits, 0),
    shots: molds.reduce((all, plan) => all + plan.shots + plan.warmUps, 0),
    fillings: molds.reduce((all, plan) => all + plan.fillings, 0),
    hot: sum(molds.map((plan) => times(plan.shot, plan.shots + plan.warmUps))),
    balance,
    measured,
    shelf: shelfVerdict(measured.liquid, shelf),
    time: endwise((end) => (end === 'value' ? turns : rotationOf(orders, molds, end)).time),
    rotation: turns,
  };
}

function rotationOf(orders: readonly PlanOrder[], molds: readonly MoldPlan[], end: End): Rotation {
  return rotation(
    orders.map(({ mold }, index) => ({
      id: mold.id,
      shots: molds[index]!.shots + molds[index]!.warmUps,
      handling: mold.handling[end],
      rest: mold.closed[end] + mold.pause,
    })),
  );
}
