import { cp, mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import sharp from 'sharp';
import { stringify } from 'yaml';
import { CHAPTERS } from '../../src/commands/field-reference.ts';
import { readCatalogue } from '../../src/io/catalogue.ts';
import { fieldsOf, valuesAt, type Field } from '../../src/schema/outline.ts';
import { TINY } from './temporary.ts';

/** What every payload holds: markup that runs, ends of the elements and strings it may land in, a formula's sign. */
const PAYLOAD = `<img src=x onerror=pwn()>"'</script>`;

/** A payload with a mark of its own, at most as long as the field takes. */
export interface Dose {
  readonly collection: string;
  readonly id: string;
  readonly field: string;
  readonly text: string;
}

/** Parts of an entry that the tiny catalogue leaves out, so that every text field is there to be poisoned. */
const ADDED: Readonly<Record<string, object>> = {
  shop: {
    tagline: 'x',
    contact: { page: 'x', email: 'hello@example.com', post: 'x' },
    look: { accent: '#8a3b12', type: 'system', logo: 'photo.png' },
  },
  molds: {
    clamping: 'x',
    prose: 'x',
    listing: {
      price: { amount: 100, currency: 'USD' },
      buy: 'x',
      inTheBox: ['x'],
      photos: [{ file: 'photo.png', alt: 'x' }],
    },
  },
  plastisols: { safetyDataSheet: 'x' },
  trials: { note: 'x' },
};

/** Free text, told by its limits; keys, ids, choices and dates have forms that hold no markup. */
const isText = ({ kind, limits }: Field): boolean => kind === 'text' && /characters$/u.test(limits ?? '');
const isAddress = ({ limits, path }: Field): boolean => limits === 'https only' && path !== 'site';

/** Every field of a collection that takes free text or an address, those of sources included. */
export function openFields(collection: string): string[] {
  const schema = CHAPTERS.find(({ name }) => name === collection)?.schema;
  if (!schema) return [];
  const fields = fieldsOf(schema);
  const banded = fields.filter(({ kind }) => kind === 'banded quantity').map(({ path }) => path);
  return [
    ...fields.filter((field) => isText(field) || isAddress(field)).map(({ path }) => path),
    ...banded.flatMap((path) => [`${path}.source.title`, `${path}.source.note`]),
  ];
}

function put(data: unknown, path: readonly (string | number)[], value: string): void {
  const last = path.at(-1);
  const holder = path
    .slice(0, -1)
    .reduce<unknown>((here, step) => (here as Record<string, unknown>)[step], data);
  if (last !== undefined) (holder as Record<string | number, unknown>)[last] = value;
}

function withNotes(data: unknown): unknown {
  if (Array.isArray(data)) return data.map(withNotes);
  if (typeof data !== 'object' || data === null) return data;
  const mended = Object.fromEntries(Object.entries(data).map(([key, value]) => [key, withNotes(value)]));
  return 'title' in mended && 'kind' in mended ? { ...mended, note: 'x' } : mended;
}

/** Writes a catalogue that is right in every way, with a payload in every field that takes free text. */
export async function poisonousCatalogue(folder: string): Promise<Dose[]> {
  const reading = await readCatalogue(TINY);
  if ('problems' in reading) throw new Error('the tiny catalogue has mistakes');
  await cp(TINY, folder, { recursive: true });
  const doses: Dose[] = [];
  for (const { collection, id, data } of reading.written) {
    const entry = withNotes({ ...(data as object), ...ADDED[collection] });
    for (const field of openFields(collection)) {
      for (const { path } of valuesAt(entry, field)) {
        const mark = `#${doses.length}#`;
        const address = /(?:^|\.)(?:buy|page)$/u.test(field);
        const text = address
          ? `https://example.com/?${PAYLOAD.replaceAll(' ', '/')}${mark}`
          : `=${mark}${PAYLOAD}`;
        put(entry, path, text);
        doses.push({ collection, id, field, text });
      }
    }
    if (collection === 'shop') put(entry, ['site'], 'https://bench.example.com/deep/shop');
    const file = collection === 'shop' ? 'shop.yaml' : `${collection}/${id}.yaml`;
    await mkdir(dirname(join(folder, file)), { recursive: true });
    await writeFile(join(folder, file), stringify(entry));
  }
  const guide = { title: `=#title#${PAYLOAD}`, summary: `=#summary#${PAYLOAD}`, order: 1 };
  doses.push({ collection: 'guides', id: 'bad', field: 'title', text: guide.title });
  doses.push({ collection: 'guides', id: 'bad', field: 'summary', text: guide.summary });
  await mkdir(join(folder, 'guides'), { recursive: true });
  await writeFile(
    join(folder, 'guides', 'bad.mdx'),
    `---\n${stringify(guide)}---\n\n[Sheet](/molds/peg-2/)\n`,
  );
  const photo = sharp({ create: { width: 40, height: 30, channels: 3, background: 'teal' } });
  await writeFile(join(folder, 'photo.png'), await photo.png().toBuffer());
  return doses;
}
