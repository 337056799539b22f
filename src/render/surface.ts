import type { Vec3 } from '../core/mesh/mesh.ts';
import { hashed, lineNoise } from './hash.ts';
import type { Material, Metal, Plastic, Rgb } from './material.ts';
import { brushedLight, mirroredLight } from './surroundings.ts';
import { along, dot, unit } from './vector.ts';

/** One place on a surface, who looks at it and the light on it. */
export interface Place {
  readonly at: Vec3;
  readonly normal: Vec3;
  /** Towards the eye. */
  readonly eye: Vec3;
  readonly key: Vec3;
  readonly light: { readonly sky: number; readonly key: number; readonly through: number };
  /** Height above the ground [mm]. */
  readonly height: number;
}

const SKY: Rgb = [0.95, 0.99, 1.07];
const KEY: Rgb = [1.06, 1, 0.92];
/** Paper sends light back up; less where a surface lies close to it and shades it. */
const PAPER: Rgb = [0.3, 0.29, 0.27];
const PAPER_SHADE = 2.5;

const rgb = (of: (channel: 0 | 1 | 2) => number): Rgb => [of(0), of(1), of(2)];

function fallen({ light, normal, height }: Place): Rgb {
  const paper = ((1 - normal[2]) / 2) * (height / (height + PAPER_SHADE));
  return rgb((k) => SKY[k] * light.sky + KEY[k] * light.key + PAPER[k] * paper);
}

const mirrored = ({ eye, normal }: Place): Vec3 => {
  const facing = dot(eye, normal);
  return along([-eye[0], -eye[1], -eye[2]], normal, 2 * facing);
};

/** Share of light that a clear skin of index 1.5 mirrors. Source: C. Schlick (1994). */
const skin = ({ eye, normal }: Place): number => 0.04 + 0.96 * (1 - Math.max(0, dot(eye, normal))) ** 5;

/** Edge of the cells that hold at most one flake [mm]. */
const FLAKE_CELL = 1.05;

/** How much of a flake lies at a place, 0 to 1. */
function flakeAt([x, y, z]: Vec3, share: number): number {
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

function plastic(place: Place, { body, glow, clear, flakes, sheen }: Plastic): Rgb {
  const light = fallen(place);
  const flake = flakes ? flakeAt(place.at, flakes.share) : 0;
  const turned = 1 - Math.max(0, dot(place.eye, place.normal));
  const gloss = skin(place);
  const open = Math.min(1, 1.4 * (place.light.sky + place.light.key));
  const shine = gloss * open * mirroredLight(mirrored(place), place.key);
  return rgb((k) => {
    const plain = body[k] + (sheen?.[k] ?? 0) * turned * turned;
    const own = flakes ? plain + (flakes.colour[k] - plain) * flake : plain;
    const colour =
      (1 - clear) * own * light[k] + clear * (1 - 0.8 * flake) * glow[k] * 0.5 * place.light.through;
    return (1 - gloss) * colour + shine;
  });
}

/** Brushing marks: how far the surface leans across them, and how bright they are. */
function brushed({ at, normal }: Place): { lean: number; bright: number } {
  // Marks run along x on faces that lie level or along the block; elsewhere the cutter left its own finish.
  const level = Math.abs(normal[2]) > 0.999 || Math.abs(normal[1]) > 0.999 || Math.abs(normal[0]) > 0.999;
  if (!level) return { lean: 0, bright: 1 };
  const across = Math.abs(normal[2]) > 0.999 ? at[1] : at[2];
  const length = Math.abs(normal[0]) > 0.999 ? at[1] : at[0];
  const row = Math.floor(across / 0.22);
  const mark = lineNoise(length / 38 + 17 * hashed(row, 3, 1), row) - 0.5;
  return { lean: 0.09 * mark, bright: 1 + 0.06 * mark };
}

function metal(place: Place, { reflectance }: Metal): Rgb {
  const light = fallen(place);
  const { lean, bright } = brushed(place);
  const normal = unit(along(place.normal, [0, 1, 0], lean));
  const open = Math.min(1, 1.05 * (place.light.sky + place.light.key));
  const shine = open * brushedLight(mirrored({ ...place, normal }), place.key);
  // Light that bounces between the walls of a cavity brightens it: metal takes little away.
  return rgb((k) => reflectance[k] * bright * (0.26 * light[k] + 0.72 * shine));
}

/** Light that leaves a surface towards the eye, linear. */
export function surfaceLight(place: Place, material: Material): Rgb {
  return material.kind === 'plastic' ? plastic(place, material) : metal(place, material);
}
