import { expose, unexposed, type Raster } from './exposure.ts';
import { fragments, type Fragments } from './fragments.ts';
import { groundOf, shadeOf } from './ground.ts';
import { keyDirection, lightsFor } from './lights.ts';
import type { Material, Plastic, Rgb } from './material.ts';
import { takeLight } from './blend.ts';
import { leaders, placesOf, type Places } from './places.ts';
import type { Scene } from './scene.ts';
import { lightUp, unlit, type Lit } from './shading.ts';
import { somewhere, surfaceLight } from './surface.ts';

/** Pixels that two pixels of one surface, side by side, may lie apart [px]. */
const APART = 3;

const isPlastic = (material: Material): material is Plastic => material.kind === 'plastic';
const reachOf = (material: Material): number => (isPlastic(material) ? material.reach : 0);

const glowOf = (material: Material): Rgb | undefined => (isPlastic(material) ? material.glow : undefined);

/** What is seen of one part, and the light on it. */
interface Surface {
  readonly material: Material;
  readonly places: Places;
  readonly lit: Lit;
}

/** Adds the surfaces of one part to the picture. */
function exposePart(into: Raster, { camera, ground }: Scene, seen: Fragments, surface: Surface): void {
  const { material, places, lit } = surface;
  const { eye } = camera;
  const key = keyDirection(camera);
  const place = somewhere();
  const light = new Float64Array(3);
  const { position, normal } = seen;
  for (let i = 0; i < places.fragments.length; i++) {
    const fragment = places.fragments[i]!;
    const at = 3 * fragment;
    place.x = position[at]!;
    place.y = position[at + 1]!;
    place.z = position[at + 2]!;
    place.nx = normal[at]!;
    place.ny = normal[at + 1]!;
    place.nz = normal[at + 2]!;
    const ex = eye[0] - place.x;
    const ey = eye[1] - place.y;
    const ez = eye[2] - place.z;
    const away = Math.sqrt(ex * ex + ey * ey + ez * ez);
    place.ex = ex / away;
    place.ey = ey / away;
    place.ez = ez / away;
    const pixel = seen.pixel[fragment]!;
    takeLight(place, places, lit, places.places[i]!, pixel % into.width, Math.floor(pixel / into.width));
    place.height = place.z - ground;
    surfaceLight(place, material, key, light);
    expose(into, pixel, seen.share[fragment]!, light);
  }
}

/** A picture in two layers. */
export interface Layers {
  /** What is shown, on clear ground. */
  readonly shown: Raster;
  /** Its shadow on the ground, small: it is stretched to the size of the picture and lies under it. */
  readonly shade: Raster;
}

/**
 * The picture of a scene on clear ground, and its shadow.
 *
 * Solids are drawn into a depth buffer with four samples a pixel; what is seen is lit from two dozen directions of
 * sky, key and rim, each with a depth map of its own, which yields soft shadows, dark corners and light that shines
 * through thin plastic alike.
 *
 * @param scene - closed solids
 * @returns the same bytes for the same scene
 *
 * Cost: about 0.08 s of core at 810 × 540 pixels, whatever is shown; 0.02 s more for each 100 000 triangles.
 */
export function rendered(scene: Scene): Layers {
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
    { lit: ground, reach: glow ? Math.max(...parts.map(({ material }) => reachOf(material))) : 0 },
  ]);
  const shown = unexposed(size);
  for (const surface of surfaces) exposePart(shown, scene, seen, surface);
  return { shown, shade: shadeOf(ground, size, lights, glow) };
}
