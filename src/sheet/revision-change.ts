import { onsetOf } from '../core/action/onset.ts';
import { meanStiffness } from '../core/action/strip.ts';
import { band, quadrature, type Band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure, type FigureInput } from '../core/quantity/figure.ts';
import { printed, printedBoth, type UnitSystem } from '../core/quantity/print.ts';
import { featureDifferences, type FeatureDifference, type FeatureSize } from '../core/revision/difference.ts';
import type { FeatureMeasure } from '../core/section/geometry.ts';
import { actionStudy, type ActionStudy } from './action-study.ts';
import type { Entry, Plastisol } from '../schema/collections.ts';
import { GAP_TOLERANCE } from './practice.ts';
import { ONSET_SOURCES } from '../core/action/onset.ts';
import { SOURCES } from './sources.ts';
import type { MeasuredRevision } from './trial-study.ts';
import { featureLabel } from './words.ts';

/** One size of a thin part in two revisions, in thousandths of an inch and in millimetres. */
export interface SizeChange {
  readonly label: string;
  readonly from: FigureInput;
  readonly to: FigureInput;
  /** Later less earlier. */
  readonly change: FigureInput;
}

/** What one thin part has become, and what that does. */
export interface FeatureChange {
  readonly label: string;
  /** Only those that differ. */
  readonly sizes: readonly SizeChange[];
  /** Stiffness of the later over that of the earlier one, in one compound. */
  readonly stiffness: Figure;
  /** Onset speed of the later over that of the earlier one, in one compound. */
  readonly onset: Figure;
}

/** What the thin parts of two revisions have become. */
export interface PartChanges {
  readonly changed: readonly FeatureChange[];
  /** Parts that are the same in both. */
  readonly same: readonly string[];
  readonly added: readonly string[];
  readonly removed: readonly string[];
}

const SIZE_WORDS: Readonly<Record<FeatureSize, string>> = {
  root: 'thickness at the root',
  tip: 'thickness at the tip',
  thinnest: 'thinnest place',
  length: 'length',
  width: 'widest width',
};

/** Sizes nearer than this are the same [m]: a tenth of a thousandth of an inch. */
const SAME = 2.54e-6;

function sizeChanges({ sizes, moved }: FeatureDifference): SizeChange[] {
  const rows = (Object.keys(SIZE_WORDS) as FeatureSize[]).map((size) => ({
    label: SIZE_WORDS[size],
    ...sizes[size],
  }));
  const shifts = ['root, along the bait', 'root, across', 'root, out of the parting plane'].map(
    (label, i) => ({
      label,
      from: 0,
      to: moved[i] ?? 0,
    }),
  );
  return [...rows, ...shifts]
    .filter(({ from, to }) => Math.abs(to - from) > SAME)
    .map(({ label, from, to }) => ({
      label,
      from: figureInput(label, band(from), '[mil_i]'),
      to: figureInput(label, band(to), '[mil_i]'),
      change: figureInput(label, band(to - from), '[mil_i]'),
    }));
}

/** A ratio of two shapes, each with its own cutting tolerance, that goes with a power of thickness. */
function ratioBand(nominal: number, before: FeatureMeasure, after: FeatureMeasure, power: number): Band {
  const tolerance = ({ rootThickness, tipThickness }: FeatureMeasure) => {
    const mean = (rootThickness + tipThickness) / 2;
    return band(1, 1 + GAP_TOLERANCE.low / mean, 1 + GAP_TOLERANCE.high / mean);
  };
  const { value, low, high } = quadrature(({ a, b }) => nominal * (b / a) ** power, {
    a: tolerance(before),
    b: tolerance(after),
  });
  return band(value, low, high);
}

interface Pair {
  readonly key: string;
  readonly before: ActionStudy;
  readonly after: ActionStudy;
}

function stiffnessRatio({ key, before, after }: Pair): Figure {
  const nominal =
    meanStiffness(after.feature, after.modulus.value) / meanStiffness(before.feature, before.modulus.value);
  return figure(
    {
      key: `${key}.stiffness`,
      label: 'Stiffness, later over earlier',
      unit: '1',
      basis:
        'E·t³ averaged along the part, in one compound: the compound drops out, so the ratio holds far better than either stiffness. Band: cutting tolerance of both.',
      formula: '∫E·t³ds/L of the later over that of the earlier',
      inputs: [figureInput('cutting tolerance on the gap', GAP_TOLERANCE, 'mm')],
      sources: [SOURCES.stiffness, GAP_TOLERANCE.source],
    },
    ratioBand(nominal, before.feature, after.feature, 3),
  );
}

function onsetRatio({ key, before, after }: Pair): Figure {
  const steady = { modulus: before.modulus, thickness: band(1) };
  const speed = ({ mover }: ActionStudy) => onsetOf(mover, steady, 0).from.value;
  return figure(
    {
      key: `${key}.onset`,
      label: 'Speed to start moving, later over earlier',
      unit: '1',
      basis:
        'Onset speeds of both shapes in one compound by one rule: the compound and most of the rule drop out. Band: cutting tolerance of both.',
      formula: 'onset of the later over onset of the earlier, each ∝ √(E·t³)',
      inputs: [figureInput('cutting tolerance on the gap', GAP_TOLERANCE, 'mm')],
      sources: [...ONSET_SOURCES, GAP_TOLERANCE.source],
    },
    ratioBand(speed(after) / speed(before), before.feature, after.feature, 1.5),
  );
}

/** What the thin parts have become from one revision to another, shot in one compound. */
export function partChanges(
  [before, after]: readonly [MeasuredRevision, MeasuredRevision],
  plastisol: Entry<Plastisol>,
): PartChanges {
  const notRibs = ({ kind }: FeatureMeasure) => kind !== 'rib';
  const [old, now] = [before, after].map(({ geometry }) => geometry.features.filter(notRibs));
  const { both, added, removed } = featureDifferences(old ?? [], now ?? []);
  const rows = both.map((difference) => ({ difference, sizes: sizeChanges(difference) }));
  const studyOf = ({ geometry }: MeasuredRevision, name: string) =>
    geometry.features.filter((one) => one.name === name).map((one) => actionStudy(geometry, one, plastisol));
  return {
    changed: rows
      .filter(({ sizes }) => sizes.length > 0)
      .flatMap(({ difference: { name, kind }, sizes }): FeatureChange[] => {
        const [[one], [other]] = [studyOf(before, name), studyOf(after, name)];
        if (!one || !other) return [];
        const pair = {
          key: `change.${before.revision.id}-${after.revision.id}.${name}`,
          before: one,
          after: other,
        };
        return [
          {
            label: featureLabel({ name, kind }),
            sizes,
            stiffness: stiffnessRatio(pair),
            onset: onsetRatio(pair),
          },
        ];
      }),
    same: rows.filter(({ sizes }) => sizes.length === 0).map(({ difference }) => featureLabel(difference)),
    added: added.map(featureLabel),
    removed: removed.map(featureLabel),
  };
}

const MORE: Readonly<Record<string, readonly [more: string, less: string]>> = {
  'thickness at the root': ['thicker at the root', 'thinner at the root'],
  'thickness at the tip': ['thicker at the tip', 'thinner at the tip'],
  'thinnest place': ['thicker at its thinnest place', 'thinner at its thinnest place'],
  length: ['longer', 'shorter'],
  'widest width': ['wider', 'narrower'],
  'root, along the bait': ['further back at its root', 'further forward at its root'],
  'root, across': ['moved across at its root', 'moved across at its root'],
  'root, out of the parting plane': [
    'moved out of the parting plane at its root',
    'moved out of the parting plane at its root',
  ],
};

/** "0.72 (0.66 to 0.79) times". */
const times = (ratio: Figure, units: UnitSystem) => `${printed(ratio, units).text} times`;

/** "The tail is 10 thou / 0.25 mm thinner at the tip. It is 0.6 (0.5 to 0.7) times as stiff …" */
export function changeSentences({ changed, added, removed }: PartChanges, units: UnitSystem): string[] {
  const sentences = changed.map(({ label, sizes, stiffness, onset }) => {
    // The thinnest place is mostly the tip: it is in the table, and is told only where the tip has not changed.
    const tip = sizes.some(({ label: what }) => what === SIZE_WORDS.tip);
    const told = sizes.filter(({ label: what }) => !(tip && what === SIZE_WORDS.thinnest));
    const parts = told.map(({ label: what, change }) => {
      const size = {
        ...change,
        value: Math.abs(change.value),
        low: Math.abs(change.low),
        high: Math.abs(change.high),
      };
      const text = printedBoth(size, units);
      const words = MORE[what] ?? [what, what];
      return `${text} ${words[change.value > 0 ? 0 : 1]}`;
    });
    return `The ${label} is ${parts.join(', ')}. It is ${times(stiffness, units)} as stiff and starts to move at ${times(onset, units)} the speed.`;
  });
  const lists = [
    added.length > 0 && `New: ${added.join(', ')}.`,
    removed.length > 0 && `Gone: ${removed.join(', ')}.`,
  ];
  return [...sentences, ...lists.filter((line) => line !== false)];
}
