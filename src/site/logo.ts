import { logoPicture } from '../io/photo.ts';
import { contentFolder } from '../io/settings.ts';

/** A shop's logo as it is published. */
export async function publishedLogo(file: string): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await logoPicture(contentFolder(), file));
}
