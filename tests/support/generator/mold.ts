import { meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import type { GeneratedBait } from './bait.ts';

/** A mold as its maker wrote it. */
export interface GeneratedMold {
  readonly id: string;
  readonly entry: object;
}

/** Cavities of molds, the common ones more often. */
const COUNTS = [1, 1, 2, 2, 3, 4, 4, 6, 8];

/** Metal around cavities, more than the least by what pins and vents want [mm]. */
const WALL = 14;
/** Most that the cavities of one mold hold, so that a hand injector fills it [m³]. */
const MOST = 1.6e-4;
const LONGEST = 560;

interface Extent {
  readonly length: number;
  readonly width: number;
  /** Above or below the parting plane. */
  readonly depth: number;
}

/** Sizes of a bait as it lies [mm]. */
function extentOf({ mesh: { positions } }: GeneratedBait): Extent {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  positions.forEach((metres, i) => {
    low[i % 3] = Math.min(low[i % 3] ?? 0, metres * 1e3);
    high[i % 3] = Math.max(high[i % 3] ?? 0, metres * 1e3);
  });
  const [x = 0, y = 0] = high.map((most, i) => most - (low[i] ?? 0));
  return { length: x, width: y, depth: Math.max(high[2] ?? 0, -(low[2] ?? 0)) };
}

const SPRUE = 16;
/** Runners are wide enough to feed the far cavities, too [mm]. */
const runnerOf = (cavities: number): number => (cavities > 4 ? 10 : 7);
const GATE = 3;
const even = (millimetres: number): string => `${2 * Math.ceil(millimetres / 2)} mm`;

/** A block with room for the cavities: up to three in a row, more in two rows that face each other. */
function blockOf({ length, width, depth }: Extent, cavities: number) {
  const rows = cavities > 3 ? 2 : 1;
  const inRow = Math.ceil(cavities / rows);
  const deep = runnerOf(cavities) / 2 + GATE + length + WALL;
  return {
    length: even(rows === 2 ? 2 * deep : SPRUE + deep),
    width: even(inRow * width + (inRow + 1) * WALL + (rows === 2 ? SPRUE : 0)),
    thickness: even(Math.max(28, 2 * depth + 20)),
    alloy: '6061-T6',
  };
}

/** Counts of cavities that a bait may come in, the common ones more often: its molds fit a block and an injector. */
export function cavityCounts(bait: GeneratedBait): number[] {
  const extent = extentOf(bait);
  const volume = meshVolume(bait.mesh);
  return COUNTS.filter((count) => {
    const { length, width } = blockOf(extent, count);
    return (
      count === 1 || (count * volume <= MOST && Math.max(parseFloat(length), parseFloat(width)) <= LONGEST)
    );
  });
}

/** The mold of a bait with so many cavities; one cavity is fed by the sprue itself. */
export function generatedMold(bait: GeneratedBait, cavities: number): GeneratedMold {
  const revision = bait.revisions.at(-1) ?? 'a';
  const id = `${bait.id}-${cavities}`;
  const entry = {
    name: `${id}, ${cavities === 1 ? 'one cavity' : `${cavities} cavities`}`,
    stock: `TT-${id.toUpperCase()}`,
    status: 'final',
    released: '2025-05-01',
    bait: bait.id,
    cavities: Array.from({ length: cavities }, () => ({ revision })),
    block: blockOf(extentOf(bait), cavities),
    sprue: { mouth: '12 mm', end: '8 mm', length: `${SPRUE} mm` },
    ...(cavities > 1 && { runner: { diameter: `${runnerOf(cavities)} mm` } }),
    gate: { width: '4 mm', depth: '3 mm', length: `${GATE} mm`, at: 'nose' },
    vents: [
      { tier: 'edge', depth: '0.0015 in', width: '5 mm', land: '2 mm', count: 3 },
      { tier: 'outlet', depth: '0.5 mm', width: '4 mm', land: '12 mm', count: 1 },
    ],
    pins: { count: 2, diameter: '6 mm' },
    clamping: 'Two bar clamps.',
    warmTo: '50 °C',
    listing: {
      price: { amount: 40 + 20 * cavities, currency: 'USD' },
      leadTime: '2 wk',
      inTheBox: ['Both halves with alignment pins', 'Printed sheet with cautions'],
    },
  };
  return { id, entry };
}

/** Water tests of a bait: older revisions failed, the newest swam. */
export function generatedTrials({ id, sketch, revisions }: GeneratedBait): GeneratedMold[] {
  return revisions.map((revision, i) => {
    const passed = i === revisions.length - 1;
    const limbs = sketch.limbs.filter(({ root }) => root);
    const date = `2025-04-${String(10 + i).padStart(2, '0')}`;
    const entry = {
      date,
      bait: id,
      revision,
      plastisol: sketch.plastisol,
      colour: 'smoke',
      clarity: 'stained',
      rig: sketch.swum,
      retrieve: '0.3 m/s',
      features: limbs.map(({ name }) => ({ name, moved: passed ? 'moved' : 'moved only fast' })),
      passed,
      seen: 'well',
      note: passed ? 'Swims as drawn.' : 'Too stiff at a slow retrieve.',
    };
    return { id: `${id}-${revision}-${date}`, entry };
  });
}
