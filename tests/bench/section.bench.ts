import initialise from 'manifold-3d';
import type { Mesh } from '../../src/core/mesh/mesh.ts';
import { meshVolume } from '../../src/core/mesh/mass-properties.ts';
import { measureBait } from '../../src/core/section/measure.ts';
import { sectionArea } from '../../src/core/section/moments.ts';
import { sectionsAlong } from '../../src/core/section/slice.ts';
import { baitSolid } from '../../src/core/solid/bait.ts';
import { torus } from '../support/solids.ts';
import { keep, timed, verdict } from './harness.ts';

// Run by `npx node tests/bench/section.bench.ts`: keeps medians and ratios, exits 1 when a limit is passed.

const RUNS = 9;
const TIMING = { runs: RUNS, clock: 'wall' } as const;
const LIMITS = { sectionsOverSweep: 3, geometrySeconds: 1.5 };

/** The least that any slicer has to do: find the stations that each triangle meets and both points on each. */
function bareSweep({ positions, triangles }: Mesh, stations: Float64Array, room: Float64Array): number {
  let filled = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t]!;
    const b = 3 * triangles[t + 1]!;
    const c = 3 * triangles[t + 2]!;
    const low = Math.min(positions[a]!, positions[b]!, positions[c]!);
    const high = Math.max(positions[a]!, positions[b]!, positions[c]!);
    let k = Math.max(0, Math.ceil((low - stations[0]!) / (stations[1]! - stations[0]!)));
    for (; k < stations.length && stations[k]! <= high; k++) {
      const at = stations[k]!;
      for (let side = 0; side < 3; side++) {
        const from = side === 0 ? a : side === 1 ? b : c;
        const to = side === 0 ? b : side === 1 ? c : a;
        if (positions[from]! >= at === positions[to]! >= at) continue;
        const share = (at - positions[from]!) / (positions[to]! - positions[from]!);
        room[filled++] = positions[from + 1]! + share * (positions[to + 1]! - positions[from + 1]!);
        room[filled++] = positions[from + 2]! + share * (positions[to + 2]! - positions[from + 2]!);
      }
    }
  }
  return filled;
}

const ring = torus(0.02, 0.005, 500, 100);
const stations = Float64Array.from({ length: 100 }, (_, i) => -0.025 + (i + 0.5) * 0.0005);
console.log(`100 sections of a ring of ${ring.triangles.length / 3} triangles, median of ${RUNS} runs`);

const wasm = await initialise();
wasm.setup();
// The kernel slices across z: the ring is laid with its x along z, in millimetres.
const laid = Float32Array.from(ring.positions, (_, i) => 1e3 * ring.positions[i - (i % 3) + ((i + 1) % 3)]!);
const solid = new wasm.Manifold(
  new wasm.Mesh({ numProp: 3, vertProperties: laid, triVerts: ring.triangles }),
);
const room = new Float64Array(400_000);
const places = [...stations];
let ours = 0;
let theirs = 0;
const slicing = await timed(
  {
    'bare sweep': () => bareSweep(ring, stations, room),
    'sections linked into rings': () => sectionsAlong(ring, 'x', places),
    'sections and their areas': () => {
      ours = sectionsAlong(ring, 'x', places).reduce((sum, section) => sum + sectionArea(section) * 5e-4, 0);
    },
    'manifold-3d slice': () => {
      theirs = 0;
      for (const at of places) {
        const slice = solid.slice(at * 1e3);
        slice.toPolygons();
        theirs += slice.area() * 1e-6 * 5e-4;
        slice.delete();
      }
    },
  },
  TIMING,
);
solid.delete();
const sweep = slicing['bare sweep']!.median;
for (const [what, spread] of Object.entries(slicing))
  keep({
    bench: 'section',
    what,
    n: ring.triangles.length / 3,
    unit: 'ms',
    ratio: spread.median / sweep,
    ...spread,
  });
const ratio = slicing['sections linked into rings']!.median / slicing['bare sweep']!.median;
const against = slicing['manifold-3d slice']!.median / slicing['sections and their areas']!.median;
console.log(
  `  ${ratio.toFixed(2)} times the bare sweep (limit ${LIMITS.sectionsOverSweep}); manifold-3d takes ${against.toFixed(1)} times as long`,
);

const appendage = { width: { root: 0.006, tip: 0.004 }, thickness: { root: 0.003, tip: 0.0012 } };
const bait = await baitSolid(
  {
    stations: (
      [
        [0, 8, 4],
        [10, 12, 6],
        [40, 12, 6],
        [60, 7, 3.5],
      ] as const
    ).map(([at, width, half]) => ({
      at: at / 1e3,
      width: width / 1e3,
      above: half / 1e3,
      below: half / 1e3,
      roundness: 2,
    })),
    appendages: [
      { ...appendage, name: 'tail', kind: 'curl-tail', root: { at: 0.058 }, length: 0.05, curl: 4.5 },
      {
        ...appendage,
        name: 'arm',
        kind: 'arm',
        root: { at: 0.03, across: 0.002 },
        direction: 1,
        length: 0.02,
        mirrored: true,
      },
    ],
  },
  { around: 132, along: 170 },
);
console.log(`Whole geometry of a curl-tail bait of ${bait.mesh.triangles.length / 3} triangles, 2 features`);
let volumeGap = Infinity;
const whole = await timed(
  {
    measureBait: async () => {
      const { areaCurve, volume, box } = await measureBait(bait.mesh, bait.features);
      const mean = areaCurve.reduce((sum, { area }) => sum + area, 0) / areaCurve.length;
      volumeGap = Math.abs((mean * (box.max[0] - box.min[0])) / volume - 1);
    },
  },
  TIMING,
);
const measured = whole['measureBait']!;
keep({
  bench: 'section',
  what: 'whole geometry of a bait',
  n: bait.mesh.triangles.length / 3,
  unit: 'ms',
  ...measured,
});

verdict({
  'sections integrate to the volume (ring, 1e-3)': Math.abs(ours / meshVolume(ring) - 1) < 1e-3,
  'and to what manifold-3d gives (1e-6)': Math.abs(ours / theirs - 1) < 1e-6,
  'sections integrate to the volume (bait, 2e-3)': volumeGap < 2e-3,
  'sections within 3 bare sweeps': ratio < LIMITS.sectionsOverSweep,
  'geometry within 1.5 s': measured.median < LIMITS.geometrySeconds * 1e3,
});
