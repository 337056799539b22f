import type { FAMILIES } from '../schema/bait.ts';
import type { Colour } from '../schema/colour.ts';
import type { Plastic, Rgb } from './material.ts';

/** Linear light of a colour written as `#rrggbb`. Source: IEC 61966-2-1. */
function linear(hex: string): Rgb {
  const channel = (at: number): number => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

/** How a colour is written: body, light that went through, how clear, how far light goes in [mm]; flakes and sheen. */
interface Recipe {
  readonly body: string;
  readonly glow: string;
  readonly clear: number;
  readonly reach: number;
  readonly flakes?: readonly [colour: string, share: number];
  readonly sheen?: string;
}

const RECIPES: Readonly<Record<Colour, Recipe>> = {
  white: { body: '#ebe9e4', glow: '#fff6e8', clear: 0.3, reach: 4 },
  pearl: { body: '#dddbd8', glow: '#fff0e0', clear: 0.4, reach: 4, sheen: '#8f9fd0' },
  smoke: { body: '#4d4e50', glow: '#b2a692', clear: 0.6, reach: 4, flakes: ['#101216', 0.6] },
  black: { body: '#232427', glow: '#1d1714', clear: 0.15, reach: 2, sheen: '#3a4048' },
  chartreuse: { body: '#b9c92c', glow: '#e4f01a', clear: 0.45, reach: 5 },
  pumpkin: { body: '#8f5a26', glow: '#e07c14', clear: 0.5, reach: 5, flakes: ['#170f09', 0.65] },
  'green pumpkin': { body: '#5f5a22', glow: '#97891c', clear: 0.45, reach: 5, flakes: ['#14120a', 0.65] },
  watermelon: { body: '#54702a', glow: '#9cb41f', clear: 0.5, reach: 5, flakes: ['#15180d', 0.6] },
  amber: { body: '#a8701e', glow: '#ffb01c', clear: 0.65, reach: 7 },
  cinnamon: { body: '#84402a', glow: '#d35a22', clear: 0.5, reach: 5, flakes: ['#1d0d08', 0.35] },
  red: { body: '#9c2420', glow: '#e83018', clear: 0.45, reach: 5, flakes: ['#1b0706', 0.35] },
  pink: { body: '#d8849a', glow: '#ff8fa0', clear: 0.45, reach: 5 },
  purple: { body: '#4c2f6b', glow: '#9a3fbe', clear: 0.5, reach: 5, flakes: ['#120a1c', 0.4] },
  blue: { body: '#2b4f8a', glow: '#2f86e6', clear: 0.5, reach: 5, flakes: ['#0a1020', 0.4] },
};

/** Soft plastic of a named colour. */
export function plasticOf(colour: Colour): Plastic {
  const { body, glow, clear, reach, flakes, sheen } = RECIPES[colour];
  return {
    kind: 'plastic',
    body: linear(body),
    glow: linear(glow),
    clear,
    reach,
    ...(flakes && { flakes: { colour: linear(flakes[0]), share: flakes[1] } }),
    ...(sheen && { sheen: linear(sheen) }),
  };
}

const FAMILY_COLOURS: Readonly<Record<(typeof FAMILIES)[number], Colour>> = {
  'paddle-tail minnow': 'pearl',
  'curl-tail grub': 'chartreuse',
  'straight finesse worm': 'cinnamon',
  'salted stick worm': 'watermelon',
  craw: 'green pumpkin',
  'drop-shot minnow': 'smoke',
  'ribbon-tail worm': 'purple',
  lizard: 'pumpkin',
};

/** The colour that a bait is shown in: its own, or one that suits its family. */
export const colourOf = (bait: {
  readonly family: (typeof FAMILIES)[number];
  readonly colour?: Colour | undefined;
}): Colour => bait.colour ?? FAMILY_COLOURS[bait.family];
