import type { Figure } from '../core/quantity/figure.ts';
import { movedRuns } from '../core/revision/moved.ts';
import type { Vec2 } from '../core/mesh/mesh.ts';
import type { Outline } from '../core/section/geometry.ts';
import type { Revision } from '../schema/bait.ts';
import type { Bait, Entry, Mold, Shop } from '../schema/collections.ts';
import type { CaliperReading } from './calipers.ts';
import { hasMoved } from './ledger.ts';
import { changeSentences, partChanges, type PartChanges } from './revision-change.ts';
import type { Sheet } from './sheet.ts';
import { lastTrial, type MeasuredRevision, type TrialStudy } from './trial-study.ts';
import { variantsOf, type Variants } from './variants.ts';
import { sizeWords } from './words.ts';

/** One revision on the bait's page. */
export interface RevisionFace {
  readonly revision: Revision;
  readonly readings: readonly CaliperReading[];
  /** Passed or failed in the last water test; null while it was not swum. */
  readonly passed: boolean | null;
  /** Published molds that carry it. */
  readonly molds: readonly Pick<Entry<Mold>, 'id' | 'name' | 'status'>[];
}

/** One figure of the same mold with two revisions in it. */
export interface FigureChange {
  readonly from: Figure;
  readonly to: Figure;
  /** True when a reader sees another number. */
  readonly moved: boolean;
}

/** Two outlines, one laid over the other, and what of the later one lies elsewhere. */
export interface Overlay {
  readonly from: Outline;
  readonly to: Outline;
  readonly moved: readonly (readonly Vec2[])[];
}

/** Two revisions side by side, the earlier one first. */
export interface Comparison {
  readonly from: string;
  readonly to: string;
  readonly parts: PartChanges;
  readonly figures: readonly FigureChange[];
  /** Verdicts, hook and last water test of both. */
  readonly facts: readonly { readonly label: string; readonly from: string; readonly to: string }[];
  /** What has changed, in words. */
  readonly sentences: readonly string[];
  readonly plan: Overlay;
  readonly across: Overlay;
}

/** Everything the page of a bait is printed from. */
export interface BaitSheet {
  readonly id: string;
  readonly shop: Shop;
  readonly bait: Entry<Bait>;
  /** The published mold in which every revision is worked out. */
  readonly mold: Pick<Entry<Mold>, 'id' | 'name'>;
  readonly faces: readonly RevisionFace[];
  /** Every pair, newest first. */
  readonly comparisons: readonly Comparison[];
  readonly trials: TrialStudy;
  readonly variants: Variants;
}

/** A revision with the sheet that the reference mold would have if it carried it. */
export interface WorkedRevision extends MeasuredRevision {
  readonly sheet: Sheet;
}

/** Outlines nearer than this are taken for the same [m]. */
const UNMOVED = 0.00004;

function overlay(from: Outline, to: Outline): Overlay {
  return { from, to, moved: movedRuns(to, from, UNMOVED) };
}

/** Figures that a change of shape is judged by. */
const JUDGED = [
  'bait.length',
  'bait.volume',
  'bait.mass',
  'bait.thinnestFeature',
  'bait.thickestSection',
  'shot.total',
  'fill.reserve.cold',
  'fill.reserve.warm',
  'heat.demoldTime',
];

/** Clearance of the later one's hook in both. */
function hookClearances(from: Sheet, to: Sheet): [Figure | undefined, Figure | undefined] {
  const best = to.bestHook;
  const same = from.hooks.find(
    ({ hook, size, rig }) => hook.id === best?.hook.id && size === best.size && rig === best.rig,
  );
  return [same?.clearance, best?.clearance];
}

function figureChanges(from: Sheet, to: Sheet): FigureChange[] {
  const onsets = Object.keys(to.figures).filter((key) => /^action\.[^.]+\.onset$/u.test(key));
  const pairs = [...JUDGED, ...onsets].map((key) => [from.figures[key], to.figures[key]]);
  return [...pairs, hookClearances(from, to)].flatMap(([before, after]): FigureChange[] =>
    before && after ? [{ from: before, to: after, moved: hasMoved(before, after) }] : [],
  );
}

const hookOf = ({ bestHook }: Sheet) =>
  bestHook ? `${sizeWords(bestHook.size)} ${bestHook.hook.name.toLowerCase()}, ${bestHook.rig}` : 'none fits';

const testOf = (passed: boolean | null) => (passed === null ? 'none yet' : passed ? 'passed' : 'failed');

function compared(
  before: WorkedRevision & Pick<RevisionFace, 'passed'>,
  after: WorkedRevision & Pick<RevisionFace, 'passed'>,
): Comparison {
  const { sheet } = after;
  const parts = partChanges([before, after], sheet.plastisol);
  const figures = figureChanges(before.sheet, sheet);
  const units = sheet.shop.units;
  const facts = [
    { label: 'Fill verdict', from: before.sheet.verdicts.cold.code, to: sheet.verdicts.cold.code },
    { label: 'Float or sink', from: before.sheet.verdicts.float.code, to: sheet.verdicts.float.code },
    { label: 'Hook', from: hookOf(before.sheet), to: hookOf(sheet) },
    { label: 'Last water test', from: testOf(before.passed), to: testOf(after.passed) },
  ];
  const said = changeSentences(parts, units);
  return {
    from: before.revision.id,
    to: after.revision.id,
    parts,
    figures,
    facts,
    sentences: said.length > 0 ? said : ['No thin part has changed.'],
    plan: overlay(before.geometry.plan, after.geometry.plan),
    across: overlay(before.geometry.across, after.geometry.across),
  };
}

/** The page of a bait: its revisions worked out in one mold, and every two of them side by side. */
export function baitSheet(worked: readonly WorkedRevision[], own: readonly Sheet[]): BaitSheet {
  const [first] = own;
  const reference = worked.at(-1)?.sheet;
  if (!first || !reference)
    throw new RangeError('baitSheet: wants a published mold and a revision, got none');
  const { bait, shop, trials } = reference;
  const faces = worked.map(({ revision, readings }): RevisionFace => ({
    revision,
    readings,
    passed:
      lastTrial(
        trials.trials.map(({ trial }) => trial),
        revision.id,
      )?.passed ?? null,
    molds: own
      .filter(({ mold }) => mold.cavities.some((cavity) => cavity.revision === revision.id))
      .map(({ mold: { id, name, status } }) => ({ id, name, status })),
  }));
  const known = worked.map((one, i) => ({ ...one, passed: faces[i]?.passed ?? null }));
  const comparisons = known.flatMap((after, j) => known.slice(0, j).map((before) => compared(before, after)));
  return {
    id: bait.id,
    shop,
    bait,
    mold: { id: reference.mold.id, name: reference.mold.name },
    faces,
    comparisons: comparisons.reverse(),
    trials,
    variants: variantsOf(own),
  };
}
