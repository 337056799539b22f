import { relative, resolve, sep } from 'node:path';
import type { Rule } from 'eslint';

/** How much of a room another room may import: all of it, its types only, or only the folders named. */
type Leave = 'all' | 'types' | { readonly folders: readonly string[] };

/** The vocabulary of numbers: units, figures, printing. Every room downstream speaks it. */
const VOCABULARY: Leave = { folders: ['quantity'] };

/**
 * Who may import from whom. A room that is not named on the left may import anything; a room that is not named
 * in a row is closed to it. Where a room is open for its types only, the vocabulary of `core` is still open.
 */
export const ROOMS: Readonly<Record<string, Readonly<Record<string, Leave>>>> = {
  core: { core: 'all' },
  schema: { schema: 'all', core: VOCABULARY },
  io: { io: 'all', schema: 'all', core: 'all' },
  sheet: { sheet: 'all', schema: 'all', core: 'all' },
  site: {
    site: 'all',
    answer: 'all',
    card: 'all',
    components: 'all',
    sheet: 'all',
    render: 'all',
    io: 'all',
    schema: 'all',
    core: 'all',
  },
  drawing: { drawing: 'all', styles: 'all', core: 'types', sheet: 'types' },
  render: { render: 'all', schema: 'types', core: 'all' },
  card: { card: 'all', drawing: 'all', styles: 'all', core: 'types', sheet: 'types' },
  answer: { answer: 'all', core: { folders: ['text'] }, sheet: 'types' },
  components: {
    components: 'all',
    answer: 'all',
    drawing: 'all',
    render: 'types',
    styles: 'all',
    islands: 'all',
    schema: 'types',
    core: 'types',
    sheet: 'types',
  },
  layouts: {
    layouts: 'all',
    components: 'all',
    styles: 'all',
    islands: 'all',
    schema: 'types',
    core: 'types',
    sheet: 'types',
  },
  styles: { styles: 'all', drawing: 'all' },
  islands: { islands: 'all', styles: 'all', core: 'all', answer: 'all' },
  pages: {
    pages: 'all',
    layouts: 'all',
    components: 'all',
    styles: 'all',
    drawing: 'all',
    card: 'all',
    answer: 'all',
    site: 'all',
    sheet: 'all',
    schema: 'types',
    core: 'types',
  },
};

const SOURCE = resolve('src');

/** The room of a file below `src` and the folders below that, or nothing outside it. */
function roomOf(path: string): { room: string; below: string[] } | undefined {
  const [room = '', ...below] = relative(SOURCE, path).split(sep);
  return room === '..' || below.length === 0 ? undefined : { room, below };
}

/** Why a file may not import another, or nothing when it may. */
export function closedDoor(importer: string, specifier: string, typesOnly: boolean): string | undefined {
  const from = roomOf(importer);
  const row = from && ROOMS[from.room];
  if (!row || !specifier.startsWith('.')) return undefined;
  const target = resolve(importer, '..', specifier.replace(/\?.*$/u, ''));
  const to = roomOf(target);
  if (!to) return `src/${from.room} may not import from outside src`;
  const leave = row[to.room];
  if (!leave) return `src/${from.room} may not import from src/${to.room}`;
  if (leave === 'all') return undefined;
  if (leave === 'types') {
    const vocabulary = to.room === 'core' && to.below[0] === 'quantity';
    return typesOnly || vocabulary ? undefined : `src/${from.room} may import only types from src/${to.room}`;
  }
  const open = leave.folders.includes(to.below[0] ?? '');
  return open
    ? undefined
    : `src/${from.room} may import only ${leave.folders.join(', ')} from src/${to.room}`;
}

type Imported = { source?: { value?: unknown } | null; importKind?: string; exportKind?: string };

/** Lint rule: imports run one way through the rooms. */
export const rooms: Rule.RuleModule = {
  meta: { type: 'problem', schema: [], messages: { closed: '{{reason}}' } },
  create(context) {
    const look = (node: Rule.Node): void => {
      const { source, importKind, exportKind } = node as Imported;
      if (typeof source?.value !== 'string') return;
      const typesOnly = importKind === 'type' || exportKind === 'type';
      const reason = closedDoor(context.filename, source.value, typesOnly);
      if (reason) context.report({ node, messageId: 'closed', data: { reason } });
    };
    return {
      ImportDeclaration: look,
      ImportExpression: look,
      ExportNamedDeclaration: look,
      ExportAllDeclaration: look,
    };
  },
};
