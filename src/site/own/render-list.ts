import { readFile } from 'node:fs/promises';
import { z } from 'zod';

/** Names the file in which a build lists whose pages it needs; a preview has none and renders what is asked for. */
export const TO_RENDER = 'PARTLINE_TO_RENDER';

const listSchema = z.object({ molds: z.array(z.string()), baits: z.array(z.string()) });

/** Molds and baits whose pages a build needs. */
export type ToRender = z.output<typeof listSchema>;

async function read(path: string): Promise<ToRender> {
  return listSchema.parse(JSON.parse(await readFile(path, 'utf8')) as unknown);
}

let list: Promise<ToRender> | undefined;

/** The list of the build that this process belongs to, read once, or nothing in a preview. */
export async function renderList(): Promise<ToRender | undefined> {
  const path = process.env[TO_RENDER];
  return path ? (list ??= read(path)) : undefined;
}
