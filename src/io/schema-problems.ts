import type { z } from 'zod';
import { dotted, fieldAt, type Field } from '../schema/outline.ts';
import type { Path, Problem } from '../schema/problem.ts';
import { suggestion } from './nearest.ts';
import { quoted } from './problem-text.ts';
import type { Source } from './yaml-source.ts';

type Issue = z.core.$ZodIssue;

/** What a schema finds wrong in written data, each at its place in the file. */
export function schemaProblems(schema: z.core.$ZodType, source: Source, issues: readonly Issue[]): Problem[] {
  return issues.flatMap((issue) => {
    const path = issue.path.filter((step) => typeof step !== 'symbol');
    if (issue.code === 'unrecognized_keys') return unknownKeys(schema, source, path, issue.keys);
    const { message, remedy } = words(schema, source, path, issue);
    return [{ file: source.file, ...source.position(path), message, remedy }];
  });
}

function unknownKeys(
  schema: z.core.$ZodType,
  source: Source,
  path: Path,
  keys: readonly string[],
): Problem[] {
  const known = fieldAt(schema, path)?.keys ?? [];
  const where = path.length === 0 ? 'here' : `in "${dotted(path)}"`;
  return keys.map((key) => ({
    file: source.file,
    ...source.keyPosition(path, key),
    message: `${quoted(key)} is not a known key ${where}`,
    remedy: suggestion(key, known, 'known keys'),
  }));
}

interface Words {
  readonly message: string;
  readonly remedy: string;
}

function words(schema: z.core.$ZodType, source: Source, path: Path, issue: Issue): Words {
  const name = path.length === 0 ? 'the entry' : `"${dotted(path)}"`;
  const field = fieldAt(schema, path);
  const value = valueOf(source.data, path);
  if (issue.code === 'custom') return split(`${name}: ${issue.message}`, wanted(field));
  if (value === undefined) return { message: `${name} is missing`, remedy: `add it: ${wanted(field)}` };
  if (value === null)
    return { message: `${name} is empty`, remedy: `write ${wanted(field)}, or take the key out` };
  if (field?.kind === 'quantity' && typeof value === 'number') {
    return { message: `${name}: ${value} has no unit`, remedy: issue.message };
  }
  if (issue.code === 'invalid_value' && typeof value === 'string') {
    return {
      message: `${name}: ${quoted(value)} is not a known choice`,
      remedy: suggestion(value, field?.choices ?? [], 'choices'),
    };
  }
  if (issue.code === 'invalid_format' && !issue.message.startsWith('Invalid')) {
    const { message, remedy } = split(issue.message, wanted(field));
    return { message: `${name}: ${quoted(value)} ${message}`, remedy };
  }
  return { message: `${name}: ${fault(issue, value)}`, remedy: `write ${wanted(field)}` };
}

function fault(issue: Issue, value: unknown): string {
  switch (issue.code) {
    case 'too_small':
      return sized(issue.origin, 'at least', issue.minimum, value);
    case 'too_big':
      return sized(issue.origin, 'at most', issue.maximum, value);
    case 'invalid_format':
      return `${quoted(value)} has the wrong form`;
    default:
      return `got ${kindOf(value)}`;
  }
}

function sized(origin: string, bound: string, limit: number | bigint, value: unknown): string {
  if (origin === 'string' && limit === 1) return 'is empty text';
  if (origin === 'string') return `wants ${bound} ${limit} characters, got ${String(value).length}`;
  if (origin === 'array') return `wants ${bound} ${limit} in the list, got ${(value as unknown[]).length}`;
  return `${String(value)} is out of range, wants ${bound} ${limit}`;
}

/** A schema's own sentence "what is wrong; what to do", in two. */
function split(sentence: string, otherwise: string): Words {
  const cut = sentence.indexOf('; ');
  return cut < 0
    ? { message: sentence, remedy: `write ${otherwise}` }
    : { message: sentence.slice(0, cut), remedy: sentence.slice(cut + 2) };
}

function wanted(field: Field | undefined): string {
  if (!field) return 'what the reference of fields says';
  const kind = KINDS[field.kind];
  const facts = [
    field.description.charAt(0).toLowerCase() + field.description.slice(1),
    field.choices ? `one of ${field.choices.join(', ')}` : field.limits,
    field.example === undefined ? undefined : `for example ${quoted(field.example)}`,
  ];
  const said = facts.filter(Boolean).join('; ');
  return said === '' ? kind : `${kind} (${said})`;
}

const KINDS: Readonly<Record<Field['kind'], string>> = {
  text: 'text',
  number: 'a number',
  'true or false': 'true or false',
  choice: 'a choice',
  quantity: 'a number with its unit',
  'banded quantity': 'a group with nominal and source',
  list: 'a list',
  group: 'a group of keys',
  point: 'a list of three lengths',
};

function kindOf(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a group of keys';
  return typeof value === 'string' ? `text ${quoted(value)}` : `${typeof value} ${String(value)}`;
}

function valueOf(data: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (here, step) => (here as Record<string | number, unknown> | null | undefined)?.[step],
    data,
  );
}
