import { endOf, pairs, single, type Limb } from './limb.ts';
import { ball, curve, ramp, reliefMesh, type Relief } from './relief.ts';
import type { DemoShape } from './shape.ts';

/** The lizard lies on its belly. */
const body: Relief = {
  from: 0,
  to: 98,
  rounding: [8, 3],
  middle: () => 0,
  y: curve([
    [0, 6],
    [7, 6.9],
    [12, 7.2],
    [20, 5.2],
    [30, 6],
    [44, 6.6],
    [60, 5.4],
    [72, 4.2],
    [86, 3.2],
    [98, 2.6],
  ]),
  z: curve([
    [0, 3.6],
    [7, 4.4],
    [12, 4.7],
    [20, 4.3],
    [30, 4.8],
    [44, 5],
    [60, 4.2],
    [72, 3],
    [86, 1.6],
    [98, 0.95],
  ]),
  carve: (x) => {
    const row = ramp(21, 23, x) * (1 - ramp(64, 68, x));
    return (-0.5 * row * (1 - Math.cos((2 * Math.PI * (x - 21)) / 3.2)) ** 2) / 4;
  },
};

const tail: Limb = {
  kind: 'ribbon-tail',
  at: [80, 0],
  heading: 0,
  length: 99.5,
  width: { root: 5.6, middle: 7.6, tip: 2.6 },
  thickness: { root: 2, middle: 1.6, tip: 1.3 },
  bend: 110,
};

const leg = (at: number, heading: number, bend: number): Limb => ({
  kind: 'leg',
  at: [at, 3],
  heading,
  length: 19,
  width: { root: 4, middle: 2.8, tip: 2.6 },
  thickness: { root: 3.6, middle: 2.4, tip: 1.7 },
  bend,
});

/** A foot of three toes that spread from the end of a leg. */
const toes = (of: Limb): Limb[] =>
  [-38, 0, 38].map((spread) => {
    const ankle = endOf(of, 0.9);
    return {
      kind: 'leg',
      at: ankle.at,
      heading: ankle.heading + spread,
      length: 6.4,
      width: { root: 1.9, tip: 1.5 },
      thickness: { root: 1.7, tip: 1.5 },
    };
  });

const front = leg(26, 74, -58);
const hind = leg(58, 58, -46);

/** A lizard of six inches with four legs and a ribbon tail. */
export const mossLizard: DemoShape = {
  id: 'moss-lizard',
  build: (shop) => {
    const eye = shop.place(shop.solid(ball(1.7)), { shift: [9e-3, 4e-3, 2.9e-3] });
    return shop.union([
      shop.solid(reliefMesh(body, 32, 0.8)),
      eye,
      shop.place(eye, { mirrored: true }),
      single(shop, tail),
      ...pairs(shop, [front, hind, ...toes(front), ...toes(hind)]),
    ]);
  },
};
