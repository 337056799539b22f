import { basename } from 'node:path';
import { problemLine } from '../../io/problem-text.ts';
import { writeLedger } from '../../io/ledger.ts';
import { ledgerEntrySchema } from '../../schema/published.ts';
import { PUBLISHED } from '../../sheet/analyse.ts';
import { accepted, moveOf } from '../../sheet/ledger.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import { inspected } from '../inspect.ts';
import { changeLine } from '../moves.ts';

/** What is to be accepted as published. */
export interface PublishOrder {
  /** Ids of molds; none together with `all`. */
  readonly molds: readonly string[];
  readonly all: boolean;
  readonly note: string;
  readonly date: string;
  /** Puts the step in place of the last one; an empty note or date keeps that one's. */
  readonly amend: boolean;
}

/** How it went, in lines. */
export interface PublishOutcome {
  readonly accepted: boolean;
  readonly lines: readonly string[];
}

const refused = (...lines: string[]): PublishOutcome => ({ accepted: false, lines });

/** What is wrong with the order itself, or nothing. */
function orderFault({ molds, all, note, date, amend }: PublishOrder): string | undefined {
  if (all === molds.length > 0) return 'name the molds, or --all';
  const asked = ledgerEntrySchema.pick({ note: true, date: true });
  const { error } = (amend ? asked.partial() : asked).safeParse({
    ...((!amend || note !== '') && { note }),
    ...((!amend || date !== '') && { date }),
  });
  const [issue] = error?.issues ?? [];
  if (!issue) return undefined;
  return `--${String(issue.path[0])}: ${issue.path[0] === 'note' ? 'say in a sentence what changed and why' : issue.message}`;
}

function acceptedLines(sheet: Sheet): string[] {
  if (!sheet.ledger) return [`${sheet.id}: published for the first time`];
  const changes = moveOf(sheet)?.changes ?? [];
  return [`${sheet.id}: ${changes.length} accepted`, ...changes.map((change) => `  ${changeLine(change)}`)];
}

/** The mold that a file of the catalogue describes. */
const moldOf = (file: string): string => basename(file).replace(/\.ya?ml$/u, '');

/** Accepts the sheets of a sound catalogue as published and writes their ledgers; all of them or none. */
export async function publish(folder: string, order: PublishOrder): Promise<PublishOutcome> {
  const fault = orderFault(order);
  if (fault) return refused(fault);
  const { reading, problems, refusals, sheets } = await inspected(folder);
  if (!reading) return refused(...problems.map(problemLine), 'a catalogue with mistakes is not published');
  const open = sheets.filter(({ mold }) => PUBLISHED.has(mold.status));
  const lost = order.molds.filter((id) => !open.some((sheet) => sheet.id === id));
  if (lost.length > 0) {
    return refused(...lost.map((id) => `${id} is not a final or retired mold of this catalogue`));
  }
  const chosen = open.filter(({ id }) => order.all || order.molds.includes(id));
  const names = new Set(chosen.map(({ id }) => id));
  const unfit = refusals.filter(({ file }) => names.has(moldOf(file)));
  if (unfit.length > 0)
    return refused(...unfit.map(problemLine), 'what the bench does not back is not published');
  const unpublished = order.amend ? chosen.filter(({ ledger }) => !ledger) : [];
  if (unpublished.length > 0) {
    return refused(...unpublished.map(({ id }) => `${id} has no step to amend: publish it first`));
  }
  const moving = chosen.filter((sheet) => order.amend || moveOf(sheet));
  for (const sheet of moving) await writeLedger(folder, accepted(sheet.ledger, sheet, order));
  const still = chosen.length - moving.length;
  return {
    accepted: true,
    lines: [
      ...moving.flatMap(acceptedLines),
      ...(still > 0 ? [`${still === 1 ? '1 sheet has' : `${still} sheets have`} not moved`] : []),
    ],
  };
}
