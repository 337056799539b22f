import { printed } from '../core/quantity/print.ts';
import { figure } from '../core/quantity/figure.ts';
import { band } from '../core/quantity/band.ts';
import { baitMass } from '../core/shot/shot-volume.ts';
import type { Case } from './case.ts';
import type { FillModel, FillStudy } from './fill-study.ts';
import { fillWarnings } from './fill-warnings.ts';

function mixedRevisions({ mold, revision }: Case): string[] {
  const others = mold.cavities.flatMap((cavity, i) =>
    cavity.revision === revision.id ? [] : [`cavity ${i + 1} carries ${cavity.revision}`],
  );
  return others.length > 0
    ? [`the sheet is worked out for revision ${revision.id}, but ${others.join(', ')}`]
    : [];
}

function weighed({ mold, geometry, density, topOffShare }: Case): string[] {
  const scale = mold.measured?.mass;
  if (scale === undefined) return [];
  const computed = baitMass(geometry.volume, density, topOffShare);
  if (scale >= computed.low && scale <= computed.high) return [];
  const words = { key: 'bait.mass', label: '', unit: 'g', basis: '', sources: [] } as const;
  const [weighedText, computedText] = [band(scale), computed].map(
    (b) => printed(figure(words, b), 'metric').text,
  );
  return [
    `one bait weighs ${weighedText}, outside the computed ${computedText}: check scale, compound and revision`,
  ];
}

function leakingVents({ mold }: Case): string[] {
  return mold.vents.length === 0 ? ['no vents are listed: air left in thin parts is not counted'] : [];
}

/** A stated runner length that the layout contradicts. */
const RUNNER_GAP = 0.25;

function runnerOff({ runner, layout }: Case): string[] {
  if (!runner || Math.abs(runner.length / layout.runnerLength - 1) <= RUNNER_GAP) return [];
  const [stated, laid] = [runner.length, layout.runnerLength].map(
    (metres) => `${Math.round(metres * 1e3)} mm`,
  );
  return [
    `its runners are stated as ${stated}, the layout has ${laid}: leave \`length\` out or place the cavities`,
  ];
}

/** What the maker should know before publishing; customers never see it. */
export function makerWarnings(given: Case, model: FillModel, studies: readonly FillStudy[]): string[] {
  return [
    ...mixedRevisions(given),
    ...weighed(given),
    ...fillWarnings(given, model, studies),
    ...leakingVents(given),
    ...given.layout.notes,
    ...runnerOff(given),
    ...given.geometry.repairs.map((repair) => `${given.bait.id}: ${repair}`),
  ];
}
