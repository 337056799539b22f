import type { BaitGeometry } from '../core/section/geometry.ts';
import { rearPart } from '../core/section/rear-part.ts';
import type { EntryProblem } from '../schema/problem.ts';
import type { Bait, Catalogue, Entry, Mold } from '../schema/collections.ts';
import type { Revision } from '../schema/bait.ts';
import { caseOf, type CaseParts } from './case.ts';
import { geometryOf, type GeometryResult } from './geometry.ts';
import { caliperWarnings } from './calipers.ts';
import { gateProblems } from './gate.ts';
import { moveOf, type Move } from './ledger.ts';
import { moldStudy } from './mold-study.ts';
import type { Tools } from './tools.ts';
import type { MeasuredRevision } from './trial-study.ts';
import { sheetOf } from './assemble.ts';
import type { Sheet } from './sheet.ts';

/** Every sheet of a catalogue, and what came to light. */
export interface Analysed {
  readonly sheets: readonly Sheet[];
  readonly problems: readonly EntryProblem[];
  /** Molds that are called final and may not be. */
  readonly refusals: readonly EntryProblem[];
  /** What the published molds would change in public. */
  readonly moves: readonly Move[];
  /** For the maker: "osier-grub-4: …". */
  readonly warnings: readonly string[];
}

/** One step of the work, told as it begins: a revision to measure or a mold to work out. */
export interface Step {
  /** Steps behind it. */
  readonly done: number;
  readonly total: number;
  readonly name: string;
}

type OnStep = (step: Step) => void;

/** Statuses that are shown to the public. */
export const PUBLISHED: ReadonlySet<Mold['status']> = new Set(['final', 'retired']);

type Located =
  | { readonly parts: Omit<CaseParts, 'geometry' | 'family' | 'ledger' | 'halves'> }
  | { readonly problem: EntryProblem };

function problemOf(mold: Entry<Mold>, path: EntryProblem['path'], message: string, remedy: string) {
  return { problem: { collection: 'molds', id: mold.id, path, message, remedy } };
}

function locate(catalogue: Catalogue, mold: Entry<Mold>): Located {
  const bait = catalogue.baits.find(({ id }) => id === mold.bait);
  if (!bait)
    return problemOf(mold, ['bait'], `there is no bait "${mold.bait}"`, 'name a bait of the catalogue');
  const plastisol = catalogue.plastisols.find(({ id }) => id === bait.plastisol);
  if (!plastisol)
    return problemOf(mold, ['bait'], `its bait names no known compound`, 'correct `plastisol` of the bait');
  const wanted = mold.cavities[0]?.revision;
  const revision = bait.revisions.find(({ id }) => id === wanted);
  if (!revision) {
    return problemOf(
      mold,
      ['cavities', 0, 'revision'],
      `${bait.id} has no revision "${wanted}"`,
      'name one of its revisions',
    );
  }
  return { parts: { catalogue, mold, bait, revision, plastisol } };
}

/**
 * Revisions of a bait that may be shown beside a mold: up to the newest one that a published mold carries. For a bait
 * without a published mold that is all of them, since nobody sees its sheet.
 */
function shownRevisions({ molds }: Catalogue, bait: Entry<Bait>): readonly Revision[] {
  const cut = molds
    .filter((mold) => mold.bait === bait.id && PUBLISHED.has(mold.status))
    .flatMap(({ cavities }) => cavities.map(({ revision }) => revision));
  const newest = Math.max(-1, ...cut.map((id) => bait.revisions.findIndex((revision) => revision.id === id)));
  return newest < 0 ? bait.revisions : bait.revisions.slice(0, newest + 1);
}

/** The revisions of a bait that may be shown, measured, oldest first; those with mistakes are left out. */
export async function measuredFamily(
  catalogue: Catalogue,
  bait: Entry<Bait>,
  tools: Tools,
): Promise<MeasuredRevision[]> {
  const family: MeasuredRevision[] = [];
  for (const revision of shownRevisions(catalogue, bait)) {
    const result = await geometryOf(bait, revision, tools);
    if ('geometry' in result) family.push({ revision, ...result });
  }
  return family;
}

/** Geometries by bait and revision: several molds share one. */
function geometryCache(tools: Tools) {
  const kept = new Map<string, Promise<GeometryResult>>();
  return (bait: Entry<Bait>, revision: Revision): Promise<GeometryResult> => {
    const key = `${bait.id}/${revision.id}`;
    const found = kept.get(key) ?? geometryOf(bait, revision, tools);
    kept.set(key, found);
    return found;
  };
}

/** What a mold makes of a bait: all of it, or its rear part. */
export async function partOf(
  mold: Entry<Mold>,
  whole: BaitGeometry,
  { remember }: Pick<Tools, 'remember'>,
): Promise<{ readonly geometry: BaitGeometry } | { readonly problem: EntryProblem }> {
  const { from } = mold;
  if (from === undefined) return { geometry: whole };
  try {
    return { geometry: await remember('rear part', { whole, from }, () => rearPart(whole, from)) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return problemOf(mold, ['from'], error.message, 'cut the bait off between its nose and its thin parts');
  }
}

/** The sheet of a case, or the mistake that prevents it. */
export async function sheetOrProblem(
  parts: Omit<CaseParts, 'halves'>,
  tools: Tools,
): Promise<{ sheet: Sheet } | { problem: EntryProblem }> {
  try {
    const halves = await moldStudy(parts, tools.remember);
    return { sheet: await sheetOf(caseOf({ ...parts, halves }), tools) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return problemOf(
      parts.mold,
      [],
      error.message,
      'check the numbers of this mold, its bait and its compound',
    );
  }
}

/**
 * Computes the sheet of every mold of a catalogue, published or not.
 *
 * Mistakes that only the geometry shows come back as problems, one for each; a mold with a problem has no sheet.
 */
export async function sheets(
  catalogue: Catalogue,
  tools: Tools,
  onStep: OnStep = () => undefined,
): Promise<Analysed> {
  const total = catalogue.baits.reduce(
    (sum, { revisions }) => sum + revisions.length,
    catalogue.molds.length,
  );
  let done = 0;
  const geometry = geometryCache(tools);
  const ledgers = await tools.ledgers();
  const families = new Map<string, MeasuredRevision[]>();
  const gaps: string[] = [];
  const made: Sheet[] = [];
  const problems = new Map<string, EntryProblem>();
  const note = (problem: EntryProblem) => problems.set(JSON.stringify(problem), problem);
  for (const bait of catalogue.baits) {
    const shown = new Set(shownRevisions(catalogue, bait));
    const family: MeasuredRevision[] = [];
    families.set(bait.id, family);
    for (const revision of bait.revisions) {
      onStep({ done: done++, total, name: `${bait.id} ${revision.id}` });
      const result = await geometry(bait, revision);
      if ('problem' in result) {
        note(result.problem);
        continue;
      }
      gaps.push(...caliperWarnings(result.readings).map((gap) => `${bait.id} ${revision.id}: ${gap}`));
      if (shown.has(revision)) family.push({ revision, ...result });
    }
  }
  for (const mold of catalogue.molds) {
    onStep({ done: done++, total, name: mold.id });
    const located = locate(catalogue, mold);
    if ('problem' in located) {
      note(located.problem);
      continue;
    }
    const measured = await geometry(located.parts.bait, located.parts.revision);
    if ('problem' in measured) continue;
    const part = await partOf(mold, measured.geometry, tools);
    if ('problem' in part) {
      note(part.problem);
      continue;
    }
    const family = families.get(located.parts.bait.id) ?? [];
    const ledger = ledgers.find((one) => one.mold === mold.id) ?? null;
    const parts = { ...located.parts, geometry: part.geometry, family, ledger };
    const result = await sheetOrProblem(parts, tools);
    if ('sheet' in result) made.push(result.sheet);
    else note(result.problem);
  }
  return {
    sheets: made,
    problems: [...problems.values()],
    refusals: gateProblems(catalogue, made),
    moves: made.filter(({ mold }) => PUBLISHED.has(mold.status)).flatMap((sheet) => moveOf(sheet) ?? []),
    warnings: [
      ...gaps,
      ...made.flatMap((sheet) => sheet.warnings.map((warning) => `${sheet.id}: ${warning}`)),
    ],
  };
}
