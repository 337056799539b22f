import { lstat, realpath } from 'node:fs/promises';
import { join } from 'node:path';
import type { z } from 'zod';
import { dotted, fieldsOf, valuesAt, type Placed } from '../schema/outline.ts';
import type { EntryProblem } from '../schema/problem.ts';
import { quoted } from './problem-text.ts';
import { isInside } from './settings.ts';

/** Written data of an entry with the schema that says which of its fields name files. */
export interface Naming {
  readonly collection: string;
  readonly id: string;
  readonly data: unknown;
  readonly schema: z.ZodType;
}

/** Meshes and pictures that an entry names but that are not there, or not inside the catalogue. */
export async function fileProblems(root: string, entries: readonly Naming[]): Promise<EntryProblem[]> {
  const real = await realpath(root);
  const named = entries.flatMap((entry) =>
    fieldsOf(entry.schema)
      .filter(({ file }) => file)
      .flatMap(({ path }) => valuesAt(entry.data, path).map((place) => ({ entry, place }))),
  );
  const found = await Promise.all(
    named.map(async ({ entry, place }) => {
      const fault = await faultOf(root, real, place);
      return fault ? [{ collection: entry.collection, id: entry.id, path: place.path, ...fault }] : [];
    }),
  );
  return found.flat();
}

async function faultOf(
  root: string,
  real: string,
  { path, value }: Placed,
): Promise<{ message: string; remedy: string } | undefined> {
  if (typeof value !== 'string' || value.includes('\0') || !isInside(root, join(root, value)))
    return undefined;
  const name = `"${dotted(path)}": ${quoted(value)}`;
  const full = join(root, value);
  const info = await lstat(full).catch(() => undefined);
  if (!info)
    return {
      message: `${name} is not there`,
      remedy: 'put the file below the catalogue folder, or correct the path',
    };
  if (!info.isFile())
    return { message: `${name} is not a regular file`, remedy: 'put the file itself there' };
  if (info.size === 0) return { message: `${name} is an empty file`, remedy: 'export it again' };
  if (!isInside(real, await realpath(full))) {
    return {
      message: `${name} leads out of the catalogue`,
      remedy: 'put the file itself below the catalogue folder',
    };
  }
  return undefined;
}
