import { ball, curve, ramp, reliefMesh, type Relief } from './relief.ts';
import { discMesh, planeOf, type Disc } from './disc.ts';
import type { DemoShape } from './shape.ts';

/** Belly towards −y, back towards +y, flanks towards ±z: the minnow lies on its side. */
const body: Relief = {
  from: 0,
  to: 122,
  rounding: [15, 0],
  middle: curve([
    [0, -1.6],
    [18, -0.4],
    [60, 0.8],
    [100, 1.6],
    [122, -0.4],
  ]),
  y: curve([
    [0, 6],
    [14, 8],
    [26, 9.1],
    [40, 9.3],
    [58, 8.3],
    [78, 6],
    [94, 3.8],
    [104, 3],
    [113, 2.9],
    [122, 4.8],
  ]),
  z: curve([
    [0, 5.2],
    [14, 6.8],
    [26, 7.6],
    [40, 7.6],
    [58, 6.6],
    [78, 4.6],
    [94, 3],
    [104, 2.2],
    [113, 2.2],
    [122, 4],
  ]),
  carve: (x) => grooves(x) + gill(x),
  // The gill plate bows backwards on both flanks.
  bow: (x, angle) => 3 * ramp(13, 22, x) * (1 - ramp(22, 30, x)) * Math.abs(Math.sin(angle)) ** 1.5,
};

const PITCH = 4.2;

/** Grooves between the ribs, shallower towards the tail. */
function grooves(x: number): number {
  const row = ramp(30, 32.5, x) * (1 - ramp(94, 96.5, x));
  const wave = (1 - Math.cos((2 * Math.PI * (x - 30.2)) / PITCH)) / 2;
  return -row * (1.15 - 0.65 * ramp(36, 96, x)) * wave ** 2;
}

/** The gill plate: a step behind the head. */
function gill(x: number): number {
  return 0.6 * ramp(13, 21, x) * (1 - ramp(21.6, 22.8, x));
}

/** A disc across the swimming direction, its foot swept back; the rim is thinner, so that it leaves the mold. */
const PADDLE: Disc = { centre: [121.5, -3.2], lean: 62, halfSizes: [11, 8.4], thickness: [2.2, 1.6] };

/** A ribbed minnow of five inches with a paddle tail; its nose is at x = 0. */
export const reedMinnow: DemoShape = {
  id: 'reed-minnow',
  build: (shop) => {
    const { normal, offset } = planeOf(PADDLE);
    const trunk = shop.trim(shop.solid(reliefMesh(body, 40, 0.74)), normal, offset);
    const eyes = [4.6, -4.6].map((z) =>
      shop.place(shop.solid(ball(2)), { shift: [12.5e-3, 2.4e-3, z / 1e3] }),
    );
    return shop.union([trunk, ...eyes, shop.solid(discMesh(PADDLE))]);
  },
};
