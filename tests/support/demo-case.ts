import { analysisTools } from '../../src/io/analysis-tools.ts';
import { readCatalogue } from '../../src/io/catalogue.ts';
import { problemLine } from '../../src/io/problem-text.ts';
import type { Catalogue } from '../../src/schema/collections.ts';
import { caseOf, type Case } from '../../src/sheet/case.ts';
import { calibrated } from '../../src/sheet/fill-calibration.ts';
import { geometryOf } from '../../src/sheet/geometry.ts';
import { moldStudy } from '../../src/sheet/mold-study.ts';

const found = <Kind extends { readonly id: string }>(all: readonly Kind[], id: string): Kind => {
  const one = all.find((each) => each.id === id);
  if (!one) throw new Error(`no "${id}" in the demo`);
  return one;
};

/** What the sheet of one demo mold starts from. */
export async function demoCase(
  id: string,
  change: (catalogue: Catalogue) => Catalogue = (catalogue) => catalogue,
): Promise<Case> {
  const reading = await readCatalogue('content');
  if ('problems' in reading) throw new Error(reading.problems.map(problemLine).join('\n'));
  const catalogue = change(reading.catalogue);
  const tools = analysisTools('content');
  const mold = found(catalogue.molds, id);
  const bait = found(catalogue.baits, mold.bait);
  const revision = found(bait.revisions, mold.cavities[0]!.revision);
  const plastisol = calibrated(found(catalogue.plastisols, bait.plastisol));
  const measured = await geometryOf(bait, revision, tools);
  if ('problem' in measured) throw new Error(measured.problem.message);
  const parts = { catalogue, mold, bait, revision, plastisol, geometry: measured.geometry };
  const halves = await moldStudy(parts, tools.remember);
  return caseOf({ ...parts, halves, family: [], ledger: null });
}
