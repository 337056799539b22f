import type { Mesh, Vec3 } from '../../core/mesh/mesh.ts';
import { skin, type Ring } from '../../core/solid/skin.ts';

/** An oval disc that stands across the plane z = 0 [mm]. */
export interface Disc {
  readonly centre: readonly [number, number];
  /** How far its foot is swept back: 90 stands straight across x, 0 lies along it [°]. */
  readonly lean: number;
  /** Down its face in the plane, and out of the plane. */
  readonly halfSizes: readonly [number, number];
  /** At the middle and at the rim. */
  readonly thickness: readonly [number, number];
}

/** Closed mesh of a disc [m], its rim rounded by half its thickness there. */
export function discMesh({ centre, lean, halfSizes, thickness }: Disc): Mesh {
  const { down, ahead } = axesOf(lean);
  const place = (u: number, w: number, z: number): Vec3 => [
    (centre[0] + u * down[0] + w * ahead[0]) / 1e3,
    (centre[1] + u * down[1] + w * ahead[1]) / 1e3,
    z / 1e3,
  ];
  // From the middle of the rear face over the rim to the middle of the front face.
  const outline = rimOutline(thickness[0] / 2, thickness[1] / 2, Math.min(...halfSizes));
  const rings = outline.map(([out, w]): Ring => {
    const middle = place(0, w, 0);
    if (out === 0) return { points: [middle], middle };
    const points = Array.from({ length: 40 }, (_, i) => {
      const turn = (-2 * Math.PI * i) / 40;
      const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
      return place(halfSizes[0] * out * cos, w, halfSizes[1] * out * sin);
    });
    return { points, middle };
  });
  return skin(rings);
}

function axesOf(lean: number) {
  const angle = (lean * Math.PI) / 180;
  return {
    down: [Math.cos(angle), -Math.sin(angle)],
    ahead: [Math.sin(angle), Math.cos(angle)],
  } as const;
}

/** The plane through the disc, its normal towards the nose; offset in metres. */
export function planeOf({ centre, lean }: Disc): { normal: Vec3; offset: number } {
  const { ahead } = axesOf(lean);
  const offset = -(centre[0] * ahead[0] + centre[1] * ahead[1]) / 1e3;
  return { normal: [-ahead[0], -ahead[1], 0], offset };
}

/** [share of the radius, height over the disc's plane] from one face over the rim to the other. */
function rimOutline(middle: number, rim: number, radius: number): [number, number][] {
  const flat = 1 - rim / radius;
  const face = [0, 0.25, 0.5, 0.75].map((t): [number, number] => [
    t * flat,
    -(middle + (rim - middle) * t * t),
  ]);
  const edge = Array.from({ length: 7 }, (_, i): [number, number] => {
    const turn = (Math.PI * (i - 3)) / 6;
    return [flat + (rim / radius) * Math.cos(turn), rim * Math.sin(turn)];
  });
  return [...face, ...edge, ...face.map(([out, w]): [number, number] => [out, -w]).reverse()];
}
