import { readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { isInside } from '../io/settings.ts';

/** A file as it is sent. */
export interface Sent {
  readonly type: string;
  readonly bytes: Buffer;
}

const TYPES: Readonly<Record<string, string>> = {
  '.avif': 'image/avif',
  '.css': 'text/css; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.md': 'text/markdown; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.webp': 'image/webp',
  '.woff2': 'font/woff2',
  '.xml': 'application/xml; charset=utf-8',
};

/** The file of a site at a path of its address, or nothing where there is none. */
export async function staticFile(folder: string, path: string): Promise<Sent | undefined> {
  const name = decoded(path);
  if (name === undefined || name.includes('\0')) return undefined;
  const file = join(folder, name.endsWith('/') ? `${name}index.html` : name);
  if (!isInside(folder, file)) return undefined;
  const bytes = await readFile(file).catch(() => undefined);
  return bytes && { type: TYPES[extname(file)] ?? 'application/octet-stream', bytes };
}

function decoded(path: string): string | undefined {
  try {
    return decodeURIComponent(path.replace(/[?#].*$/u, ''));
  } catch {
    return undefined;
  }
}
