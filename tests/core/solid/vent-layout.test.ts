import { describe, expect, test } from 'vitest';
import type { Vec2 } from '../../../src/core/mesh/mesh.ts';
import type { MoldTable, PlacedCavity, VentTable } from '../../../src/core/solid/mold-table.ts';
import { placedOutline, turnedDirection } from '../../../src/core/solid/plan.ts';
import { ventsOf, type VentScene } from '../../../src/core/solid/vent-layout.ts';
import { box } from '../../support/solids.ts';

const mm = 1e-3;
const at = (x: number, y: number): Vec2 => [x * mm, y * mm];
const inMetres = (points: readonly (readonly number[])[]): Vec2[] => points.map(([x, y]) => at(x!, y!));
const far = at(-500, -500);

/** A bar from (0, −5) to (60, 5) mm in its own frame, gated at its nose. */
const BAR = [[0, -5], [60, -5], [60, 5], [0, 5]]; // prettier-ignore
const MIDDLE_OF_TAIL = [60, 0];

const vent = (tier: VentTable['tier'], width: number, land: number, count = 1): VentTable => ({
  ...{ tier, count, depth: 0.1 * mm },
  width: width * mm,
  land: land * mm,
});

interface Baits {
  readonly points?: readonly (readonly number[])[];
  readonly tips?: readonly (readonly number[])[];
  readonly place?: Partial<Pick<PlacedCavity, 'x' | 'y' | 'turn' | 'mirrored'>>;
}
interface Obstacles {
  readonly runner?: { diameter: number; stretches: readonly (readonly number[])[] };
  readonly sprue?: { mouth: number; stretch: readonly number[] };
  readonly pins?: readonly (readonly [number, number, number])[];
}

/** A block of 120 × 60 mm with baits, their noses at (30, 30) unless told, nothing else in the way unless told. */
function scene(vents: readonly VentTable[], baits: readonly Baits[], obstacles: Obstacles = {}): VentScene {
  const { runner, sprue, pins = [] } = obstacles;
  const cavities = baits.map(({ points = BAR, place = {} }): PlacedCavity => {
    const placement = { ...{ x: 30 * mm, y: 30 * mm, turn: 0, mirrored: false }, ...place };
    const out = turnedDirection([-1, 0], placement);
    return {
      ...placement,
      outline: placedOutline([inMetres(points)], placement),
      gate: { at: [placement.x, placement.y], out },
    };
  });
  const mold: MoldTable = {
    cavities: baits.map(({ points = BAR, tips = [] }) => ({
      mesh: box([60 * mm, 10 * mm, 8 * mm]),
      plan: [inMetres(points)],
      tips: inMetres(tips),
    })),
    block: { length: 120 * mm, width: 60 * mm, thickness: 24 * mm },
    sprue: { mouth: (sprue?.mouth ?? 12) * mm, end: 7 * mm, length: 20 * mm },
    runner: runner && { diameter: runner.diameter * mm },
    gate: { width: 4 * mm, depth: 2 * mm, length: 3 * mm, at: 'nose' },
    vents,
  };
  const stretch = ([a, b, c, d]: readonly number[]) => ({ from: at(a!, b!), to: at(c!, d!) });
  const { from: mouth, to: end } = sprue ? stretch(sprue.stretch) : { from: far, to: far };
  return {
    mold,
    cavities,
    channels: {
      gates: [],
      runner: runner?.stretches.map(stretch) ?? [],
      runnerLength: 0,
      sprue: { mouth, end },
    },
    pins: pins.map(([x, y, diameter]) => ({ at: at(x, y), diameter: diameter * mm, depth: 10 * mm })),
  };
}

const near = (values: readonly number[]) => values.map((value) => expect.closeTo(value, 6) as number);
/** From and to of vents [mm], by tier. */
const shown = (layout: ReturnType<typeof ventsOf>, tier: VentTable['tier']) =>
  layout.vents
    .filter((one) => one.tier === tier)
    .map(({ from, to }) => [...from, ...to].map((part) => part / mm));
const tail: Baits = { tips: [MIDDLE_OF_TAIL] };

describe('the chain from the cavity to the edge of the block', () => {
  const edge = vent('edge', 4, 4);
  const collector = vent('collector', 5, 5);
  const outlet = vent('outlet', 6, 7);

  test('edge vent, collector and outlet follow straight on, whole', () => {
    const { vents, notes } = ventsOf(scene([outlet, edge, collector], [tail]));
    const one = ({ tier, depth, width }: VentTable, from: number, to: number, open: boolean) => ({
      ...{ tier, depth, width, open, cavity: 0 },
      from: near([from * mm, 0.03]),
      to: near([to * mm, 0.03]),
    });
    expect(vents).toEqual([
      one(edge, 90, 94, false),
      one(collector, 94, 99, false),
      one(outlet, 99, 120, true),
    ]);
    expect(notes).toEqual([]);
  });

  test.each<[string, VentTable[], number[][]]>([
    ['without a collector', [edge, outlet], [[90, 30, 94, 30], [94, 30, 120, 30]]], // prettier-ignore
    ['an outlet alone', [outlet], [[90, 30, 120, 30]]],
    ['a collector alone', [collector], [[90, 30, 95, 30]]],
    ['none', [], []],
  ])('%s', (_, vents, expected) => {
    const found = ventsOf(scene(vents, [tail])).vents;
    expect(found.map(({ from, to }) => [...from, ...to].map((part) => part / mm))).toEqual(
      expected.map(near),
    );
  });

  test('an edge vent that ends at the very edge of the block is open; one that would reach beyond has no room', () => {
    const landed = (land: number) => ventsOf(scene([vent('edge', 4, land)], [tail]));
    expect(landed(30).vents[0]).toMatchObject({ open: true, to: near([0.12, 0.03]) });
    expect(landed(29.9).vents[0]).toMatchObject({ open: false });
    expect(landed(30.1).vents[0]?.from).not.toEqual(near([0.09, 0.03]));
    // No place has more than 30/cos 30° = 34.6 mm before it.
    const { vents, notes } = landed(36);
    expect(vents).toEqual([]);
    expect(notes).toEqual([
      'vents: 0 of 1 edge vents on cavity 1 found room; turn the cavity or make the block larger',
    ]);
  });
});

describe('every way out of the block', () => {
  // The bar turned about its nose; its outlet runs straight on from the middle of its tail to the edge it faces.
  test.each<[string, Baits['place'], number[]]>([
    ['to the right', {}, [94, 30, 120, 30]],
    ['to the left', { x: 90 * mm, turn: Math.PI }, [26, 30, 0, 30]],
    ['mirrored', { mirrored: true }, [94, 30, 120, 30]],
  ])('%s', (_, place, expected) => {
    const layout = ventsOf(scene([vent('edge', 4, 4), vent('outlet', 5, 6)], [{ ...tail, place: place! }]));
    expect(shown(layout, 'outlet')).toEqual([near(expected)]);
  });
  test.each<[string, number[], number[]]>([
    ['up', [30, 5], [60, 39, 60, 60]],
    ['down', [30, -5], [60, 21, 60, 0]],
  ])('%s', (_, tip, expected) => {
    const layout = ventsOf(scene([vent('edge', 4, 4), vent('outlet', 5, 6)], [{ tips: [tip] }]));
    expect(shown(layout, 'outlet')).toEqual([near(expected)]);
  });
  test('a tip moves with its cavity: mirrored, turned and shifted', () => {
    // (58, 3) is (58, −3) mirrored, (3, 58) after a quarter turn; from (50, −10) that is (53, 48), nearest to the tail's face.
    const place = { x: 50 * mm, y: -10 * mm, turn: Math.PI / 2, mirrored: true };
    const [edge] = shown(ventsOf(scene([vent('edge', 4, 4)], [{ tips: [[60, 3]], place }])), 'edge');
    expect(edge).toEqual(near([53, 50, 53, 54]));
  });
});

describe('an outlet turns aside by as little as a clear way takes', () => {
  // It starts at (94, 30), 5 mm wide: straight on it is 26 mm long, turned by 30° 26/cos 30° to the right edge, turned by
  // 60° 30/sin 60° to the upper one. Anything has to be 1 mm clear of its side.
  const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
  const straight = [94, 30, 120, 30];
  const left = [94, 30, 120, 30 + (26 * s) / c];
  const right = [94, 30, 120, 30 - (26 * s) / c];
  const farLeft = [94, 30, 94 + (30 * s) / c, 60];
  const farRight = [94, 30, 94 + (30 * s) / c, 0];
  const square = (x: number, y: number) => [[x, y], [x + 6, y], [x + 6, y + 6], [x, y + 6]]; // prettier-ignore
  const moved = { x: 0, y: 0 };
  const vents = [vent('edge', 4, 4), vent('outlet', 5, 6)];
  test.each<[string, Obstacles, Baits[], number[]]>([
    // 2.5 + 3 + 1 = 6.5 mm from the middle of a pin of 6 mm.
    ['a pin above, clear', { pins: [[110, 36.6, 6]] }, [], straight],
    ['a pin above, too near', { pins: [[110, 36.3, 6]] }, [], right],
    ['a pin below, too near', { pins: [[110, 23.7, 6]] }, [], left],
    ['a small pin in the way', { pins: [[102.9, 30, 1]] }, [], left],
    // 30° aside passes (107, 30) at 13·sin 30° = 6.5, (106.5, 30) at 6.25.
    ['a pin straight ahead', { pins: [[107.3, 30, 6]] }, [], left],
    ['a pin straight ahead, nearer', { pins: [[106.1, 30, 6]] }, [], farLeft],
    // 60° to the left passes (100, 52) at 22·cos 60° − 6·sin 60° = 5.8.
    ['a pin straight ahead, one far to the left', { pins: [[106.1, 30, 6], [100, 52, 6]] }, [], farRight], // prettier-ignore
    // 60° aside passes (106.1, 30) at 12.1·sin 60° = 10.5, less than 2.5 + 8 + 1; square to the way there are 12.1.
    ['a large pin straight ahead', { pins: [[106.1, 30, 16]] }, [], [94, 30, 94, 60]],
    ['a large pin straight ahead, one square to the left', { pins: [[106.1, 30, 16], [97, 50, 4]] }, [], [94, 30, 94, 0]], // prettier-ignore
    // 2.5 + 4 + 1 = 7.5 mm from a runner of 8 mm.
    ['a runner, clear', { runner: { diameter: 8, stretches: [[108, 37.6, 115, 37.6]] } }, [], straight],
    ['a runner, too near', { runner: { diameter: 8, stretches: [[0, 0, 9, 0], [108, 37.4, 115, 37.4]] } }, [], right], // prettier-ignore
    // 2.5 + 6 + 1 = 9.5 mm from a sprue of 12 mm.
    ['a sprue, clear', { sprue: { mouth: 12, stretch: [108, 39.6, 115, 39.6] } }, [], straight],
    ['a sprue, too near', { sprue: { mouth: 12, stretch: [108, 39.4, 115, 39.4] } }, [], right],
    // 2.5 + 1 = 3.5 mm from another cavity.
    ['another cavity, clear', {}, [{ points: square(105, 33.6), place: moved }], straight],
    ['another cavity, too near', {}, [{ points: square(105, 33.4), place: moved }], right],
    ['another cavity below, too near', {}, [{ points: square(105, 20.6), place: moved }], left],
  ])('%s', (_, obstacles, others, expected) => {
    const layout = ventsOf(scene(vents, [tail, ...others], obstacles));
    expect(shown(layout, 'outlet')[0]).toEqual(near(expected));
    expect(layout.vents.find(({ tier }) => tier === 'outlet')!.open).toBe(true);
  });

  test('an obstacle at its very start leaves no way at all', () => {
    // 6.35 mm from (94, 30), 7.7 mm from a point 2.4 mm further on, 5.6 mm from the edge vent of 2 mm.
    const { vents: found, notes } = ventsOf(
      scene([vent('edge', 2, 4), vent('outlet', 5, 6)], [tail], { pins: [[91, 35.6, 6]] }),
    );
    expect(shown({ vents: found, notes }, 'edge')).toEqual([near([90, 30, 94, 30])]);
    expect(found.map(({ tier }) => tier)).toEqual(['edge']);
    expect(notes).toEqual([
      'vents: 0 of 1 outlet vents on cavity 1 found room; turn the cavity or make the block larger',
    ]);
  });

  test('an obstacle at its very end', () => {
    // An edge vent of 4 mm to (94, 30): 2 + 3 + 1 = 6 mm from the pin's middle.
    const ends = (x: number) => shown(ventsOf(scene([vent('edge', 4, 4)], [tail], { pins: [[x, 30, 6]] })), 'edge')[0]; // prettier-ignore
    expect(ends(100.1)).toEqual(near([90, 30, 94, 30]));
    expect(ends(99.9)).not.toEqual(near([90, 30, 94, 30]));
  });
});

describe('a vent may not come back to its own cavity', () => {
  // A fork: a notch 6 mm wide and 30 mm deep between two prongs; its outline begins in the middle of the notch's floor.
  const fork = (half: number) => [[30, half], [60, half], [60, 15], [0, 15], [0, -15], [60, -15], [60, -half], [30, -half], [30, 0]]; // prettier-ignore
  test('where it fits between the prongs it runs out between them', () => {
    const layout = ventsOf(scene([vent('edge', 5.8, 20)], [{ points: fork(3), tips: [[30, 0]] }]));
    expect(shown(layout, 'edge')).toEqual([near([60, 30, 80, 30])]);
  });
  test('where it does not it goes elsewhere', () => {
    const [edge] = shown(
      ventsOf(scene([vent('edge', 6.2, 20)], [{ points: fork(3), tips: [[30, 0]] }])),
      'edge',
    );
    expect(edge![0]).not.toBeCloseTo(60, 3);
  });
});

describe('which places', () => {
  // A bar with a slanted tail: its farthest corner from the gate is the lower one.
  const SLANTED = [[0, -5], [60, -5], [58, 5], [0, 5]]; // prettier-ignore
  const starts = (count: number, width = 4) => {
    const layout = ventsOf(scene([vent('edge', width, 4, count)], [{ points: SLANTED }]));
    return { places: shown(layout, 'edge').map((row) => row.slice(0, 2)), notes: layout.notes };
  };

  test('the farthest from the gate, apart by half the even share of the way round', () => {
    // Round: 10 + 60 + √104 + 58 = 138.2 mm, so 23.03 mm for three. From (90, 25) on top x ≤ 69.26: one of the places
    // 1 mm apart from (88, 35) on, the first 10.802 − 10 of a millimetre beyond the corner. Then below x ≤ 48.46.
    const top = 88 - (11 - Math.sqrt(104)) - 18;
    expect(starts(3).places).toEqual([[90, 25], [top, 35], [48, 25]].map(near)); // prettier-ignore
  });

  /** The same by a plain search: places every `pitch` round the outline, the farthest first, with ever less room. */
  const plain = (count: number, width: number): number[][] => {
    const ring = SLANTED.map(([x, y]) => [x! + 30, y! + 30] as const);
    const sides = ring.map((to, i) => ({ from: ring.at(i - 1)!, to }));
    const length = ({ from, to }: (typeof sides)[number]) => Math.hypot(to[0] - from[0], to[1] - from[1]);
    const round = sides.reduce((sum, side) => sum + length(side), 0);
    const pitch = Math.max(width / 4, Math.hypot(60, 10) / 300);
    const places: number[][] = [];
    for (let k = 0; k * pitch < round - 1e-9; k++) {
      let rest = k * pitch;
      const side = sides.find((one) => rest < length(one) - 1e-9 || ((rest -= length(one)), false))!;
      const share = rest / length(side);
      places.push([0, 1].map((axis) => side.from[axis]! + share * (side.to[axis]! - side.from[axis]!)));
    }
    const apart = (a: readonly number[], b: readonly number[]) => Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!);
    const gate = [30, 30];
    const order = places
      .filter((place) => apart(place, gate) > 2 * width)
      .sort((a, b) => apart(b, gate) - apart(a, gate));
    const chosen: number[][] = [];
    for (const part of [1, 0.5, 0.25, 0]) {
      const least = Math.max((part * round) / (2 * count), 1.5 * width);
      for (const place of order) {
        if (chosen.length < count && chosen.every((one) => apart(one, place) >= least)) chosen.push(place);
      }
    }
    return chosen;
  };
  test.each([
    [1, 4],
    [2, 4],
    [5, 4],
    [3, 0.6],
    [40, 0.6],
    [130, 0.6],
    [200, 0.6],
  ])('%d vents of %d mm are those that a plain search finds', (count, width) => {
    const { places, notes } = starts(count, width);
    expect(places).toEqual(plain(count, width).map(near));
    expect(notes).toHaveLength(places.length < count ? 1 : 0);
  });

  test('the gate’s own surroundings stay free, twice the vent’s width round it', () => {
    const { places } = starts(60);
    for (const [x, y] of places) expect(Math.hypot(x! - 30, y! - 30)).toBeGreaterThan(8);
  });

  test('tips come before farther places, each where it is', () => {
    const layout = ventsOf(scene([vent('edge', 4, 4, 2)], [{ tips: [[10, -5], [49.8, 5]] }])); // prettier-ignore
    expect(shown(layout, 'edge').map(([x, y]) => [x, y])).toEqual([[40, 25], [80, 35]].map(near)); // prettier-ignore
  });
});

describe('collectors and outlets go on from the ends of the tier before', () => {
  // Two edge vents: one at the tail, which a fence of runner closes in, and one below, as far off as half the even share, 35 mm; the
  // nearest place is 0.2 mm off the tip.
  const fence = { diameter: 2, stretches: [[115, 0, 115, 60], [84, 45, 115, 45], [84, 15, 115, 15]] }; // prettier-ignore
  const roof = [[35, 8, 75, 8], [35, 8, 35, 20], [75, 8, 75, 20]]; // prettier-ignore
  const both = { diameter: 2, stretches: [...fence.stretches, ...roof] };
  const baits = [{ tips: [MIDDLE_OF_TAIL, [25.2, -5]] }];
  const edges = vent('edge', 4, 4, 2);
  const collector = vent('collector', 4, 3);
  const outlet = vent('outlet', 4, 3);
  const tail3 = [94, 30, 97, 30];
  const side3 = [55, 21, 55, 18];

  test('a collector goes where its outlet lets air out', () => {
    const layout = ventsOf(scene([edges, collector, outlet], baits, { runner: fence }));
    expect(shown(layout, 'edge')).toEqual([[90, 30, 94, 30], [55, 25, 55, 21]].map(near)); // prettier-ignore
    expect(shown(layout, 'collector')).toEqual([near(side3)]);
    expect(shown(layout, 'outlet')).toEqual([near([55, 18, 55, 0])]);
    expect(layout.notes).toEqual([]);
  });
  test('without an outlet to think of it goes to the first', () => {
    const layout = ventsOf(scene([edges, collector], baits, { runner: fence }));
    expect(shown(layout, 'collector')).toEqual([near(tail3)]);
  });
  test('where no outlet lets air out it goes to the first, and its outlet is noted as blind', () => {
    const layout = ventsOf(scene([edges, collector, outlet], baits, { runner: both }));
    expect(shown(layout, 'collector')).toEqual([near(tail3)]);
    expect(layout.vents.at(-1)).toMatchObject({ tier: 'outlet', open: false, to: near([0.1, 0.03]) });
    expect(layout.notes).toEqual([
      "vents: an outlet of cavity 1 found no way to the block's edge and let no air out; move the cavity or the pins",
    ]);
  });
  test('an outlet takes the end that lets air out first, a blind one last', () => {
    const layout = ventsOf(scene([edges, { ...outlet, count: 2 }], baits, { runner: fence }));
    expect(shown(layout, 'outlet')).toEqual([[55, 21, 55, 0], [94, 30, 97, 30]].map(near)); // prettier-ignore
    expect(layout.notes).toEqual([expect.stringContaining('an outlet of cavity 1 found no way')]);
  });
  test('several blind outlets are counted, of the cavity they belong to', () => {
    const other: Baits = { points: [[0, 0], [2, 0], [2, 2], [0, 2]], place: { x: 0.001, y: 0.057 } }; // prettier-ignore
    const vents = [edges, { ...outlet, count: 3 }];
    const { notes, vents: found } = ventsOf(scene(vents, [other, ...baits], { runner: both }));
    expect(notes.slice(-2)).toEqual([
      'vents: 2 of 3 outlet vents on cavity 2 found room; turn the cavity or make the block larger',
      "vents: 2 outlets of cavity 2 found no way to the block's edge and let no air out; move the cavity or the pins",
    ]);
    expect(notes[0]).toContain('0 of 2 edge vents on cavity 1 found room');
    expect(found.map(({ cavity }) => cavity)).toEqual([1, 1, 1, 1]);
  });
  test('two of a tier stand one and a half widths apart', () => {
    // Ends at (94, 30) and (55, 21): 40.02 mm apart.
    const wide = (width: number) => ventsOf(scene([edges, vent('collector', width, 1, 2)], baits));
    expect(shown(wide(26), 'collector')).toHaveLength(2);
    expect(shown(wide(27), 'collector')).toEqual([near([94, 30, 95, 30])]);
    expect(wide(27).notes).toEqual([expect.stringContaining('1 of 2 collector vents on cavity 1')]);
  });
});
