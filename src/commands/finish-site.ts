import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { headersFile, nginxSnippet } from '../components/head/headers.ts';
import { digest, type FileFacts } from './site-facts.ts';

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
 * Writes into a rendered site what is known only at its end: headers for hosts, checksums, the id of the build.
 *
 * @param folder - the rendered site
 * @param base - path of the site below its host, "/" or "/shop"
 * @param made - facts of every file in it, and the id of the program that made them
 */
export async function finishSite(
  folder: string,
  base: string,
  { facts, program }: { readonly facts: readonly FileFacts[]; readonly program: string },
): Promise<void> {
  const hashes = [...new Set(facts.flatMap(({ styles = [] }) => styles))].sort();
  const headers = { _headers: headersFile(hashes, base), 'nginx-headers.conf': nginxSnippet(hashes, base) };
  for (const [name, text] of Object.entries(headers)) await writeFile(join(folder, name), text);
  const lines = checksums([
    ...facts,
    ...Object.entries(headers).map(([name, text]) => ({ name, sha256: digest(text) })),
  ]);
  const note: BuildNote = {
    format: 'partline-build/1',
    id: digest(lines.join('\n')),
    program,
    files: lines.length,
  };
  const text = `${JSON.stringify(note, undefined, 2)}\n`;
  await writeFile(join(folder, 'build.json'), text);
  const all = [...lines, `${digest(text)}  build.json`];
  await writeFile(join(folder, 'SHA256SUMS'), `${all.join('\n')}\n`);
}

/** Lines as the command `sha256sum --check` reads them, by code point of the names. */
function checksums(facts: readonly FileFacts[]): string[] {
  return [...facts]
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .map(({ name, sha256 }) => `${sha256}  ${name}`);
}
