import { readFile } from 'node:fs/promises';
import { z } from 'zod';

/** Names the file in which a build lists whose pages it needs; a preview has none and renders what is asked for. */
export const TO_RENDER = 'PARTLINE_TO_RENDER';

const listSchema = z.object({ molds: z.array(z.string()), baits: z.array(z.string()) });

/** Molds and baits whose pages a build needs. */
export type ToRender = z.output<typeof listSchema>;

/** The list of the build that this process belongs to, or nothing in a preview. */
export async function renderList(): Promise<ToRender | undefined> {
  const path = process.env[TO_RENDER];
  return path ? listSchema.parse(JSON.parse(await readFile(path, 'utf8')) as unknown) : undefined;
}
