import type { Problem } from '../schema/problem.ts';

const UNPRINTABLE = /[\p{Cc}\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/gu;

/** Text in which every invisible character is spelt out, so that it can neither hide nor steer a terminal. */
export function plainText(text: string): string {
  return text.replace(UNPRINTABLE, (sign) => `\\u{${sign.codePointAt(0)?.toString(16) ?? ''}}`);
}

/** One line: `file:line:column what is wrong — what to do`. */
export function problemLine(problem: Problem): string {
  const { file, line, column, message, remedy } = problem;
  return plainText(`${file}:${line}:${column} ${message} — ${remedy}`);
}

/** By file, then line, then column, then words; by code point, so that it is the same everywhere. */
export function sortedProblems(problems: readonly Problem[]): Problem[] {
  const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
  return [...problems].sort(
    (a, b) =>
      compare(a.file, b.file) || a.line - b.line || a.column - b.column || compare(a.message, b.message),
  );
}

/** A written value as it is quoted in a message: short, on one line. */
export function quoted(value: unknown): string {
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return `"${text.length > 60 ? `${text.slice(0, 57)}…` : text}"`;
}
