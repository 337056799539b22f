import type { Vec3 } from '../core/mesh/mesh.ts';
import { developed, expose, unexposed, type Exposure, type Raster } from './exposure.ts';
import { fragments, type Fragments } from './fragments.ts';
import { groundOf, layShadow } from './ground.ts';
import { keyDirection, lightsFor } from './lights.ts';
import type { Material, Plastic, Rgb } from './material.ts';
import { leaders, placesOf, type Places } from './places.ts';
import type { Scene } from './scene.ts';
import { lightUp, unlit, type Lit } from './shading.ts';
import { surfaceLight } from './surface.ts';
import { unit } from './vector.ts';

/** Pixels that four pixels of one surface may lie apart [px]. */
const APART = 6;

const isPlastic = (material: Material): material is Plastic => material.kind === 'plastic';
const reachOf = (material: Material): number => (isPlastic(material) ? material.reach : 0);

const glowOf = (material: Material): Rgb | undefined => (isPlastic(material) ? material.glow : undefined);

const row = (from: Float32Array, at: number): Vec3 => [from[3 * at]!, from[3 * at + 1]!, from[3 * at + 2]!];

/** What is seen of one part, and the light on it. */
interface Surface {
  readonly material: Material;
  readonly places: Places;
  readonly lit: Lit;
}

/** Adds the surfaces of one part to the picture. */
function exposePart(into: Exposure, { camera, ground }: Scene, seen: Fragments, surface: Surface): void {
  const { material, places, lit } = surface;
  const { eye } = camera;
  const key = keyDirection(camera);
  places.fragments.forEach((fragment, i) => {
    const place = places.places[i]!;
    const at = row(seen.position, fragment);
    const light = surfaceLight(
      {
        at,
        normal: row(seen.normal, fragment),
        eye: unit([eye[0] - at[0], eye[1] - at[1], eye[2] - at[2]]),
        key,
        light: { sky: lit.sky[place]!, key: lit.key[place]!, through: lit.through[place]! },
        height: at[2] - ground,
      },
      material,
    );
    expose(into, seen.pixel[fragment]!, seen.share[fragment]!, light);
  });
}

/**
 * The picture of a scene on clear ground, with its shadow.
 *
 * Solids are drawn into a depth buffer with four samples a pixel; what is seen is lit from some forty directions of
 * sky, key and rim, each with a depth map of its own, which yields soft shadows, dark corners and light that shines
 * through thin plastic alike.
 *
 * @param scene - closed solids
 * @returns the same bytes for the same scene
 *
 * Cost: about 0.3 s at 960 × 640 pixels for 30 000 triangles.
 */
export function rendered(scene: Scene): Raster {
  const { camera, size, parts } = scene;
  const seen = fragments(scene);
  const lights = lightsFor(camera);
  const pixel =
    Math.hypot(...[0, 1, 2].map((axis) => camera.eye[axis]! - seen.position[axis]!)) / camera.focal;
  const leader = leaders(seen, size, APART * pixel);
  const surfaces = parts.map(({ material }, index): Surface => {
    const places = placesOf(seen, leader, index);
    return { material, places, lit: unlit(places) };
  });
  const ground = groundOf(scene);
  const glow = parts.every(({ material }) => isPlastic(material)) ? glowOf(parts[0]!.material) : undefined;
  lightUp(parts, lights, [
    ...surfaces.map(({ material, lit }) => ({ lit, reach: reachOf(material) })),
    { lit: ground.lit, reach: glow ? Math.max(...parts.map(({ material }) => reachOf(material))) : 0 },
  ]);
  const into = unexposed(size);
  for (const surface of surfaces) exposePart(into, scene, seen, surface);
  layShadow(into, ground, lights, glow);
  return developed(into);
}
