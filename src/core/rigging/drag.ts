import { need } from '../quantity/guard.ts';

/**
 * Drag coefficient of a sphere, on its frontal area.
 *
 * @param reynolds - on the diameter [1], above 0, up to 1000
 * @returns drag coefficient [1]
 * @throws {RangeError} outside 0 to 1000
 *
 * Valid: smooth sphere, steady motion.
 * Cost: constant.
 * Source: Schiller & Naumann (1933), C = 24/Re·(1 + 0.15·Re^0.687).
 */
export function sphereDragSchillerNaumann(reynolds: number): number {
  need(reynolds > 0 && reynolds <= 1000, 'sphereDragSchillerNaumann', 'Re above 0, up to 1000', reynolds);
  return (24 / reynolds) * (1 + 0.15 * reynolds ** 0.687);
}

/** Ranges of Clift, Grace & Weber, each up to its own Reynolds number; w is log₁₀ Re. */
const CLIFT: readonly (readonly [upTo: number, drag: (re: number, w: number) => number])[] = [
  [0.01, (re) => 3 / 16 + 24 / re],
  [20, (re, w) => (24 / re) * (1 + 0.1315 * re ** (0.82 - 0.05 * w))],
  [260, (re) => (24 / re) * (1 + 0.1935 * re ** 0.6305)],
  [1500, (_, w) => 10 ** (1.6435 - 1.1242 * w + 0.1558 * w ** 2)],
  [1.2e4, (_, w) => 10 ** (-2.4571 + 2.5558 * w - 0.9295 * w ** 2 + 0.1049 * w ** 3)],
  [4.4e4, (_, w) => 10 ** (-1.9181 + 0.637 * w - 0.0636 * w ** 2)],
  [3.38e5, (_, w) => 10 ** (-4.339 + 1.5809 * w - 0.1546 * w ** 2)],
];

/**
 * Drag coefficient of a sphere over a wide range, on its frontal area.
 *
 * @param reynolds - on the diameter [1], above 0, up to 3.38·10⁵
 * @returns drag coefficient [1]
 * @throws {RangeError} outside 0 to 3.38·10⁵
 *
 * Valid: smooth sphere, steady motion, below the drag crisis.
 * Cost: constant.
 * Source: Clift, Grace & Weber, Bubbles, Drops and Particles (1978), Table 5.2.
 */
export function sphereDragClift(reynolds: number): number {
  const range = CLIFT.find(([upTo]) => reynolds <= upTo);
  need(reynolds > 0 && range !== undefined, 'sphereDragClift', 'Re above 0, up to 3.38e5', reynolds);
  return range[1](reynolds, Math.log10(reynolds));
}

/**
 * Drag coefficient of an endless cylinder across the flow, on diameter times length.
 *
 * @param reynolds - on the diameter [1], 10⁻⁴ to 2·10⁵
 * @returns drag coefficient [1]
 * @throws {RangeError} outside 10⁻⁴ to 2·10⁵
 *
 * Valid: smooth cylinder, steady flow.
 * Cost: constant.
 * Source: Sucker & Brauer, Wärme- und Stoffübertragung 8 (1975) 149, from memory.
 */
export function cylinderDragSuckerBrauer(reynolds: number): number {
  need(reynolds >= 1e-4 && reynolds <= 2e5, 'cylinderDragSuckerBrauer', 'Re from 1e-4 to 2e5', reynolds);
  const tail = (4e-4 * reynolds) / (1 + 3.64e-7 * reynolds ** 2);
  return 1.18 + 6.8 / reynolds ** 0.89 + 1.96 / Math.sqrt(reynolds) - tail;
}

type Table = readonly (readonly [slenderness: number, drag: number])[];

const BROADSIDE: Table = [
  [1, 0.63],
  [2, 0.68],
  [5, 0.74],
  [10, 0.82],
  [40, 0.98],
];
const ENDLESS_DRAG = 1.2;

const AXIAL: Table = [
  [1, 0.91],
  [2, 0.85],
  [4, 0.87],
  [7, 0.99],
];

/** Straight between the rows in the logarithm of the slenderness. */
function between(table: Table, slenderness: number): number {
  const after = Math.max(
    1,
    table.findIndex(([key]) => key >= slenderness),
  );
  const [x0, y0] = table[after - 1]!;
  const [x1, y1] = table[after]!;
  return y0 + ((y1 - y0) * Math.log(slenderness / x0)) / Math.log(x1 / x0);
}

/**
 * Drag coefficient of a finite cylinder across the flow, on diameter times length.
 *
 * @param slenderness - length over diameter [1], 1 or more
 * @returns drag coefficient [1], −15 % to +20 %
 * @throws {RangeError} below 1
 *
 * Valid: Re of about 10³ to 10⁵.
 * Cost: constant.
 * Source: C. Matthews, Aeronautical Engineer's Data Book (2002), p. 95: 0.63, 0.68, 0.74, 0.82, 0.98 at 1, 2, 5, 10,
 * 40; 1.20 for an endless one.
 */
export function broadsideCylinderDrag(slenderness: number): number {
  need(
    slenderness >= 1 && slenderness < Infinity,
    'broadsideCylinderDrag',
    'a slenderness from 1',
    slenderness,
  );
  if (slenderness <= 40) return between(BROADSIDE, slenderness);
  return ENDLESS_DRAG - ((ENDLESS_DRAG - 0.98) * 40) / slenderness;
}

/**
 * Drag coefficient of a flat-ended cylinder along the flow, on its end face.
 *
 * @param slenderness - length over diameter [1], 1 to 7
 * @returns drag coefficient [1], −15 % to +20 %; a rounded nose lies lower
 * @throws {RangeError} outside 1 to 7
 *
 * Valid: Re of about 10³ to 10⁵.
 * Cost: constant.
 * Source: C. Matthews, Aeronautical Engineer's Data Book (2002), p. 95: 0.91, 0.85, 0.87, 0.99 at 1, 2, 4, 7.
 */
export function axialCylinderDrag(slenderness: number): number {
  need(slenderness >= 1 && slenderness <= 7, 'axialCylinderDrag', 'a slenderness from 1 to 7', slenderness);
  return between(AXIAL, slenderness);
}

/**
 * Drag coefficient of a bait that sinks on its flat, as a finite cylinder with slow-flow correction.
 *
 * @param reynolds - on the diameter [1], 10⁻⁴ to 2·10⁵
 * @param slenderness - length over diameter [1], 1 or more
 * @returns drag coefficient on diameter times length [1], −15 % to +20 %
 * @throws {RangeError} outside the ranges
 *
 * Valid: below Re 1000 the endless cylinder's law is scaled by the finite one's share, an estimate.
 * Cost: constant.
 * Source: Sucker & Brauer (1975), from memory, times Matthews (2002), p. 95, over 1.20; the product is an estimate.
 */
export function sinkingCylinderDrag(reynolds: number, slenderness: number): number {
  const finite = broadsideCylinderDrag(slenderness);
  if (reynolds >= 1000) return finite;
  const slow = cylinderDragSuckerBrauer(reynolds) / cylinderDragSuckerBrauer(1000);
  return finite * Math.max(1, slow);
}

/** Growth of the coefficient for each further diameter of length, from the last two rows of the table. */
const AXIAL_SLOPE = (0.99 - 0.87) / (7 - 4);

/**
 * Drag coefficient of a bait that sinks nose first, on its largest cross-section.
 *
 * @param slenderness - length over diameter [1], 1 or more
 * @returns drag coefficient of a flat-ended cylinder [1]; a rounded nose may lie as low as three tenths of it
 * @throws {RangeError} below 1
 *
 * Valid: Re of about 10³ to 10⁵; beyond a slenderness of 7 it grows on as from 4 to 7, which is an estimate.
 * Cost: constant.
 * Source: C. Matthews, Aeronautical Engineer's Data Book (2002), p. 95; the growth beyond 7 is an estimate.
 */
export function noseFirstDrag(slenderness: number): number {
  need(slenderness >= 1 && slenderness < Infinity, 'noseFirstDrag', 'a slenderness from 1', slenderness);
  return axialCylinderDrag(Math.min(7, slenderness)) + AXIAL_SLOPE * Math.max(0, slenderness - 7);
}
