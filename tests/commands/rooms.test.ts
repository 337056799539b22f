import { readdir } from 'node:fs/promises';
import { resolve } from 'node:path';
import { ESLint } from 'eslint';
import { describe, expect, test } from 'vitest';
import { closedDoor, ROOMS } from '../../src/commands/rooms.ts';

const at = (path: string): string => resolve('src', path);

describe('doors between rooms', () => {
  test.each([
    ['core/heat/slab.ts', '../quantity/band.ts', false],
    ['schema/mold.ts', '../core/quantity/units.ts', false],
    ['io/catalogue.ts', '../schema/collections.ts', false],
    ['sheet/analyse.ts', '../core/heat/slab.ts', false],
    ['drawing/bait.ts', '../sheet/sheet.ts', true],
    ['drawing/bait.ts', '../core/section/geometry.ts', true],
    ['drawing/bait.ts', '../core/quantity/print.ts', false],
    ['commands/check.ts', '../io/catalogue.ts', false],
    ['pages/molds/[id]/index.astro', '../../../drawing/bait.ts', false],
    ['core/heat/slab.ts', 'manifold-3d', false],
  ])('%s may import %s', (importer, specifier, typesOnly) => {
    expect(closedDoor(at(importer), specifier, typesOnly)).toBeUndefined();
  });

  test.each([
    ['core/heat/slab.ts', '../../schema/mold.ts', true, 'src/core may not import from src/schema'],
    ['core/heat/slab.ts', '../../../package.json', false, 'src/core may not import from outside src'],
    ['schema/mold.ts', '../core/heat/slab.ts', false, 'src/schema may import only quantity from src/core'],
    ['schema/mold.ts', '../io/catalogue.ts', true, 'src/schema may not import from src/io'],
    ['io/catalogue.ts', '../sheet/sheet.ts', true, 'src/io may not import from src/sheet'],
    ['drawing/bait.ts', '../sheet/analyse.ts', false, 'src/drawing may import only types from src/sheet'],
    [
      'drawing/bait.ts',
      '../core/mesh/mass-properties.ts',
      false,
      'src/drawing may import only types from src/core',
    ],
    [
      'components/Figure.astro',
      '../core/heat/slab.ts',
      false,
      'src/components may import only types from src/core',
    ],
    ['answer/reply.ts', '../io/catalogue.ts', false, 'src/answer may not import from src/io'],
    ['islands/units.ts', '../sheet/sheet.ts', true, 'src/islands may not import from src/sheet'],
  ])('%s may not import %s', (importer, specifier, typesOnly, reason) => {
    expect(closedDoor(at(importer), specifier, typesOnly)).toBe(reason);
  });
});

const eslint = new ESLint({ overrideConfigFile: '.eslint.config.js' });

test('every room has its row; only commands may import anything', async () => {
  const folders = (await readdir('src', { withFileTypes: true })).filter((entry) => entry.isDirectory());
  const open = folders.map(({ name }) => name).filter((name) => !(name in ROOMS));
  expect(open).toEqual(['commands']);
});

/** Rules that the project's own settings report for a text, as if it stood in that file. */
async function reported(path: string, text: string): Promise<string[]> {
  const [result] = await eslint.lintText(text, { filePath: path });
  return [...new Set((result?.messages ?? []).map(({ ruleId }) => ruleId ?? 'parse'))].sort();
}

describe('the lint settings bite', { timeout: 60_000 }, () => {
  // Files that exist: rules with type information only look at files of the project.
  test.each([
    [
      'a page in core',
      "import { getCollection } from 'astro:content';\nexport const x = getCollection;\n",
      'no-restricted-imports',
    ],
    [
      'a file read in core',
      "import { readFileSync } from 'node:fs';\nexport const x = readFileSync;\n",
      'no-restricted-imports',
    ],
    ['a clock in core', 'export const x = Date.now();\n', 'no-restricted-globals'],
    ['chance in core', 'export const x = Math.random();\n', 'no-restricted-properties'],
    ['a console in core', "console.log('x');\n", 'no-console'],
    ['a locale in core', 'export const x = (1).toLocaleString();\n', 'no-restricted-syntax'],
    ['another room in core', "export { shopSchema } from '../../schema/shop.ts';\n", 'partline/rooms'],
    [
      'a long file',
      'export const x = 1;\n'.replace('x', 'x').concat('\n'.repeat(400), 'export const y = 1;\n'),
      'max-lines',
    ],
    [
      'a long function',
      `export function f(): number {\n  let a = 0;\n${'  a += 1;\n'.repeat(60)}  return a;\n}\n`,
      'max-lines-per-function',
    ],
  ])('%s', async (_, text, rule) => {
    expect(await reported('src/core/quantity/band.ts', text)).toContain(rule);
  });

  test('a promise that nobody waits for', async () => {
    const text = 'async function f(): Promise<void> {}\nf();\n';
    expect(await reported('src/io/settings.ts', text)).toEqual(['@typescript-eslint/no-floating-promises']);
  });

  test('raw HTML in a component', async () => {
    const text = '---\nconst { x } = Astro.props;\n---\n<p set:html={x} />\n';
    expect(await reported('src/components/Any.astro', text)).toContain('astro/no-set-html-directive');
  });

  test('and leave a plain file alone', async () => {
    expect(await reported('src/core/quantity/band.ts', 'export const x = 1;\n')).toEqual([]);
  });
});
