import { expect, test } from 'vitest';
import { findableOf } from '../../src/answer/findable.ts';
import { packedIndex, type PackedIndex } from '../../src/answer/packed-index.ts';
import { searchIndex, type Findable } from '../../src/answer/search.ts';
import { printedBoth } from '../../src/core/quantity/print.ts';
import { demo } from '../support/demo.ts';
import { unpackedIndex } from '../support/unpacked-index.ts';

async function* one(...parts: readonly (readonly Findable[])[]): AsyncGenerator<readonly Findable[]> {
  for (const part of parts) yield await Promise.resolve(part);
}

const sent = (index: PackedIndex) => JSON.parse(JSON.stringify(index)) as PackedIndex;
const sorted = (all: readonly Findable[]) =>
  all.map((item) => JSON.stringify(Object.entries(item).sort())).sort();

const hot = (id: string, text: string): Findable => ({
  ...{ title: 'How hot?', place: id.toUpperCase(), path: `molds/${id}/#hot`, words: 'heat', text },
});

test('what two sheets say alike is told once, each in its own place', async () => {
  const index = await packedIndex(one([hot('a', '332 °F')], [hot('b', '340 °F')], [hot('c', '332 °F')]));
  expect(index).toEqual({
    alone: [],
    places: [
      { place: 'A', path: 'molds/a/' },
      { place: 'B', path: 'molds/b/' },
      { place: 'C', path: 'molds/c/' },
    ],
    kinds: [
      {
        ...{ title: 'How hot?', words: 'heat', anchor: '#hot' },
        ...{ texts: ['332 °F', '340 °F'], on: [0, 1, 2], said: [0, 1, 0] },
      },
    ],
  });
  expect(unpackedIndex(sent(index))).toEqual([hot('a', '332 °F'), hot('b', '340 °F'), hot('c', '332 °F')]);
});

test('other words, keys or anchors are something else; what has no anchor stands by itself', async () => {
  const all = [
    hot('a', ''),
    { ...hot('a', ''), words: '' },
    { ...hot('a', ''), keys: 'pour hot' },
    { ...hot('a', ''), path: 'molds/a/#warm' },
    { ...hot('a', ''), path: 'molds/a/' },
  ];
  const index = await packedIndex(one(all));
  expect([index.kinds.length, index.places.length, index.alone]).toEqual([4, 1, [all[4]]]);
  expect(sorted(unpackedIndex(sent(index)))).toEqual(sorted(all));
});

test('numbers that name nothing are refused', async () => {
  const index = await packedIndex(one([hot('a', '332 °F')]));
  const [kind] = index.kinds;
  for (const wrong of [{ on: [1] }, { said: [1] }, { said: [] }]) {
    const broken = { ...index, kinds: [{ ...kind!, ...wrong }] };
    expect(() => searchIndex(broken)).toThrow('searchIndex: wants numbers of what there is');
  }
});

test('the whole demo comes out as it went in, in a third of the room', { timeout: 240_000 }, async () => {
  const { sheets } = await demo();
  const parts = sheets.map((sheet) => findableOf(sheet, (figure) => printedBoth(figure, 'us')));
  const index = sent(await packedIndex(one(...parts)));
  expect(sorted(unpackedIndex(index))).toEqual(sorted(parts.flat()));
  expect(JSON.stringify(index).length).toBeLessThan(JSON.stringify(parts.flat()).length / 3);
});
