import { endOf, pairs, type Limb } from './limb.ts';
import { ball, curve, ramp, reliefMesh, type Relief } from './relief.ts';
import type { DemoShape } from './shape.ts';

/** The craw lies on its belly, its tail fan ahead: x runs from the fan, where the hook enters, to the claws. */
const body: Relief = {
  from: 0,
  to: 60,
  rounding: [5, 5],
  middle: () => 0,
  y: curve([
    [0, 5.2],
    [8, 4.9],
    [26, 5.8],
    [34, 6.9],
    [44, 7.2],
    [53, 5.6],
    [60, 3.6],
  ]),
  z: curve([
    [0, 3.4],
    [8, 3.8],
    [26, 4.6],
    [34, 5.4],
    [44, 5.4],
    [53, 4],
    [60, 2.6],
  ]),
  carve: (x) => segments(x) + shell(x),
};

/** Grooves between the tail's segments. */
function segments(x: number): number {
  const row = ramp(6, 8, x) * (1 - ramp(28, 30, x));
  return (-0.75 * row * (1 - Math.cos((2 * Math.PI * (x - 6)) / 4.6)) ** 2) / 4;
}

/** The shell's edge, a step over the tail's last segment, and the groove across it. */
function shell(x: number): number {
  const edge = 0.55 * ramp(30.4, 31.6, x) * (1 - ramp(36, 46, x));
  const groove = Math.max(0, 1 - Math.abs(x - 44.5) / 1.1) ** 2;
  return edge - 0.4 * groove;
}

const arm: Limb = {
  kind: 'arm',
  at: [50, 3.2],
  heading: 34,
  length: 18,
  width: { root: 4.4, middle: 3.4, tip: 4.4 },
  thickness: { root: 4, middle: 3, tip: 2.6 },
  bend: -22,
};

const palm = endOf(arm, 0.86);
const finger: Limb = {
  kind: 'claw',
  at: palm.at,
  heading: palm.heading + 20,
  length: 31,
  width: { root: 5.4, middle: 9.2, tip: 1.8 },
  thickness: { root: 2.6, middle: 1.6, tip: 1.2 },
  bend: -46,
};
const thumb: Limb = {
  kind: 'claw',
  at: palm.at,
  heading: palm.heading - 36,
  length: 23,
  width: { root: 4.4, middle: 3.6, tip: 1.6 },
  thickness: { root: 2.2, middle: 1.5, tip: 1.2 },
  bend: 48,
};

const legs = [0, 1, 2].map((i): Limb => ({
  kind: 'leg',
  at: [35.5 + 4.6 * i, 4.6],
  heading: 74 - 8 * i,
  length: 15.5 - i,
  width: { root: 2.4, tip: 1.5 },
  thickness: { root: 2.4, tip: 1.5 },
  bend: -52,
}));
const feeler: Limb = {
  kind: 'arm',
  at: [55, 1.4],
  heading: 6,
  length: 19,
  width: { root: 2.2, tip: 1.5 },
  thickness: { root: 2.2, tip: 1.5 },
  bend: 6,
};
const fan: Limb = {
  kind: 'fin',
  at: [7.6, 2],
  heading: 136,
  length: 8.2,
  width: { root: 3.6, middle: 4.6, tip: 3.4 },
  thickness: { root: 3, tip: 1.6 },
  bend: 24,
};

/** A craw of a little under four inches with thin claws. */
export const tarnCraw: DemoShape = {
  id: 'tarn-craw',
  build: (shop) => {
    const eye = shop.place(shop.solid(ball(1.5)), { shift: [54.6e-3, 3.3e-3, 2.5e-3] });
    return shop.union([
      shop.solid(reliefMesh(body, 32, 0.8)),
      eye,
      shop.place(eye, { mirrored: true }),
      ...pairs(shop, [arm, finger, thumb, feeler, fan, ...legs]),
    ]);
  },
};
