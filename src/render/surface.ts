import type { Vec3 } from '../core/mesh/mesh.ts';
import { hashed, lineNoise } from './hash.ts';
import type { Material, Metal, Plastic, Rgb } from './material.ts';
import { brushedLight, mirroredLight } from './surroundings.ts';

/** One place on a surface, who looks at it and the light on it; one object serves all places of a picture in turn. */
export interface Place {
  /** Where it is [mm], and which way it faces. */
  x: number;
  y: number;
  z: number;
  nx: number;
  ny: number;
  nz: number;
  /** Towards the eye. */
  ex: number;
  ey: number;
  ez: number;
  sky: number;
  key: number;
  through: number;
  /** Above the ground [mm]. */
  height: number;
}

/** A place to begin with. */
export const somewhere = (): Place => ({
  x: 0.5,
  y: 0.5,
  z: 0.5,
  nx: 0.5,
  ny: 0.5,
  nz: 0.5,
  ex: 0.5,
  ey: 0.5,
  ez: 0.5,
  sky: 0.5,
  key: 0.5,
  through: 0.5,
  height: 0.5,
});

const SKY: Rgb = [0.95, 0.99, 1.07];
const KEY: Rgb = [1.06, 1, 0.92];
/** Paper sends light back up; less where a surface lies close to it and shades it. */
const PAPER: Rgb = [0.3, 0.29, 0.27];
const PAPER_SHADE = 2.5;

const paperLight = ({ nz, height }: Place): number => ((1 - nz) / 2) * (height / (height + PAPER_SHADE));

/** Edge of the cells that hold at most one flake [mm]. */
const FLAKE_CELL = 1.05;

/** How much of a flake lies at a place, 0 to 1. */
function flakeAt({ x, y, z }: Place, share: number): number {
  const i = Math.floor(x / FLAKE_CELL);
  const j = Math.floor(y / FLAKE_CELL);
  const k = Math.floor(z / FLAKE_CELL);
  if (hashed(i, j, k) > share) return 0;
  const size = 0.17 + 0.17 * hashed(k, i, j);
  // Its middle lies in the inner half of the cell, so that it never reaches into the next.
  const dx = x - (i + 0.25 + 0.5 * hashed(i, j, k + 31)) * FLAKE_CELL;
  const dy = y - (j + 0.25 + 0.5 * hashed(i + 1, j, k + 31)) * FLAKE_CELL;
  const dz = z - (k + 0.25 + 0.5 * hashed(i + 2, j, k + 31)) * FLAKE_CELL;
  return Math.min(1, Math.max(0, (size - Math.sqrt(dx * dx + dy * dy + dz * dz)) / 0.08));
}

const NO_SHEEN: Rgb = [0, 0, 0];

function plastic(
  place: Place,
  { body, glow, clear, flakes, sheen = NO_SHEEN }: Plastic,
  key: Vec3,
  out: Float64Array,
): void {
  const { nx, ny, nz, ex, ey, ez, sky, key: direct, through } = place;
  const paper = paperLight(place);
  const flake = flakes ? flakeAt(place, flakes.share) : 0;
  const dark = flakes ? flakes.colour : body;
  const facing = ex * nx + ey * ny + ez * nz;
  const turned = 1 - Math.max(0, facing);
  const turned2 = turned * turned;
  // Share of light that a clear skin of index 1.5 mirrors. Source: C. Schlick (1994).
  const gloss = 0.04 + 0.96 * turned2 * turned2 * turned;
  const open = Math.min(1, 1.4 * (sky + direct));
  const mirrored = mirroredLight(2 * facing * nx - ex, 2 * facing * ny - ey, 2 * facing * nz - ez, key);
  const shine = gloss * open * mirrored;
  const shone = clear * (1 - 0.8 * flake) * 0.5 * through;
  for (let k = 0; k < 3; k++) {
    const light = SKY[k]! * sky + KEY[k]! * direct + PAPER[k]! * paper;
    const plain = body[k]! + sheen[k]! * turned2;
    const own = plain + (dark[k]! - plain) * flake;
    out[k] = (1 - gloss) * ((1 - clear) * own * light + shone * glow[k]!) + shine;
  }
}

/** Cosine from which on a face counts as level, or as standing along or across the block. */
const SQUARE = 0.999;

function metal(place: Place, { reflectance }: Metal, key: Vec3, out: Float64Array): void {
  const { x, y, z, nx, ny, nz, ex, ey, ez, sky, key: direct } = place;
  const paper = paperLight(place);
  let lean = 0;
  let bright = 1;
  // Marks run along x on faces that lie level or along the block; elsewhere the cutter left its own finish.
  const end = Math.abs(nx) > SQUARE;
  const level = Math.abs(nz) > SQUARE;
  if (end || level || Math.abs(ny) > SQUARE) {
    const row = Math.floor((level ? y : z) / 0.22);
    const mark = lineNoise((end ? y : x) / 38 + 17 * hashed(row, 3, 1), row) - 0.5;
    lean = 0.09 * mark;
    bright = 1 + 0.06 * mark;
  }
  const leant = ny + lean;
  const length = Math.sqrt(nx * nx + leant * leant + nz * nz);
  // Twice over its length: once for the facing, once for the direction.
  const twice = (2 * (ex * nx + ey * leant + ez * nz)) / (length * length);
  const open = Math.min(1, 1.05 * (sky + direct));
  const shine = open * brushedLight(twice * nx - ex, twice * leant - ey, twice * nz - ez, key);
  // Light that bounces between the walls of a cavity brightens it: metal takes little away.
  for (let k = 0; k < 3; k++) {
    const light = SKY[k]! * sky + KEY[k]! * direct + PAPER[k]! * paper;
    out[k] = reflectance[k]! * bright * (0.26 * light + 0.72 * shine);
  }
}

/**
 * Light that leaves a surface towards the eye.
 *
 * @param key - towards the key light
 * @param out - takes red, green and blue, linear
 */
export function surfaceLight(place: Place, material: Material, key: Vec3, out: Float64Array): void {
  if (material.kind === 'plastic') plastic(place, material, key, out);
  else metal(place, material, key, out);
}
