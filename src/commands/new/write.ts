import { constants } from 'node:fs';
import { copyFile, mkdir, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { readCatalogue, type SourceName } from '../../io/catalogue.ts';
import { frameLines } from '../../io/code-frame.ts';
import { problemLine } from '../../io/problem-text.ts';
import { shownPath } from '../../io/settings.ts';
import { idFault } from '../../io/walk.ts';
import type { Catalogue } from '../../schema/collections.ts';
import { inspected } from '../inspect.ts';
import { baitDraft } from './bait.ts';
import { Refusal, type Draft, type Wish } from './draft.ts';
import { moldDraft } from './mold.ts';
import { compoundDraft, hookDraft, injectorDraft, shopDraft } from './plain.ts';
import { trialDraft } from './trial.ts';
import { complain, say } from '../progress.ts';

type DraftOf = (wish: Wish, catalogue: Catalogue) => Draft | Promise<Draft>;

/** What can be written, and where it goes. A kind that builds on others needs a catalogue without mistakes. */
const KINDS: Readonly<Record<string, { collection: SourceName; draft: DraftOf; builds?: true }>> = {
  bait: { collection: 'baits', draft: baitDraft, builds: true },
  mold: { collection: 'molds', draft: moldDraft, builds: true },
  trial: { collection: 'trials', draft: trialDraft, builds: true },
  compound: { collection: 'plastisols', draft: compoundDraft },
  hook: { collection: 'hooks', draft: hookDraft },
  injector: { collection: 'injectors', draft: injectorDraft },
  shop: { collection: 'shop', draft: shopDraft },
};

/** How the command is written. */
export const USAGE = `npm run new -- ${Object.keys(KINDS).join('|')} ID`;

/**
 * Writes a new entry that passes the check, and says what to put in.
 *
 * @returns true unless the check finds a mistake in the new file
 * @throws {Refusal} when it cannot be written; then nothing is
 */
export async function writeNew(kindName: string, wish: Wish): Promise<boolean> {
  const kind = KINDS[kindName];
  if (!kind) throw new Refusal(`"${kindName}" cannot be made — write ${USAGE}`);
  const fault = idFault(wish.id);
  if (fault) throw new Refusal(`"${wish.id}" cannot be an id — ${fault}`);
  const draft = await kind.draft(wish, kind.builds ? await soundCatalogue(wish.folder) : EMPTY);
  const below = kind.collection === 'shop' ? ['shop.yaml'] : [kind.collection, `${wish.id}.yaml`];
  const path = join(wish.folder, ...below);
  await put(path, draft);
  say(`wrote ${shownPath(path)}`);
  for (const note of draft.notes) say(`  ${note}`);
  return lookOver(wish.folder, shownPath(path));
}

const EMPTY = {
  baits: [],
  molds: [],
  plastisols: [],
  hooks: [],
  injectors: [],
  trials: [],
} as unknown as Catalogue;

async function soundCatalogue(folder: string): Promise<Catalogue> {
  const reading = await readCatalogue(folder);
  if (!('problems' in reading)) return reading.catalogue;
  const [first] = reading.problems;
  throw new Refusal(`the catalogue has mistakes — mend them first: ${first ? problemLine(first) : ''}`);
}

/** Writes the file and copies its mesh; nothing that is there is overwritten, and both come or none. */
async function put(path: string, { text, copy }: Draft): Promise<void> {
  await mkdir(dirname(path), { recursive: true });
  await unlessThere(path, () => writeFile(path, text, { flag: 'wx' }));
  if (!copy) return;
  try {
    await mkdir(dirname(copy.to), { recursive: true });
    await unlessThere(copy.to, () => copyFile(copy.from, copy.to, constants.COPYFILE_EXCL));
  } catch (error) {
    await rm(path);
    throw error;
  }
}

async function unlessThere(path: string, work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    throw new Refusal(`${shownPath(path)} is there already — choose another id, or change that file`);
  }
}

/** Tells what the check says of the new file. */
async function lookOver(folder: string, file: string): Promise<boolean> {
  const { problems, warnings } = await inspected(folder);
  const own = problems.filter((problem) => problem.file === file);
  for (const problem of own) {
    for (const line of [problemLine(problem), ...frameLines(problem)]) complain(line);
  }
  for (const warning of warnings.filter((text) => file.endsWith(`/${text.split(':', 1)[0] ?? ''}.yaml`)))
    say(`  warning: ${warning}`);
  return own.length === 0;
}
