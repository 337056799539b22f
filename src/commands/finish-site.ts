import { createHash } from 'node:crypto';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { headersFile, nginxSnippet } from '../components/head/headers.ts';
import { programId } from '../io/program-id.ts';
import { leanHtml } from './lean-html.ts';
import { identified } from './page-id.ts';

/** What a finished site says about itself. */
interface BuildNote {
  readonly format: 'partline-build/1';
  /** The same for the same files: SHA-256 of `SHA256SUMS` without its line of `build.json`. */
  readonly id: string;
  /** Of the program that made it; every page names its first signs. */
  readonly program: string;
  readonly files: number;
}

/**
 * Writes into a rendered site what is known only at its end: headers for hosts, the id of each page (made lean first),
 * checksums, the id of the build.
 *
 * @param folder - the rendered site
 * @param base - path of the site below its host, "/" or "/shop"
 */
export async function finishSite(folder: string, base: string): Promise<void> {
  const program = await programId();
  await finishThePages(folder, program);
  const hashes = await styleHashes(folder);
  await writeFile(join(folder, '_headers'), headersFile(hashes, base));
  await writeFile(join(folder, 'nginx-headers.conf'), nginxSnippet(hashes, base));
  const lines = await checksums(folder);
  const note: BuildNote = {
    format: 'partline-build/1',
    id: sha256(lines.join('\n'), 'hex'),
    program,
    files: lines.length,
  };
  const text = `${JSON.stringify(note, undefined, 2)}\n`;
  await writeFile(join(folder, 'build.json'), text);
  const all = [...lines, `${sha256(text, 'hex')}  build.json`];
  await writeFile(join(folder, 'SHA256SUMS'), `${all.join('\n')}\n`);
}

function sha256(content: string | Uint8Array, encoding: 'hex' | 'base64'): string {
  return createHash('sha256').update(content).digest(encoding);
}

/** Every file below a folder, by code point, with forward slashes. */
async function filesOf(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => !entry.isDirectory())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}

/** Every page is lean and says which page it is. */
async function finishThePages(folder: string, program: string): Promise<void> {
  for (const name of (await filesOf(folder)).filter((file) => file.endsWith('.html'))) {
    const path = join(folder, name);
    const before = await readFile(path, 'utf8');
    const after = identified(leanHtml(before), program);
    if (after !== before) await writeFile(path, after);
  }
}

/** Lines as the command `sha256sum --check` reads them. */
async function checksums(folder: string): Promise<string[]> {
  const lines: string[] = [];
  for (const name of await filesOf(folder))
    lines.push(`${sha256(await readFile(join(folder, name)), 'hex')}  ${name}`);
  return lines;
}

/** Hashes of the style sheets inside the drawings, each once. */
async function styleHashes(folder: string): Promise<string[]> {
  const hashes = new Set<string>();
  for (const name of (await filesOf(folder)).filter((file) => file.endsWith('.svg'))) {
    const text = await readFile(join(folder, name), 'utf8');
    for (const [, sheet = ''] of text.matchAll(/<style[^>]*>([^<]*)<\/style>/gu))
      hashes.add(`sha256-${sha256(unescaped(sheet), 'base64')}`);
  }
  return [...hashes].sort();
}

/** The text that a browser sees in XML. */
function unescaped(xml: string): string {
  return xml
    .replaceAll('&gt;', '>')
    .replaceAll('&lt;', '<')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');
}
