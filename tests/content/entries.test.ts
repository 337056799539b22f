import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { toSI } from '../../src/core/quantity/units.ts';
import { COLLECTIONS, shopSchema, type CollectionName } from '../../src/schema/collections.ts';
import { plastisolSchema } from '../../src/schema/plastisol.ts';
import { pourBand } from '../../src/sheet/pour.ts';

const CONTENT = new URL('../../content', import.meta.url).pathname;

const entriesOf = (folder: string): string[] =>
  readdirSync(join(CONTENT, folder)).filter((name) => name.endsWith('.yaml'));

const read = (path: string): unknown => parse(readFileSync(join(CONTENT, path), 'utf8'));

const entries = readdirSync(CONTENT, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name in COLLECTIONS)
  .flatMap(({ name }) => entriesOf(name).map((file) => [name as CollectionName, file] as const));

test.each(entries)('%s/%s is what its schema asks for', (folder, file) => {
  const result = COLLECTIONS[folder].safeParse(read(join(folder, file)));
  expect(result.error?.issues ?? []).toEqual([]);
});

test('the shop is what its schema asks for, and marked as invented', () => {
  const shop = shopSchema.parse(read('shop.yaml'));
  expect(shop.invented).toBe(true);
});

test('every compound can be poured at the lower end of its fusion band without reaching its limits', () => {
  for (const file of entriesOf('plastisols')) {
    const compound = plastisolSchema.parse(read(join('plastisols', file)));
    expect(compound.fusion.value, file).toBeLessThan(compound.upperLimit);
    expect(compound.upperLimit, file).toBeLessThan(compound.degradation.value);
    expect(compound.upperLimit, file).toBeLessThanOrEqual(compound.flashPoint.value - 15);
    expect(compound.noFlow.high, file).toBeLessThan(compound.fusion.low);
  }
});

// Common practice: 330 °F is an ordinary shooting temperature for a medium compound.
test('330 °F lies inside the pour band of medium compound', () => {
  const band = pourBand(plastisolSchema.parse(read('plastisols/medium-compound.yaml')));
  const pour = toSI(330, '[degF]');
  expect(pour).toBeGreaterThan(band.low);
  expect(pour).toBeLessThan(band.high);
  expect(Math.abs(pour - band.nominal)).toBeLessThan(5);
});
