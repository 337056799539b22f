import type { Limb, Ribs, Sizes, Sketch } from './families.ts';
import type { Dice } from './random.ts';

/** How one bait differs from the sketch of its family. */
export interface Variation {
  /** Of every size. */
  readonly scale: number;
  /** Of body widths and heights besides. */
  readonly girth: number;
  /** Of lengths of limbs besides. */
  readonly reach: number;
  /** Of limbs' thicknesses besides. */
  readonly stout: number;
}

/** Throws the dice for one bait; thin parts come out no thinner than sketched. */
export function variationOf({ between }: Dice): Variation {
  return {
    scale: between(0.96, 1.14),
    girth: between(0.96, 1.06),
    reach: between(0.9, 1.04),
    stout: between(1.02, 1.2),
  };
}

const mm = (value: number): string => `${Math.round(value * 100) / 100} mm`;
const deg = (value: number): string => `${value} deg`;

function taper([root, middle, tip]: Sizes, factor: number) {
  return { root: mm(root * factor), middle: mm(middle * factor), tip: mm(tip * factor) };
}

function limbOf(limb: Limb, { scale, reach, stout }: Variation) {
  const { name, kind, at, across, heading, length, width, thickness, curl, mirrored } = limb;
  return {
    name,
    kind,
    root: { at: mm(at * scale), ...(across !== undefined && { across: mm(across * scale) }) },
    ...(heading !== undefined && { direction: deg(heading) }),
    length: mm(length * scale * reach),
    width: taper(width, scale),
    thickness: taper(thickness, scale * stout),
    ...(curl !== undefined && { curl: deg(curl) }),
    ...(mirrored && { mirrored }),
  };
}

function ribsOf({ at, proud, count, pitch }: Ribs, { scale }: Variation) {
  return {
    name: 'ribs',
    kind: 'rib',
    root: { at: mm(at * scale) },
    length: mm(proud * scale),
    width: { root: mm(1.6 * scale), tip: mm(0.8 * scale) },
    count,
    pitch: mm(pitch * scale),
  };
}

/** The shape of a bait as its author writes it: sections, and what grows out of them. */
export function writtenShape(sketch: Sketch, variation: Variation) {
  const { scale, girth } = variation;
  const [nose, tail] = sketch.rounding;
  return {
    noseRounding: mm(nose * scale),
    tailRounding: mm(tail * scale),
    stations: sketch.stations.map(([at, width, half]) => ({
      at: mm(at * scale),
      width: mm(width * scale * girth),
      above: mm(half * scale * girth),
      below: mm(half * scale * girth),
    })),
    appendages: [
      ...sketch.limbs.map((limb) => limbOf(limb, variation)),
      ...(sketch.ribs ? [ribsOf(sketch.ribs, variation)] : []),
    ],
  };
}
