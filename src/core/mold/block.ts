import { need, needNonNegative, needPositive } from '../quantity/guard.ts';

/** The closed block: thickness is that of both halves together [m]. */
export interface BlockSize {
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
}

/**
 * Metal in a closed mold.
 *
 * @param block - outer sizes [m]
 * @param hollow - cavities and channels together [m³]
 * @returns volume of metal [m³]
 * @throws {RangeError} when a size is not positive or the hollows exceed the block
 *
 * Valid: pin and screw holes filled or negligible.
 * Cost: constant.
 * Source: box less its hollows.
 */
export function metalVolume(block: BlockSize, hollow: number): number {
  needPositive('metalVolume', { length: block.length, width: block.width, thickness: block.thickness });
  needNonNegative('metalVolume', { hollow });
  const whole = block.length * block.width * block.thickness;
  need(hollow < whole, 'metalVolume', `hollows smaller than the block of ${whole} m³`, hollow);
  return whole - hollow;
}

/**
 * Mass of a closed mold.
 *
 * @param block - outer sizes [m]
 * @param hollow - cavities and channels together [m³]
 * @param density - of the alloy [kg/m³]
 * @returns mass of both halves [kg]
 * @throws {RangeError} when a size or the density is not positive, or the hollows exceed the block
 *
 * Valid: pins and screws not counted.
 * Cost: constant.
 * Source: definition of density.
 */
export function blockMass(block: BlockSize, hollow: number, density: number): number {
  needPositive('blockMass', { density });
  return metalVolume(block, hollow) * density;
}

/**
 * Outer surface of a closed mold.
 *
 * @param block - outer sizes [m]
 * @returns all six faces [m²]
 * @throws {RangeError} when a size is not positive
 *
 * Cost: constant.
 * Source: box.
 */
export function blockSurface(block: BlockSize): number {
  const { length, width, thickness } = block;
  needPositive('blockSurface', { length, width, thickness });
  return 2 * (length * width + width * thickness + thickness * length);
}

/** Box, padding and papers: common practice, an allowance. */
const PACKING = { fixed: 0.12, share: 0.05 };

/**
 * Mass of the parcel: the mold, what goes in with it, and its packing.
 *
 * @param contents - mold and everything in the box [kg]
 * @returns mass to ship [kg]
 * @throws {RangeError} when the contents are not positive
 *
 * Valid: a cardboard box of one mold.
 * Cost: constant.
 * Source: 120 g of box and papers and 5 % of padding; common practice.
 */
export function shippingMass(contents: number): number {
  needPositive('shippingMass', { contents });
  return contents * (1 + PACKING.share) + PACKING.fixed;
}
