import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type * as Satteri from 'satteri';
import type { MdastNode } from 'satteri';
import { PROJECT_ROOT } from './settings.ts';

/** Packages by which the build comes to its parser of guides, each a dependency of the one before. */
const WAY = ['@astrojs/mdx', '@astrojs/markdown-satteri', 'satteri'];

const entry = WAY.reduce(
  (from, name) => createRequire(from).resolve(name),
  join(PROJECT_ROOT, 'package.json'),
);

const { mdxToMdast } = (await import(/* @vite-ignore */ pathToFileURL(entry).href)) as typeof Satteri;

/** A guide as a tree, by the very parser that the build renders it with. */
export function guideTree(text: string): MdastNode {
  return mdxToMdast(text) as MdastNode;
}
