import { readFile, readdir } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { isClosedSurface } from '../../src/core/mesh/edges.ts';
import { massProperties } from '../../src/core/mesh/mass-properties.ts';
import { baitSolid } from '../../src/core/solid/bait.ts';
import { baitSchema, FAMILIES, type Bait } from '../../src/schema/bait.ts';

const FOLDER = new URL('../../content/baits/', import.meta.url);
const files = (await readdir(FOLDER)).filter((file) => file.endsWith('.yaml')).sort();
const baits = await Promise.all(
  files.map(async (file): Promise<[string, Bait]> => [
    file,
    baitSchema.parse(parse(await readFile(new URL(file, FOLDER), 'utf8'))),
  ]),
);
const drawn = baits.flatMap(([file, { revisions }]) =>
  revisions.flatMap(({ id, sections }) => (sections ? [{ name: `${file} ${id}`, sections }] : [])),
);

test('the demo has every family', () => {
  expect(new Set(baits.map(([, { family }]) => family))).toEqual(new Set(FAMILIES));
});

describe.each(drawn)('$name', async ({ sections }) => {
  const { mesh, features } = await baitSolid(sections);

  test('is one closed body of a bait size', () => {
    const { box, volume } = massProperties(mesh);
    expect(isClosedSurface(mesh)).toBe(true);
    expect(volume).toBeGreaterThan(1e-6);
    expect(volume).toBeLessThan(40e-6);
    expect(box.min[0]).toBe(0);
    expect(box.max[0]).toBeLessThan(0.2);
  });

  test('has no part thinner than half a millimetre', () => {
    const sizes = features
      .filter(({ kind }) => kind !== 'rib')
      .flatMap(({ profile }) =>
        profile.slice(0, -4).map(({ width, thickness }) => Math.min(width, thickness)),
      );
    expect(Math.min(Infinity, ...sizes)).toBeGreaterThan(0.5e-3);
  });
});
