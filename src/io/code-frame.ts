import { lstat, readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Problem } from '../schema/problem.ts';
import { plainText } from './problem-text.ts';
import { PROJECT_ROOT } from './settings.ts';
import { LIMITS } from './yaml-source.ts';

/** The part of a file that a mistake is shown in. */
export interface Excerpt {
  /** The line as it is written, cut to `WIDTH`, invisible characters spelt out. */
  readonly text: string;
  /** Where the caret stands below it, counted from 1. */
  readonly column: number;
}

/** A mistake with the line it stands in; without one where there is no text to show. */
export interface FramedProblem extends Problem {
  readonly excerpt?: Excerpt;
}

/** Most characters of a line that are shown. */
const WIDTH = 100;
/** How much of a long line is shown before the caret. */
const BEFORE = 60;

/** Adds to each mistake the line it stands in; each file is read once. */
export async function framed(problems: readonly Problem[]): Promise<FramedProblem[]> {
  const files = new Map<string, Promise<readonly string[]>>();
  return Promise.all(
    problems.map(async (problem) => {
      const lines = files.get(problem.file) ?? linesOf(problem.file);
      files.set(problem.file, lines);
      const line = (await lines)[problem.line - 1];
      return line === undefined ? problem : { ...problem, excerpt: excerptOf(line, problem.column) };
    }),
  );
}

/** Lines of a readable text file; none of anything else. */
async function linesOf(file: string): Promise<readonly string[]> {
  const path = resolve(PROJECT_ROOT, file);
  const info = await lstat(path).catch(() => undefined);
  if (!info?.isFile() || info.size === 0 || info.size > LIMITS.bytes) return [];
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(await readFile(path)).split(/\r\n|[\r\n]/u);
  } catch {
    return [];
  }
}

function excerptOf(line: string, column: number): Excerpt {
  const long = line.length > WIDTH;
  const start = long ? Math.max(0, Math.min(column - 1 - BEFORE, line.length - WIDTH)) : 0;
  const end = start + WIDTH;
  const lead = (start > 0 ? '…' : '') + plainText(line.slice(start, column - 1).replaceAll('\t', ' '));
  const rest = plainText(line.slice(Math.max(start, column - 1), end).replaceAll('\t', ' '));
  return { text: lead + rest + (end < line.length ? '…' : ''), column: lead.length + 1 };
}

/** The line of a mistake and a caret below its place, each set off by a bar; nothing where there is no excerpt. */
export function frameLines({ line, excerpt }: FramedProblem): string[] {
  if (!excerpt) return [];
  const number = String(line).padStart(6);
  const caret = `${' '.repeat(excerpt.column - 1)}^`;
  return [`${number} | ${excerpt.text}`, `${' '.repeat(number.length)} | ${caret}`];
}
