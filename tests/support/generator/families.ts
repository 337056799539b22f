import type { FAMILIES } from '../../../src/schema/bait.ts';
import type { RIGS } from '../../../src/schema/rigs.ts';
import type { AppendageKind } from '../../../src/core/solid/appendage.ts';
import type { RootSide } from '../../../src/core/section/feature-box.ts';

/** A size along a limb from root over half-way to tip [mm]. */
export type Sizes = readonly [root: number, middle: number, tip: number];

/** A limb of a sketch [mm, °]. */
export interface Limb {
  readonly name: string;
  readonly kind: AppendageKind;
  readonly at: number;
  readonly across?: number;
  readonly heading?: number;
  readonly length: number;
  readonly width: Sizes;
  readonly thickness: Sizes;
  readonly curl?: number;
  readonly mirrored?: boolean;
  /** Side where it joins the body; limbs with one are measured on meshes too. */
  readonly root?: RootSide;
}

/** A row of ribs [mm]. */
export interface Ribs {
  readonly at: number;
  readonly proud: number;
  readonly count: number;
  readonly pitch: number;
}

/** What a family of baits looks like before dice change it. */
export interface Sketch {
  readonly family: (typeof FAMILIES)[number];
  /** Short for ids. */
  readonly short: string;
  readonly lies: 'on its belly' | 'on its side';
  readonly rigs: readonly (typeof RIGS)[number][];
  /** A rig of the water tests. */
  readonly swum:
    'Texas' | 'Carolina' | 'shaky head' | 'jig trailer' | 'drop shot' | 'weightless' | 'jig head';
  readonly plastisol: string;
  /** Lengths over which nose and tail are rounded [mm]. */
  readonly rounding: readonly [number, number];
  /** At, full width, half height [mm]. */
  readonly stations: readonly (readonly [number, number, number])[];
  readonly limbs: readonly Limb[];
  readonly ribs?: Ribs;
}

/** One sketch a family; sizes are those of common hobby baits, shapes are invented. */
export const SKETCHES: readonly Sketch[] = [
  {
    family: 'curl-tail grub',
    short: 'grub',
    lies: 'on its side',
    rigs: ['jig head', 'Texas', 'weightless'],
    swum: 'jig head',
    plastisol: 'medium-compound',
    rounding: [4.4, 3],
    stations: [
      [0, 9.4, 4.6],
      [8, 11, 5.4],
      [22, 10.8, 5.2],
      [36, 8.4, 3.6],
      [44, 6.8, 1.9],
      [50, 6.2, 1],
    ],
    limbs: [
      {
        name: 'tail',
        kind: 'curl-tail',
        at: 38,
        heading: -8,
        length: 62,
        width: [6.2, 9, 3],
        thickness: [1.9, 1.7, 1.6],
        curl: 165,
        root: 'front',
      },
    ],
    ribs: { at: 9, proud: 0.5, count: 8, pitch: 2.5 },
  },
  {
    family: 'straight finesse worm',
    short: 'finesse',
    lies: 'on its belly',
    rigs: ['shaky head', 'drop shot', 'Texas', 'weightless'],
    swum: 'shaky head',
    plastisol: 'soft-compound',
    rounding: [4.5, 1],
    stations: [
      [0, 5.8, 2.7],
      [10, 7.4, 3.4],
      [36, 7.4, 3.5],
      [66, 6, 2.8],
      [86, 4.6, 2],
      [100, 3.2, 1.3],
    ],
    limbs: [
      {
        name: 'tail',
        kind: 'fin',
        at: 92,
        length: 20,
        width: [2.7, 2.6, 3],
        thickness: [2, 1.8, 1.7],
        root: 'front',
      },
    ],
    ribs: { at: 12, proud: 0.3, count: 14, pitch: 1.8 },
  },
  {
    family: 'salted stick worm',
    short: 'stick',
    lies: 'on its belly',
    rigs: ['weightless', 'Texas', 'Carolina', 'shaky head'],
    swum: 'weightless',
    plastisol: 'salted-compound',
    rounding: [4, 2.2],
    stations: [
      [0, 7.4, 3.7],
      [16, 9.2, 4.6],
      [50, 10.6, 5.3],
      [84, 9.2, 4.6],
      [108, 6.2, 3.1],
      [126, 4.4, 2.2],
    ],
    limbs: [],
    ribs: { at: 10, proud: 0.35, count: 24, pitch: 2.3 },
  },
  {
    family: 'ribbon-tail worm',
    short: 'ribbon',
    lies: 'on its side',
    rigs: ['Texas', 'Carolina'],
    swum: 'Texas',
    plastisol: 'medium-compound',
    rounding: [5, 3],
    stations: [
      [0, 6.8, 3.4],
      [12, 9, 4.5],
      [56, 9.4, 4.6],
      [80, 6.6, 3.2],
      [98, 5.2, 2],
      [110, 4.8, 0.9],
    ],
    limbs: [
      {
        name: 'ribbon',
        kind: 'ribbon-tail',
        at: 94,
        heading: 4,
        length: 96,
        width: [5, 8, 3.4],
        thickness: [2, 1.9, 1.8],
        curl: -120,
        root: 'front',
      },
    ],
    ribs: { at: 14, proud: 0.35, count: 16, pitch: 2.3 },
  },
  {
    family: 'drop-shot minnow',
    short: 'dropper',
    lies: 'on its side',
    rigs: ['drop shot', 'jig head'],
    swum: 'drop shot',
    plastisol: 'soft-compound',
    rounding: [5, 1.2],
    stations: [
      [0, 5.4, 2.8],
      [7, 8.8, 3.9],
      [15, 10.6, 4.2],
      [30, 8.8, 3.4],
      [44, 4.6, 1.9],
      [58, 2.6, 1],
    ],
    limbs: [
      {
        name: 'tail',
        kind: 'fin',
        at: 50,
        length: 28,
        width: [2.6, 2.4, 4.2],
        thickness: [1.9, 1.7, 1.5],
        root: 'front',
      },
    ],
  },
  {
    family: 'paddle-tail minnow',
    short: 'paddle',
    lies: 'on its side',
    rigs: ['Texas', 'weightless', 'jig head'],
    swum: 'weightless',
    plastisol: 'medium-compound',
    rounding: [10, 1.5],
    stations: [
      [0, 8, 5],
      [16, 15, 6.6],
      [34, 17, 7.2],
      [56, 13, 5.6],
      [76, 7, 3.2],
      [90, 5, 2.4],
      [98, 5.4, 2.6],
    ],
    limbs: [
      {
        name: 'paddle',
        kind: 'paddle',
        at: 94,
        across: 1,
        heading: -62,
        length: 17,
        width: [4.4, 3, 2.4],
        thickness: [4.6, 11, 9],
        root: 'right',
      },
    ],
    ribs: { at: 36, proud: 0.6, count: 9, pitch: 3.6 },
  },
  {
    family: 'craw',
    short: 'craw',
    lies: 'on its belly',
    rigs: ['jig trailer', 'Texas', 'Carolina'],
    swum: 'jig trailer',
    plastisol: 'medium-compound',
    rounding: [5, 4],
    stations: [
      [0, 9.8, 3.4],
      [10, 10.4, 4],
      [28, 12, 4.6],
      [40, 14.2, 5.2],
      [52, 11.4, 4.2],
      [60, 7.4, 2.8],
    ],
    limbs: [
      {
        name: 'claw',
        kind: 'claw',
        at: 48,
        across: 3.4,
        heading: 24,
        length: 42,
        width: [4.8, 8.6, 2.4],
        thickness: [3.2, 2, 1.6],
        curl: -26,
        mirrored: true,
        root: 'front',
      },
      {
        name: 'leg',
        kind: 'leg',
        at: 34,
        across: 4.6,
        heading: 68,
        length: 14,
        width: [2.6, 2.2, 1.8],
        thickness: [2.6, 2.2, 1.8],
        curl: -40,
        mirrored: true,
      },
    ],
    ribs: { at: 7, proud: 0.5, count: 5, pitch: 4 },
  },
  {
    family: 'lizard',
    short: 'lizard',
    lies: 'on its belly',
    rigs: ['Carolina', 'Texas'],
    swum: 'Carolina',
    plastisol: 'medium-compound',
    rounding: [7, 3],
    stations: [
      [0, 10, 3.6],
      [11, 14, 4.6],
      [20, 10.6, 4.3],
      [44, 13, 4.9],
      [70, 8.6, 3.2],
      [86, 6.4, 1.7],
      [96, 5.4, 1],
    ],
    limbs: [
      {
        name: 'tail',
        kind: 'ribbon-tail',
        at: 80,
        length: 84,
        width: [5.6, 7.4, 3],
        thickness: [2.1, 1.9, 1.8],
        curl: 100,
        root: 'front',
      },
      {
        name: 'front-leg',
        kind: 'leg',
        at: 26,
        across: 3,
        heading: 72,
        length: 19,
        width: [4, 3, 2.4],
        thickness: [3.8, 2.8, 2.2],
        curl: -50,
        mirrored: true,
        root: 'left',
      },
      {
        name: 'hind-leg',
        kind: 'leg',
        at: 58,
        across: 3,
        heading: 58,
        length: 19,
        width: [4, 3, 2.4],
        thickness: [3.8, 2.8, 2.2],
        curl: -44,
        mirrored: true,
        root: 'left',
      },
    ],
    ribs: { at: 24, proud: 0.4, count: 11, pitch: 3 },
  },
];
