// Time of the whole filling study of every mold of the demo: grid, reserves with their bands, maps, window, gains.
// Processor time of this process, so that a busy machine does not count. Run: npx node tests/bench/study.bench.ts
import { cpus } from 'node:os';
import { readCatalogue } from '../../src/io/catalogue.ts';
import { fillFigures } from '../../src/sheet/fill-figures.ts';
import { fillWindow } from '../../src/sheet/fill-outlook.ts';
import { fillModel, fillStudies } from '../../src/sheet/fill-study.ts';
import { wallStudy } from '../../src/sheet/wall-study.ts';
import { forgetful } from '../../src/sheet/tools.ts';
import { demoCase } from '../support/demo-case.ts';
import { keep, spreadOf, verdict } from './harness.ts';

/** A mold [s of one core]. */
const LIMIT = 2.5;

const reading = await readCatalogue('content');
if ('problems' in reading) throw new Error('the demo has mistakes');
console.log(`${cpus()[0]?.model ?? 'unknown'}, Node ${process.version}, processor time of one study each`);
let slowest = 0;
for (const { id } of reading.catalogue.molds.filter(({ from }) => from === undefined)) {
  const given = await demoCase(id);
  const walls = await wallStudy(given.geometry, forgetful);
  const start = process.cpuUsage().user;
  const model = await fillModel(given, walls, forgetful);
  const studies = fillStudies(given, model);
  const [figures, window] = [fillFigures(given, model, studies), fillWindow(given, model, studies)];
  const seconds = (process.cpuUsage().user - start) / 1e6;
  if (figures.length < 8 || !window.nominal.every((reserve) => reserve > 0))
    throw new Error(`${id}: no study`);
  const { nx, ny, height } = model.grid.map;
  const cells = height.reduce((count, metres) => count + (metres > 0 ? 1 : 0), 0);
  console.log(`  ${cells} cells of ${nx} × ${ny}, ${studies.length} parts`);
  keep({ bench: 'study', what: id, n: cells, unit: 's', ...spreadOf([seconds]) });
  slowest = Math.max(slowest, seconds);
}
verdict({ [`the slowest, ${slowest.toFixed(2)} s, within ${LIMIT} s`]: slowest < LIMIT });
