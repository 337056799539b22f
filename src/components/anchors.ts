import type { Sheet } from '../sheet/sheet.ts';

/** Parts of a spec sheet in reading order: anchor and heading. Anchors are permanent. */
export const PARTS = {
  safety: 'Before you start',
  shooting: 'Shooting it',
  plastic: 'How much plastic',
  filling: 'Thin parts: will they fill?',
  vents: 'Vents, and why to leave them alone',
  compound: 'Compound and hardness',
  action: 'In the water: what moves',
  rigging: 'Hooks and rigs',
  floating: 'Float or sink',
  drawings: 'Drawings and measures',
  faults: 'Compare what you see',
  questions: 'Questions',
  revision: 'Revision and water tests',
  sources: 'Sources',
  downloads: 'Files',
} as const;

/** Parts of a spec sheet in one or two words, for the list of contents. */
export const SHORT_NAMES: Readonly<Record<keyof typeof PARTS, string>> = {
  safety: 'Safety',
  shooting: 'Shooting it',
  plastic: 'How much',
  filling: 'Thin parts',
  vents: 'Vents',
  compound: 'Compound',
  action: 'Action',
  rigging: 'Hooks',
  floating: 'Float or sink',
  drawings: 'Measures',
  faults: 'Faults',
  questions: 'Questions',
  revision: 'Revision',
  sources: 'Sources',
  downloads: 'Files',
};

/** Key of a part of a spec sheet. */
export type PartName = keyof typeof PARTS;

/** Anchor of a part; the prefix keeps it apart from cautions and answers, which own the bare words. */
export const partAnchor = (part: PartName) => `part-${part}`;

/**
 * Every stored anchor of a sheet: figures, cautions, answers, faults.
 *
 * @throws {RangeError} when one key stands for two things, since a link to it would lead to the wrong one
 */
export function sheetAnchors(sheet: Sheet): string[] {
  const keys = [
    ...Object.keys(sheet.figures),
    ...sheet.cautions.map((caution) => caution.key),
    ...sheet.answers.map((answer) => answer.key),
    ...sheet.faults.map((fault) => fault.key),
  ];
  const twice = keys.filter((key, index) => keys.indexOf(key) !== index);
  if (twice.length > 0)
    throw new RangeError(`${sheet.id}: wants unique anchors, got twice: ${twice.join(', ')}`);
  return keys;
}
