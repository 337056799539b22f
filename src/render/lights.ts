import type { Vec3 } from '../core/mesh/mesh.ts';
import type { Camera } from './camera.ts';
import { along, cross, dot, unit } from './vector.ts';

/** Light from one direction, far away. */
export interface Light {
  /** Towards the light. */
  readonly towards: Vec3;
  /** Light that falls on a surface which faces it. */
  readonly strength: number;
  /** Sky is cool and wide, the key is warm and near one direction, paper sends light up through thin parts. */
  readonly kind: 'sky' | 'key' | 'paper';
}

const SKY = 16;
const KEY = 5;
const RIM = 2;
const PAPER = 2;

/** Golden angle: places that never line up [rad]. */
const GOLDEN = Math.PI * (3 - Math.sqrt(5));

/** Directions spread over a round patch about a direction [rad]. */
function patch(middle: Vec3, radius: number, count: number): Vec3[] {
  const side = unit(cross(middle, [0.3, 0.2, 1]));
  const other = cross(middle, side);
  return Array.from({ length: count }, (_, i) => {
    const wide = Math.tan(radius) * Math.sqrt((i + 0.5) / count);
    const turn = i * GOLDEN;
    return unit(along(along(middle, side, wide * Math.cos(turn)), other, wide * Math.sin(turn)));
  });
}

/** Where the key light stands, seen by the camera: over the left shoulder. */
export function keyDirection({ right, back }: Camera): Vec3 {
  const level = unit([back[0], back[1], 0]);
  return unit(along(along(along([0, 0, 0], right, -0.75), level, -0.18), [0, 0, 1], 0.95));
}

/** Behind the scene, to the right: draws the far edge. */
function rimDirection({ right, back }: Camera): Vec3 {
  const level = unit([back[0], back[1], 0]);
  return unit(along(along(along([0, 0, 0], right, 0.7), level, -0.9), [0, 0, 1], 0.75));
}

/**
 * All lights of a picture: a sky that is brighter overhead, a soft key and a rim, each as many directions, so that
 * what shades a surface from some of them shades it softly. A level surface under open sky receives about one.
 */
export function lightsFor(camera: Camera): readonly Light[] {
  const sky = Array.from({ length: SKY }, (_, i): Light => {
    const height = (i + 0.5) / SKY;
    const flat = Math.sqrt(1 - height * height);
    const towards: Vec3 = [flat * Math.cos(i * GOLDEN), flat * Math.sin(i * GOLDEN), height];
    return { towards, strength: (0.25 + 0.75 * height) / SKY, kind: 'sky' };
  });
  const many = (directions: Vec3[], strength: number, kind: Light['kind'] = 'key'): Light[] =>
    directions.map((towards) => ({ towards, strength: strength / directions.length, kind }));
  return [
    ...sky,
    ...many(patch(keyDirection(camera), 0.2, KEY), 0.72),
    ...many(patch(rimDirection(camera), 0.16, RIM), 0.24),
    ...many(patch([0, 0, -1], 0.7, PAPER), 0.9, 'paper'),
  ];
}

/** Light on a level surface that nothing shades. */
export function openLight(lights: readonly Light[]): number {
  return lights.reduce(
    (sum, { towards, strength }) => sum + strength * Math.max(0, dot(towards, [0, 0, 1])),
    0,
  );
}

/** Sum of the strengths of lights. */
export const fullStrength = (lights: readonly Light[]): number =>
  lights.reduce((sum, { strength }) => sum + strength, 0);
