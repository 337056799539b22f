import type { OwnFile } from '../site/own/own-file.ts';

/** A file of a mold or a bait as an answer. */
export async function answered({ make, type }: OwnFile): Promise<Response> {
  const content = await make();
  const body = typeof content === 'string' ? content : new Uint8Array(content);
  return new Response(body, { headers: { 'Content-Type': type } });
}
