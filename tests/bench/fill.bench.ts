// Time of one filling run, and of the pressure solution in it against conjugate gradients from the last pressures.
// Processor time of this process, so that a busy machine does not count. Run: npx node tests/bench/fill.bench.ts
import { cpus } from 'node:os';
import { cutCavity, type Cavity } from '../../src/core/fill/grid/cavity.ts';
import { criticalViscosities } from '../../src/core/fill/grid/critical-viscosity.ts';
import { fillCavity } from '../../src/core/fill/grid/fill-cavity.ts';
import { gateEntries } from '../../src/core/fill/grid/gate.ts';
import { emptyNetwork, solvePressures } from '../../src/core/fill/grid/network.ts';
import { MELT, PUSH, bait, middle } from '../core/fill/grid/maps.ts';
import { solveIteratively } from './conjugate-gradients.ts';
import { keep, timed, told, verdict, type Spread } from './harness.ts';

/** One run at the default grid of some 1500 cells [ms of one core]. */
const LIMIT = 100;
const RUNS = 7;
const melt = { ...MELT, cools: true };
const feed = { ...PUSH, flowLimit: 1.5e-5, stretches: [{ drag: 2e9, thickness: 6e-3, round: true }] };

/** Processor time of one piece of work [ms]. */
async function timedOnce(work: () => void): Promise<Spread> {
  const { only } = await timed({ only: work }, { runs: RUNS, clock: 'cpu', warm: 1 });
  if (!only) throw new Error('nothing was timed');
  return only;
}

const shown = (spread: Spread) => told(spread, 'ms');

/** Both solvers on the half-filled bait, the iteration started from a solution with 2 % other links. */
async function rivals(cavity: Cavity): Promise<void> {
  const net = emptyNetwork(cavity);
  const half = cavity.count >> 1;
  const fill = (spread: number) => {
    cavity.neighbours.forEach((other, side) => {
      const cell = side >> 2;
      const joined = other >= 0 && other < half && cell < half;
      const wave = 1 + spread * Math.sin(cell + other);
      net.link[side] = joined ? wave * Math.sqrt(cavity.open[cell]! * cavity.open[other]!) : 0;
      net.front[cell] = other >= half && cell < half ? cavity.open[other]! : net.front[cell]!;
      net.active[cell] = cell < half ? 1 : 0;
    });
    cavity.gate.forEach((cell) => (net.gate[cell] = 2 * cavity.open[cell]!));
  };
  fill(0.02);
  solvePressures(net);
  const start = net.pressure.slice();
  fill(0);
  const direct = await timedOnce(() => solvePressures(net));
  const exact = net.pressure.slice();
  for (const tolerance of [1e-5, 1e-9]) {
    let [iterations, worst] = [0, 0];
    const iterative = await timedOnce(() => {
      const pressure = start.slice();
      iterations = solveIteratively(net, pressure, tolerance);
      worst = exact.reduce((most, p, cell) => Math.max(most, Math.abs(p - pressure[cell]!)), 0);
    });
    console.log(
      `    conjugate gradients to ${tolerance}: ${shown(iterative)}, ${iterations} iterations, off by ${worst.toExponential(0)}`,
    );
  }
  keep({ bench: 'fill', what: 'direct factor', n: half, unit: 'ms', ...direct });
  console.log(`    direct factor: ${shown(direct)}, ${cavity.order.start.at(-1)} entries`);
}

console.log(`${cpus()[0]?.model ?? 'unknown'}, Node ${process.version}, processor time, median of ${RUNS}`);
let atDefault = Infinity;
for (const cell of [1.2e-3, 0.88e-3, 0.6e-3]) {
  const map = bait(cell);
  const gate = gateEntries(map, { at: 'nose', width: 4e-3, depth: 3e-3 });
  const cavity = cutCavity(map, gate);
  const cut = await timedOnce(() => cutCavity(map, gate));
  let fill = fillCavity(cavity, melt, feed);
  const run = await timedOnce(() => (fill = fillCavity(cavity, melt, feed)));
  if (Math.abs(fill.injected / fill.volume - 1) > 1e-9 || !fill.filled) throw new Error('the run is wrong');
  console.log(
    `  pitch ${cell * 1e3} mm, ${cavity.count} cells: cut ${shown(cut)}, fill ${shown(run)}, ${fill.steps} steps`,
  );
  keep({ bench: 'fill', what: 'cut', n: cavity.count, unit: 'ms', ...cut });
  keep({ bench: 'fill', what: 'one run', n: cavity.count, unit: 'ms', ...run });
  if (cell === 0.88e-3) atDefault = run.median;
  await rivals(cavity);
  const cells = [...cavity.place.keys()].filter((k) => middle(map, cavity.place[k]!)[0] > 0.062);
  const features = [{ name: 'tail', cells, root: [] }];
  const reserve = await timedOnce(() => criticalViscosities(cavity, melt, feed, { features }));
  keep({ bench: 'fill', what: 'reserve of the tail', n: cavity.count, unit: 'ms', ...reserve });
}
verdict({ [`one run at the default grid within ${LIMIT} ms`]: atDefault < LIMIT });
