import type { BaitGeometry } from '../core/section/geometry.ts';
import { rearPart } from '../core/section/rear-part.ts';
import type { EntryProblem } from '../schema/problem.ts';
import type { Bait, Catalogue, Entry, Mold } from '../schema/collections.ts';
import type { Revision } from '../schema/bait.ts';
import { calibrated } from './fill-calibration.ts';
import { measureHints } from './fill-warnings.ts';
import { caseOf, type CaseParts } from './case.ts';
import { geometryOf } from './geometry.ts';
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
  return { parts: { catalogue, mold, bait, revision, plastisol: calibrated(plastisol) } };
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

/** Sheet of one mold from the families of all baits. */
async function moldSheet(
  catalogue: Catalogue,
  mold: Entry<Mold>,
  families: ReadonlyMap<string, Family>,
  tools: Tools,
): Promise<{ sheet: Sheet } | { problem: EntryProblem } | null> {
  const located = locate(catalogue, mold);
  if ('problem' in located) return located;
  const { bait, revision } = located.parts;
  const { all = [], shown = [] } = families.get(bait.id) ?? {};
  const whole = all.find((one) => one.revision === revision);
  if (!whole) return null;
  const part = await partOf(mold, whole.geometry, tools);
  if ('problem' in part) return part;
  const ledger = (await tools.ledgers()).find((one) => one.mold === mold.id) ?? null;
  return sheetOrProblem({ ...located.parts, geometry: part.geometry, family: shown, ledger }, tools);
}

/** The revisions of a bait that could be measured, and those of them that may be shown. */
interface Family {
  readonly all: readonly MeasuredRevision[];
  readonly shown: readonly MeasuredRevision[];
}

/** For the maker, of the sheets and of the calipers. */
function warningsOf(made: readonly Sheet[], families: ReadonlyMap<string, Family>): string[] {
  const gaps = [...families].flatMap(([id, { all }]) =>
    all.flatMap(({ revision, readings }) =>
      caliperWarnings(readings).map((gap) => `${id} ${revision.id}: ${gap}`),
    ),
  );
  return [
    ...gaps,
    ...new Set(measureHints(made)),
    ...made.flatMap(({ id, warnings }) => warnings.map((warning) => `${id}: ${warning}`)),
  ];
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
  const { baits, molds } = catalogue;
  const total = baits.reduce((sum, { revisions }) => sum + revisions.length, molds.length);
  let done = 0;
  const families = new Map<string, Family>();
  const made: Sheet[] = [];
  const problems = new Map<string, EntryProblem>();
  const note = (problem: EntryProblem) => problems.set(JSON.stringify(problem), problem);
  for (const bait of baits) {
    const all: MeasuredRevision[] = [];
    for (const revision of bait.revisions) {
      onStep({ done: done++, total, name: `${bait.id} ${revision.id}` });
      const result = await geometryOf(bait, revision, tools);
      if ('problem' in result) note(result.problem);
      else all.push({ revision, ...result });
    }
    const open = new Set(shownRevisions(catalogue, bait));
    families.set(bait.id, { all, shown: all.filter(({ revision }) => open.has(revision)) });
  }
  for (const mold of molds) {
    onStep({ done: done++, total, name: mold.id });
    const result = await moldSheet(catalogue, mold, families, tools);
    if (result && 'sheet' in result) made.push(result.sheet);
    else if (result) note(result.problem);
  }
  return {
    sheets: made,
    problems: [...problems.values()],
    refusals: gateProblems(catalogue, made),
    moves: made.filter(({ mold }) => PUBLISHED.has(mold.status)).flatMap((sheet) => moveOf(sheet) ?? []),
    warnings: warningsOf(made, families),
  };
}
