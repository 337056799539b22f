import { between, positive } from '../quantity/guard.ts';

/** Roots and coefficients of the mean temperature, slot and tube. */
const SLOT = [
  { root: 1.6815953222390867, weight: 0.9103521682290433 },
  { root: 5.66985734589527, weight: 0.053142549721751 },
  { root: 9.668242462510733, weight: 0.015278927304860442 },
];
const TUBE = [
  { root: 2.7043644198824692, weight: 0.819050420792251 },
  { root: 6.679031449346734, weight: 0.09752692685564697 },
  { root: 10.67337953805402, weight: 0.032503993830102905 },
];

/**
 * Roots λₙ of the thermal entry problem and their weights in the mean temperature.
 *
 * @param shape - slot with both walls cold, or round tube
 * @returns first three λₙ and weights Bₙ [1]
 *
 * Cost: constant.
 * Source: Graetz (1885); Shah & London (1978), from memory; values recomputed.
 */
export function graetzRoots(
  shape: 'slot' | 'tube',
): readonly { readonly root: number; readonly weight: number }[] {
  return shape === 'slot' ? SLOT : TUBE;
}

/**
 * Excess temperature left in the mean of melt that flows steadily through a cold channel.
 *
 * @param shape - slot with both walls cold, or round tube
 * @param distance - ζ = αx/(1.5·U·(h/2)²) for a slot, αx/(2·U·R²) for a tube [1], 0.03 or more
 * @returns (T_mean − T_wall)/(T_in − T_wall) [1]
 * @throws {RangeError} when `distance` is below 0.03 or not finite
 *
 * Valid: developed laminar flow, constant properties; three terms, error within 1e-4 at 0.03 and 1e-6 from 0.06 on.
 * Cost: three exponentials.
 * Source: Graetz (1885); Shah & London (1978), from memory; roots recomputed.
 */
export function flowingMeanExcess(shape: 'slot' | 'tube', distance: number): number {
  between('flowingMeanExcess: distance', distance, 0.03, 1e6);
  return graetzRoots(shape).reduce(
    (sum, { root, weight }) => sum + weight * Math.exp(-root * root * distance),
    0,
  );
}

/**
 * Largest skin on one wall of a slot that is fed with hot melt for ever.
 *
 * @param gap - between the walls [m]
 * @param fed - no-flow, wall and bulk temperatures [K]
 * @param nusselt - on the hydraulic diameter [1]
 * @returns δ∞ = 2hr/(Nu + 4r), r = (T_noFlow − T_wall)/(T_bulk − T_noFlow) [m]: always below half the gap
 * @throws {RangeError} unless wall < no-flow < bulk and gap and Nusselt number are positive
 *
 * Valid: steady feed; leaving it out is on the safe side for filling.
 * Cost: constant.
 * Source: heat balance at the skin (own derivation); Nu from Shah & London (1978).
 */
export function steadySkin(
  gap: number,
  fed: { readonly noFlow: number; readonly wall: number; readonly bulk: number },
  nusselt = 7.5407,
): number {
  positive('steadySkin: noFlow − wall', fed.noFlow - fed.wall);
  positive('steadySkin: bulk − noFlow', fed.bulk - fed.noFlow);
  const r = (fed.noFlow - fed.wall) / (fed.bulk - fed.noFlow);
  return (2 * positive('steadySkin: gap', gap) * r) / (positive('steadySkin: nusselt', nusselt) + 4 * r);
}

/**
 * Time in which a skin grows to a thickness while hot melt flows past it.
 *
 * @param skin - thickness on one wall [m], below `limit`
 * @param limit - largest skin [m], Infinity without feed
 * @param eta - erf⁻¹ of the dimensionless no-flow temperature [1]
 * @param diffusivity - α [m²/s]
 * @returns time [s]
 * @throws {RangeError} when `skin` is not below `limit` or an input is not positive
 *
 * Valid: as `steadySkin`.
 * Cost: constant.
 * Source: dδ/dt = (2η²α/δ)(1 − δ/δ∞), integrated (own derivation).
 */
export function skinGrowthTime(skin: number, limit: number, eta: number, diffusivity: number): number {
  positive('skinGrowthTime: skin', skin);
  positive('skinGrowthTime: limit − skin', Math.min(limit - skin, 1));
  const rate =
    2 * positive('skinGrowthTime: eta', eta) ** 2 * positive('skinGrowthTime: diffusivity', diffusivity);
  if (limit === Infinity) return (skin * skin) / (2 * rate);
  return (-skin * limit - limit * limit * Math.log(1 - skin / limit)) / rate;
}
