/** What a warning triangle shows. */
export type Warning = 'general' | 'splash' | 'steam' | 'fumes' | 'fire' | 'burst' | 'hot surface' | 'drip';

/** What a blue disc tells the reader to do, a red barred one not to do. */
export type Order =
  | 'read first'
  | 'face shield'
  | 'gloves'
  | 'sleeves'
  | 'ventilate'
  | 'keep dry'
  | 'clamp'
  | 'wait'
  | 'keep away';

/** Signs that go with a caution. */
export interface Signs {
  readonly warning: Warning | null;
  readonly orders: readonly Order[];
}

const SIGNS: Readonly<Record<string, Signs>> = {
  'hot-plastisol': { warning: 'splash', orders: ['face shield', 'gloves', 'sleeves', 'keep away'] },
  'no-water': { warning: 'steam', orders: ['keep dry'] },
  overheating: { warning: 'fumes', orders: ['ventilate'] },
  fire: { warning: 'fire', orders: [] },
  'clamp-first': { warning: 'burst', orders: ['clamp', 'face shield'] },
  'wait-to-open': { warning: 'drip', orders: ['wait', 'gloves'] },
  'hot-block': { warning: 'hot surface', orders: ['gloves'] },
  'data-sheet-first': { warning: null, orders: ['read first'] },
  'leave-vents': { warning: null, orders: [] },
};

/** The signs of a caution by its stored key; a caution of any other key shows the general sign. */
export function signsOf(key: string): Signs {
  return SIGNS[key] ?? { warning: 'general', orders: [] };
}

/**
 * Our own drawings on a 64 by 64 field, as SVG path data: `fill` areas and `line` strokes.
 * Shapes and colours follow ISO 3864-1: a yellow triangle warns, a blue disc orders, a red barred disc forbids.
 */
export interface Drawing {
  readonly fill?: string;
  readonly line?: string;
}

export const WARNINGS: Readonly<Record<Warning, Drawing>> = {
  general: { fill: 'M29 22h6l-1.2 18h-3.6zM32 44a3.4 3.4 0 1 0 .01 0z' },
  splash: {
    fill: 'M32 17c5 7 6.5 9.5 6.5 12.5a6.5 6.5 0 0 1-13 0C25.5 26.5 27 24 32 17zM22 33c2.2 3.2 3 4.4 3 5.8a3 3 0 0 1-6 0c0-1.4.8-2.6 3-5.8zM42 33c2.2 3.2 3 4.4 3 5.8a3 3 0 0 1-6 0c0-1.4.8-2.6 3-5.8z',
    line: 'M14.5 50h12c2 0 3-3.5 5.5-3.5s3.5 3.5 5.5 3.5h12',
  },
  steam: {
    fill: 'M32 16c3.6 5 4.8 7 4.8 9.2a4.8 4.8 0 0 1-9.6 0c0-2.2 1.2-4.2 4.8-9.2z',
    line: 'M20 40v10h24V40M32 45v-10M26 44l-5-9M38 44l5-9',
  },
  fumes: {
    line: 'M19 50h26M24 45c-5-5 4-8 0-14M32 45c-5-6 4.5-10 0-20M40 45c-5-5 4-8 0-14',
  },
  fire: {
    fill: 'M33 16c1 8 11 13 11 23.5a12 12 0 0 1-24 0c0-5 2.5-8 4.5-11 .5 3 1.5 4.5 3.5 5.5 0-7 1-13 5-18zm-.5 22c-3.5 3.5-4.5 5.5-4.5 8a4.5 4.5 0 0 0 9 0c0-2.5-1.5-4-4.5-8z',
  },
  burst: {
    fill: 'M24 22h16v9H24zM24 43h16v9H24z',
    line: 'M21 37H12.5M43 37h8.5M22 33l-5-3.5M22 41l-5 3.5M42 33l5-3.5M42 41l5 3.5',
  },
  'hot surface': {
    line: 'M16 50h32M23 44c-4-4 4-7 0-12M32 44c-5-5 4.5-9 0-17M41 44c-4-4 4-7 0-12',
    fill: 'M16 48h32v4H16z',
  },
  drip: {
    fill: 'M20 24h24v8H20zM32 34c3.2 4.6 4.2 6.2 4.2 8.2a4.2 4.2 0 0 1-8.4 0c0-2 1-3.6 4.2-8.2z',
    line: 'M18 51h28',
  },
};

/** Orders that forbid: a red barred disc. */
export const FORBIDS: ReadonlySet<Order> = new Set(['keep dry', 'keep away']);

export const ORDERS: Readonly<Record<Order, Drawing & { readonly words: string }>> = {
  'read first': {
    words: 'Read the data sheet first',
    fill: 'M31 20c-4-3-10-4-15-3.5v26c5-.5 11 .5 15 3.5zM33 20c4-3 10-4 15-3.5v26c-5-.5-11 .5-15 3.5z',
  },
  'face shield': {
    words: 'Wear a face shield or goggles',
    line: 'M20 30a12 13 0 0 1 24 0M20 30v4a12 14 0 0 0 24 0v-4',
    fill: 'M17 26h30v10q-15 8-30 0z',
  },
  gloves: {
    words: 'Wear heat-proof gloves with long cuffs',
    fill: 'M24 50V36l-7-7 3.4-3.4 5.6 4.4V17.5h4V29h1.6V14.5h4V29h1.6V16.5h4V29h1.6v-8h4V40l-3 5v5zM23.5 52h20v3h-20z',
  },
  sleeves: {
    words: 'Wear long sleeves and closed shoes',
    fill: 'M25 15h14l11 8-2 24h-6l-.5-15H41v18H23V32h-.5L22 47h-6l-2-24z',
  },
  ventilate: {
    words: 'Work outdoors or under an extractor',
    line: 'M32 49V22M24 29l8-8 8 8M17 49c-3.5-4 3-7 0-12M47 49c-3.5-4 3-7 0-12M18 15h28',
  },
  'keep dry': {
    words: 'No water near hot plastic',
    fill: 'M32 15c8.5 12 11.5 16.5 11.5 22a11.5 11.5 0 0 1-23 0c0-5.5 3-10 11.5-22z',
  },
  clamp: {
    words: 'Clamp the mold before you shoot',
    line: 'M22 15v34h18M22 19h18M35 27v14',
    fill: 'M30 41h10v4H30zM31 22h8v4h-8z',
  },
  wait: {
    words: 'Wait before you open it',
    line: 'M32 22v11l7 5M32 15.5a16.5 16.5 0 1 0 .01 0z',
  },
  'keep away': {
    words: 'Keep children and pets out',
    fill: 'M26 18a4.5 4.5 0 1 0 .01 0zM20 29h12v11h-2v9h-3.2v-9h-1.6v9H22v-9h-2zM37 37h9l3-4v6l-2 1v9h-2.4v-5h-5.2v5H37z',
  },
};
