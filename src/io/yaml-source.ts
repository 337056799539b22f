import {
  isAlias,
  isMap,
  isPair,
  isScalar,
  isSeq,
  LineCounter,
  parseAllDocuments,
  visit,
  type Document,
  type Node,
  type Scalar,
} from 'yaml';
import type { Path, Problem } from '../schema/problem.ts';
import { quoted } from './problem-text.ts';

/** Limits of one written file. */
export const LIMITS = { bytes: 256 * 1024, depth: 20 } as const;

/** A place in a file, counted from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** Written data with the place of everything in it. */
export interface Source {
  /** As shown to people. */
  readonly file: string;
  readonly data: unknown;
  /** Place of a value; of the nearest thing around it where it is missing. */
  position(path: Path): Position;
  /** Place of a key itself. */
  keyPosition(path: Path, key: string): Position;
}

/** What is wrong with the text; the source is there unless that makes it unreadable. */
export interface ReadSource {
  readonly source?: Source;
  readonly problems: readonly Problem[];
}

const FORBIDDEN_KEYS = new Set(['__proto__', 'constructor', 'prototype']);
const PLAIN_NUMBER = /^-?(?:0|[1-9]\d*)(?:\.\d+)?$/u;

/** Reads YAML 1.2 (core schema) without aliases, tags, odd numbers or deep nesting. */
export function readYaml(file: string, text: string): ReadSource {
  const { documents, place } = parsed(text);
  const report = (offset: number, message: string, remedy: string): Problem => ({
    file,
    ...place(offset),
    message,
    remedy,
  });
  const [document, second] = documents;
  if (!document) return { problems: [report(0, 'the file is empty', 'write the fields of the entry')] };
  const unreadable = [
    ...parseProblems(document, (code) => code !== 'DUPLICATE_KEY', report),
    ...(second ? [report(second.range[0], 'a second document starts here', 'keep one entry in a file')] : []),
  ];
  if (unreadable.length === 0) unreadable.push(...structureProblems(document, report));
  if (unreadable.length > 0) return { problems: unreadable };
  const doubtful = [
    ...parseProblems(document, (code) => code === 'DUPLICATE_KEY', report),
    ...numberProblems(document, report),
  ];
  return { source: sourceOf(file, text, document), problems: doubtful };
}

interface Parsed {
  readonly documents: readonly Document.Parsed[];
  place(offset: number): Position;
}

function parsed(text: string): Parsed {
  const lines = new LineCounter();
  const documents = parseAllDocuments(text, {
    lineCounter: lines,
    version: '1.2',
    schema: 'core',
    uniqueKeys: true,
    prettyErrors: false,
    logLevel: 'silent',
  });
  return { documents: Array.isArray(documents) ? documents : [], place: (offset) => placeOf(lines, offset) };
}

type Report = (offset: number, message: string, remedy: string) => Problem;

function placeOf(lines: LineCounter, offset: number): Position {
  const { line, col } = lines.linePos(offset);
  return { line: Math.max(1, line), column: Math.max(1, col) };
}

const REMEDIES: Partial<Record<string, string>> = {
  DUPLICATE_KEY: 'keep one of the two',
  TAB_AS_INDENT: 'indent with spaces',
  RESOURCE_EXHAUSTION: `nest at most ${LIMITS.depth} levels deep`,
  TAG_RESOLVE_FAILED: 'take the tag (the word after "!") out',
  BAD_INDENT: 'line the keys of one group up in one column',
  MISSING_CHAR: 'close the quote or bracket',
};

function parseProblems(document: Document, wanted: (code: string) => boolean, report: Report): Problem[] {
  const errors = [...document.errors, ...document.warnings].filter(({ code }) => wanted(code));
  return errors.map((error) => {
    const said = error.code === 'RESOURCE_EXHAUSTION' ? 'nested too deeply' : error.message;
    const message = said.charAt(0).toLowerCase() + said.slice(1);
    return report(
      error.pos[0],
      message,
      REMEDIES[error.code] ?? 'correct the YAML here; quote text that holds : or #',
    );
  });
}

const offsetOf = (node: unknown): number => (node as Node | null)?.range?.[0] ?? 0;

function structureProblems(document: Document, report: Report): Problem[] {
  const problems: Problem[] = [];
  visit(document, (_, node, path) => {
    if (isPair(node)) {
      problems.push(...keyProblems(node.key, report));
      return undefined;
    }
    if (isAlias(node)) {
      const message = `"*${node.source}" repeats another part`;
      problems.push(report(offsetOf(node), message, 'write the part out in full'));
    }
    if (path.filter((step) => isMap(step) || isSeq(step)).length < LIMITS.depth) return undefined;
    problems.push(report(offsetOf(node), 'nested too deeply', `nest at most ${LIMITS.depth} levels deep`));
    return visit.SKIP;
  });
  return problems;
}

function keyProblems(key: unknown, report: Report): Problem[] {
  const offset = offsetOf(key);
  if (!isScalar(key) || typeof key.value !== 'string') {
    return [report(offset, 'a key has to be a plain word', 'write a word, then a colon')];
  }
  if (!FORBIDDEN_KEYS.has(key.value)) return [];
  return [report(offset, `"${key.value}" cannot be a key`, 'take it out')];
}

function numberProblems(document: Document, report: Report): Problem[] {
  const problems: Problem[] = [];
  visit(document, {
    Scalar(key, scalar: Scalar) {
      const written = scalar.source ?? String(scalar.value);
      if (key === 'key' || typeof scalar.value !== 'number' || PLAIN_NUMBER.test(written)) return;
      const message = `${quoted(written)} is not a plain decimal number`;
      problems.push(report(offsetOf(scalar), message, 'write it like 12 or 0.5, or in quotes if it is text'));
    },
  });
  return problems;
}

/**
 * Places are asked for where something is wrong, and a parsed document holds some twenty times the memory of its text (43 MB for
 * the 1.9 MB of 1000 molds): when a place is asked for, it is parsed once more, unless it is still there from the last time.
 */
function sourceOf(file: string, text: string, document: Document): Source {
  let last: WeakRef<Parsed> | undefined;
  const again = (): Parsed => {
    const found = last?.deref() ?? parsed(text);
    last = new WeakRef(found);
    return found;
  };
  const placed = (path: Path, which: 'value' | 'key'): Position => {
    const { documents, place } = again();
    return place(documents[0] ? walk(documents[0], path)[which] : 0);
  };
  return {
    file,
    data: document.toJS({ maxAliasCount: 0 }),
    position: (path) => placed(path, 'value'),
    keyPosition: (path, key) => placed([...path, key], 'key'),
  };
}

/** Offsets of the value and of its key as far down `path` as the document goes. */
function walk(document: Document, path: Path): { value: number; key: number } {
  let node: unknown = document.contents;
  let found = { value: 0, key: 0 };
  for (const step of path) {
    if (isMap(node)) {
      const pair = node.items.find(({ key }) => isScalar(key) && key.value === step);
      if (!pair) return { value: found.key, key: found.key };
      const key = (pair.key as Node).range?.[0] ?? found.key;
      node = pair.value;
      found = { key, value: isMap(node) || isSeq(node) ? key : ((node as Node | null)?.range?.[0] ?? key) };
    } else if (isSeq(node)) {
      const item: unknown = typeof step === 'number' ? node.items[step] : undefined;
      if (item === undefined) return { value: found.key, key: found.key };
      const offset = (item as Node | null)?.range?.[0] ?? found.key;
      node = item;
      found = { key: offset, value: offset };
    } else {
      return found;
    }
  }
  return found;
}
