import { join, relative, sep } from 'node:path';
import type { SourceName } from '../../io/catalogue.ts';
import { PROJECT_ROOT } from '../../io/settings.ts';
import type { Catalogue } from '../../schema/collections.ts';

/** What an author asked for. */
export interface Wish {
  /** Id of the new entry. */
  readonly id: string;
  /** Folder of the catalogue. */
  readonly folder: string;
  readonly options: Readonly<Partial<Record<OptionName, string>>>;
  /** The day it is written, like 2026-03-14. */
  readonly today: string;
}

/** Options of `new`, each with what it is. */
export const OPTIONS = {
  from: 'mesh file of a bait',
  unit: 'unit of the mesh file: mm, in, cm or m',
  nose: 'axis of the mesh file to the nose, for example -x',
  out: 'axis of the mesh file out of the parting plane, for example +z',
  family: 'family of a bait',
  plastisol: 'compound of a bait',
  bait: 'bait of a mold or a trial',
  revision: 'revision of a mold or a trial',
  cavities: 'how many cavities a mold has',
} as const;

/** Name of an option of `new`. */
export type OptionName = keyof typeof OPTIONS;

/** What stops an entry from being written, in one line with its remedy. */
export class Refusal extends Error {}

/** A file as it will be written, and what to tell its author. */
export interface Draft {
  readonly text: string;
  /** Mesh to copy into the catalogue, from and to. */
  readonly copy?: { readonly from: string; readonly to: string };
  readonly notes: readonly string[];
}

/** The text of an entry below the line by which editors find its schema. */
export function headed(collection: SourceName, folder: string, body: string): string {
  const below = collection === 'shop' ? folder : join(folder, collection);
  const schema = relative(below, join(PROJECT_ROOT, 'public', 'schema', `${collection}.json`));
  return `# yaml-language-server: $schema=${schema.split(sep).join('/')}\n${body}`;
}

/** "my-grub-2" as a name: "My grub 2". */
export function named(id: string): string {
  const words = id.replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A length as an author writes it [m → mm], to a hundredth. */
export const mm = (metres: number): string => `${Number((metres * 1000).toFixed(2))} mm`;

/** The entry that an option names; else the one whose id begins the new id; else the only one. */
export function chosen<Kind extends 'baits' | 'plastisols'>(
  catalogue: Catalogue,
  kind: Kind,
  asked: string | undefined,
  id: string,
): Catalogue[Kind][number] {
  const all: readonly Catalogue[Kind][number][] = catalogue[kind];
  const option = kind === 'baits' ? '--bait' : '--plastisol';
  const ids = all.map((entry) => entry.id).join(', ');
  const near = all
    .filter((entry) => id === entry.id || id.startsWith(`${entry.id}-`))
    .sort((a, b) => b.id.length - a.id.length);
  const found =
    asked === undefined
      ? (near[0] ?? (all.length === 1 || kind === 'plastisols' ? all[0] : undefined))
      : all.find((entry) => entry.id === asked);
  if (found) return found;
  if (all.length === 0) {
    const kindWord = kind === 'baits' ? 'bait' : 'compound';
    throw new Refusal(`there are no ${kind} yet — write one first: npm run new -- ${kindWord} ID`);
  }
  throw new Refusal(
    asked === undefined
      ? `${id}: which of the ${kind}? — add ${option} with one of: ${ids}`
      : `${option}: there is no "${asked}" in ${kind} — choose from: ${ids}`,
  );
}
