import type { MdastNode, MdxJsxFlowElement, MdxJsxTextElement } from 'satteri';
import { GUIDE_COMPONENTS, GUIDE_ELEMENTS } from '../schema/guide.ts';
import type { Problem } from '../schema/problem.ts';
import { guideTree } from './guide-parser.ts';
import { readFrontMatter } from './front-matter.ts';
import { suggestion } from './nearest.ts';
import { quoted } from './problem-text.ts';
import type { ReadSource } from './yaml-source.ts';

/**
 * What a guide may hold at most. The time that its parser takes grows with the square of some of these; at the limits
 * it stays below a second.
 */
export const GUIDE_LIMITS = { bytes: 64 * 1024, line: 1000, braces: 100, brackets: 500 } as const;

/**
 * Reads a guide: its front matter, and its prose by the parser of the build. A guide is text and not a program: imports,
 * exports, expressions and all HTML but a few plain elements are refused, and so are links that lead to no page.
 */
export function readGuide(file: string, text: string): ReadSource {
  const { source, problems } = readFrontMatter(file, text);
  return { ...(source && { source }), problems: [...problems, ...guideProblems(file, text)] };
}

type Report = (line: number, column: number, message: string, remedy: string) => Problem;

function guideProblems(file: string, text: string): Problem[] {
  const report: Report = (line, column, message, remedy) => ({ file, line, column, message, remedy });
  const large = coarseProblems(text, report);
  if (large.length > 0) return large;
  try {
    return nodeProblems(guideTree(text), report);
  } catch (error) {
    const [, line = '1', column = '1', said = String(error)] =
      /(\d+):(\d+): ([^(]*)/u.exec(error instanceof Error ? error.message : '') ?? [];
    return [
      report(
        Number(line),
        Number(column),
        `cannot be read: ${said.trim()}`,
        'correct it; write \\{ and \\< for the signs themselves',
      ),
    ];
  }
}

/** What is refused before the parser sees it: too much of something, and modules, on which it can break down. */
function coarseProblems(text: string, report: Report): Problem[] {
  const { bytes, line: longest, braces, brackets } = GUIDE_LIMITS;
  const size = new TextEncoder().encode(text).length;
  if (size > bytes)
    return [report(1, 1, `is ${Math.ceil(size / 1024)} kB`, `keep a guide at or below ${bytes / 1024} kB`)];
  const long = text.split('\n').findIndex((line) => line.length > longest);
  if (long >= 0)
    return [report(long + 1, longest, 'the line is too long', `break it before ${longest} characters`)];
  const module = text.split('\n').findIndex((line) => /^(?:import|export)\b/u.test(line));
  if (module >= 0)
    return [
      report(
        module + 1,
        1,
        'an import or export stands here',
        'take it out, or let no line begin with that word; guides hold prose and known components',
      ),
    ];
  const count = (sign: string): number => text.split(sign).length - 1;
  if (count('{') > braces)
    return [report(1, 1, `holds more than ${braces} signs "{"`, 'write prose; a guide holds no expressions')];
  if (count('<') > brackets)
    return [report(1, 1, `holds more than ${brackets} signs "<"`, 'split the guide in two')];
  return [];
}

function nodeProblems(node: MdastNode, report: Report): Problem[] {
  const { line = 1, column = 1 } = node.position?.start ?? {};
  const at = (message: string, remedy: string): Problem => report(line, column, message, remedy);
  const below = 'children' in node ? (node.children as MdastNode[]) : [];
  return [...ownProblems(node, at), ...below.flatMap((child) => nodeProblems(child, report))];
}

type At = (message: string, remedy: string) => Problem;

function ownProblems(node: MdastNode, at: At): Problem[] {
  switch (node.type) {
    case 'mdxFlowExpression':
    case 'mdxTextExpression':
      return [at('an expression stands here', 'take it out, or write \\{ for the sign itself')];
    case 'html':
      return [at('raw HTML stands here', 'write it as Markdown')];
    case 'image':
    case 'imageReference':
      return [at('a picture stands here', 'list photos in the entry of a mold; guides hold none')];
    case 'mdxJsxFlowElement':
    case 'mdxJsxTextElement':
      return elementProblems(node, at);
    case 'link':
    case 'definition':
      return linkProblems(node.url, at);
    default:
      return [];
  }
}

function elementProblems(node: MdxJsxFlowElement | MdxJsxTextElement, at: At): Problem[] {
  const name = node.name ?? '';
  const known: Readonly<Record<string, readonly string[]>> = {
    ...GUIDE_COMPONENTS,
    ...Object.fromEntries(GUIDE_ELEMENTS.map((element) => [element, []])),
  };
  const takes = Object.hasOwn(known, name) ? known[name] : undefined;
  if (!takes) return [at(`"<${name}>" is not allowed here`, suggestion(name, Object.keys(known), 'allowed'))];
  return node.attributes.flatMap((attribute) => {
    if (attribute.type !== 'mdxJsxAttribute' || typeof attribute.value !== 'string')
      return [at(`an expression stands in <${name}>`, 'write attributes as text in quotes')];
    if (takes.includes(attribute.name)) return [];
    return [
      at(`"${attribute.name}" is no attribute of <${name}>`, suggestion(attribute.name, takes, 'attributes')),
    ];
  });
}

/** Links lead to a place on the page, a page of the site, or elsewhere by https, mailto or tel. */
function linkProblems(url: string, at: At): Problem[] {
  if (/^(?:#|\/(?![/\\]))/u.test(url)) return [];
  const protocol = URL.canParse(url) ? new URL(url).protocol : undefined;
  if (protocol === 'https:' || protocol === 'mailto:' || protocol === 'tel:') return [];
  return [at(`the link ${quoted(url)} leads nowhere`, 'write https://…, mailto:…, tel:…, /page/ or #place')];
}
