import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { z } from 'zod';
import { PROJECT_ROOT } from '../io/settings.ts';
import { REQUIRED_FIGURES } from '../sheet/sheet.ts';

/** All that the end of a build wants to know of one file, learnt in one reading. */
export interface FileFacts {
  /** Path in the site, with forward slashes. */
  readonly name: string;
  readonly sha256: string;
  /** What is wrong with it, one line each. */
  readonly faults?: readonly string[];
  /** Hashes of the style sheets inside a page or a drawing, as a policy names them. */
  readonly styles?: readonly string[];
  /** Where a page leads to, and what in it can be led to. */
  readonly links?: readonly string[];
  readonly anchors?: readonly string[];
}

const TEXT = /\.(?:html|json|svg|css|js|xml|txt|csv|webmanifest)$/u;
const BUILD = /<meta name="build" content="[\da-f]{8}-[\da-f]{8}"/u;
const BY_PRODUCT = /(?:^|\/)\.prerender(?:\/|$)|\.map$/u;

const numberSchema = z.looseObject({
  value: z.number(),
  low: z.number(),
  high: z.number(),
  unit: z.string(),
});
const specSchema = z.looseObject({
  format: z.literal('partline-spec/1'),
  figures: z.record(z.string(), numberSchema),
});

/** Hash of some content. */
export function digest(content: string | Uint8Array, encoding: 'hex' | 'base64' = 'hex'): string {
  return createHash('sha256').update(content).digest(encoding);
}

/** Every file below a folder, by code point, with forward slashes. */
export async function filesOf(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => !entry.isDirectory())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .sort();
}

/** Facts of some files of a built site. */
export async function factsOf(folder: string, names: readonly string[]): Promise<FileFacts[]> {
  const facts: FileFacts[] = [];
  // A copy: links and anchors are parts of the page's text as they are found, and would keep all of it.
  for (const name of names)
    facts.push(structuredClone(factsOfFile(name, await readFile(join(folder, name)))));
  return facts;
}

function factsOfFile(name: string, content: Buffer): FileFacts {
  const text = TEXT.test(name) ? content.toString('utf8') : undefined;
  const faults = faultsOf(name, content, text);
  return {
    name,
    sha256: digest(content),
    ...(faults.length > 0 && { faults }),
    ...(text !== undefined && name.endsWith('.svg') && { styles: drawingStyles(text) }),
    ...(text !== undefined &&
      name.endsWith('.html') && { styles: pageStyles(text), links: linksIn(text), anchors: anchorsIn(text) }),
  };
}

function faultsOf(name: string, content: Buffer, text: string | undefined): string[] {
  if (content.length === 0) return [`${name} is empty`];
  if (BY_PRODUCT.test(name)) return [`${name} is a by-product of the build`];
  if (text === undefined) return [];
  const odd = !name.endsWith('.js') && /\[object Object\]|\bNaN\b/u.test(text);
  return [
    ...(text.includes(PROJECT_ROOT) ? [`${name} holds a path of this machine`] : []),
    ...(odd ? [`${name} holds a value that is none`] : []),
    ...(name.endsWith('.html') && !BUILD.test(text) ? [`${name} does not name its build`] : []),
    ...(/^molds\/[^/]+\/spec\.json$/u.test(name) ? specFaults(name, text) : []),
  ];
}

function specFaults(name: string, text: string): string[] {
  const read = specSchema.safeParse(parsed(text));
  if (!read.success) {
    return read.error.issues.map((issue) => `${name}: ${issue.path.join('.')}: ${issue.message}`);
  }
  const { figures } = read.data;
  const absent = REQUIRED_FIGURES.filter((key) => !(key in figures)).map(
    (key) => `${name}: ${key} is missing`,
  );
  const crooked = Object.entries(figures)
    .filter(([, { value, low, high }]) => low > value || value > high)
    .map(([key]) => `${name}: ${key} is outside its own band`);
  return [...absent, ...crooked];
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

const found = (text: string, pattern: RegExp): string[] => [
  ...new Set([...text.matchAll(pattern)].map(([, part = '']) => part)),
];

function linksIn(html: string): string[] {
  const links = found(html, /\s(?:href|src|content(?=="https:))="([^"]*)"/gu);
  return links.map((link) => link.replaceAll('&amp;', '&'));
}

function anchorsIn(html: string): string[] {
  return found(html, /\sid="([^"]*)"/gu);
}

const styleHash = (sheet: string): string => `sha256-${digest(sheet, 'base64')}`;

/** Hashes of the style sheets inside a page, as a policy names them; HTML has a browser read them as they are written. */
export function pageStyles(html: string): string[] {
  return found(html, /<style>([\s\S]*?)<\/style>/gu).map(styleHash);
}

function drawingStyles(svg: string): string[] {
  return found(svg, /<style[^>]*>([^<]*)<\/style>/gu).map((sheet) => styleHash(unescaped(sheet)));
}

/** The text that a browser sees in XML. */
function unescaped(xml: string): string {
  return xml
    .replaceAll('&gt;', '>')
    .replaceAll('&lt;', '<')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');
}
