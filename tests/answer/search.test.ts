import { beforeAll, describe, expect, test } from 'vitest';
import { findableOf } from '../../src/answer/findable.ts';
import { packedIndex } from '../../src/answer/packed-index.ts';
import { searched, searchIndex, type Findable } from '../../src/answer/search.ts';
import { printedBoth } from '../../src/core/quantity/print.ts';
import { demo } from '../support/demo.ts';

async function* parts(all: readonly Findable[]): AsyncGenerator<readonly Findable[]> {
  yield await Promise.resolve(all);
}

/** An index as it comes to the browser. */
const indexOf = async (all: readonly Findable[]) =>
  searchIndex(
    JSON.parse(JSON.stringify(await packedIndex(parts(all)))) as Awaited<ReturnType<typeof packedIndex>>,
  );

let index: ReturnType<typeof searchIndex>;
beforeAll(async () => {
  const { sheets } = await demo();
  index = await indexOf(sheets.flatMap((sheet) => findableOf(sheet, (figure) => printedBoth(figure, 'us'))));
}, 240_000);

const paths = (query: string) =>
  searched(index, query)
    .slice(0, 4)
    .flatMap(({ places }) => places.map(({ path }) => path));

// What people type, and the anchor that must be among the first four titles.
describe.each([
  ['shoot cold', '#shoot-cold'],
  ['shot cold mold', '#shoot-cold'],
  ['short tips', '#short-tips'],
  ['bubbles', '#bubbles-and-dents'],
  ['bubles', '#fault-bubbles'],
  ['flsh', '#flash'],
  ['deeper vents', '#deeper-vents'],
  ['how many per gallon', '#how-many-baits'],
  ['remelt sprues', '#remelting'],
  ['which hook', '#which-hook'],
  ['does it float', '#float-or-sink'],
  ['clamp force', '#clamping'],
  ['injecter', '#which-injector'],
  ['yellow', '#fault-yellowing'],
  ['hydrogen chloride', '#overheating'],
  ['flash point', '#pour.flashPoint'],
  ['flashpoint margin', '#pour.flashMargin'],
  ['water steam erupts', '#no-water'],
  ['first aid burned', '#safety-gear'],
  ['postage', '#shipping-weight'],
  ['TT-OSIER-6', 'molds/osier-grub-6/'],
  ['tarn craw', 'molds/tarn-craw-2/'],
  ['lizard', 'molds/moss-lizard-1/'],
  ['grub six cavities', 'molds/osier-grub-6/'],
  ['thickest section', '#bait.thickestSection'],
  ['thinest part', '#bait.thinnestFeature'],
  ['touch the mold', '#safe-to-touch'],
  ['swirl', '#two-colours'],
  ['storage', '#cleaning'],
  ['newest revision', '#which-revision'],
])('"%s"', (query, anchor) => {
  test(`leads to ${anchor}`, () => {
    expect(paths(query).some((path) => path.endsWith(anchor))).toBe(true);
  });
});

describe('numbers with their units', () => {
  const one = {
    title: 'Wall',
    place: 'A',
    path: 'molds/a/#wall',
    words: '',
    text: '0.031 in (0.030 to 0.033) / 0.80\u00a0mm (0.76 to 0.84)',
  };
  const other = { title: 'Shot', place: 'A', path: 'molds/a/#shot', words: '', text: '0.8 fl oz / 24 mL' };
  const found = async (query: string) =>
    searched(await indexOf([one, other]), query).map(({ title }) => title);

  test.each([
    ['0.8 mm', ['Wall']],
    ['0.80mm', ['Wall']],
    ['1/32 in', ['Wall']],
    ['1/32"', ['Wall']],
    ['0.031 inches', ['Wall']],
    ['.8 fl oz', ['Shot']],
    ['0.8 fl oz', ['Shot']],
    ['24 ml', ['Shot']],
    ['24 mm', []],
    ['0.82 mm', ['Wall']],
    ['0.9 mm', []],
  ])('%s', async (query, titles) => {
    expect(await found(query)).toEqual(titles);
  });
});

test('one title on several sheets comes once, with all its places', () => {
  const [first] = searched(index, 'shoot cold');
  expect(first?.places.length).toBeGreaterThanOrEqual(9);
});

test('one title on many sheets lists two dozen of them and counts the others', async () => {
  const many = Array.from({ length: 30 }, (_, n) => ({
    title: 'How hot?',
    place: `Mold ${n}`,
    path: `molds/m${n}/#how-hot`,
    words: '',
    text: '',
  }));
  const [found] = searched(await indexOf(many), 'hot');
  expect([found!.places.length, found!.more]).toEqual([24, 6]);
  expect(searched(await indexOf(many.slice(0, 24)), 'hot')[0]!.more).toBe(0);
});

test('every word counts, wherever it stands: the sheet, the question or what is said', async () => {
  const all = ['Grub', 'Worm'].flatMap((name) =>
    ['cold', 'warm'].map((word): Findable => ({
      ...{ title: `Shoot it ${word}?`, place: name, path: `molds/${name}/#${word}`, words: '' },
      text: word === 'cold' ? 'It fills.' : `It wants a ${name === 'Grub' ? 'torch' : 'plate'}.`,
    })),
  );
  const small = await indexOf(all);
  const found = (query: string) =>
    searched(small, query).flatMap(({ places }) => places.map(({ path }) => path));
  expect(found('worm cold')).toEqual(['molds/Worm/#cold']);
  expect(found('torch')).toEqual(['molds/Grub/#warm']);
  expect(found('worm torch')).toContain('molds/Grub/#warm');
  expect(searched(small, 'worm plate')).toMatchObject([
    { title: 'Shoot it warm?', text: 'It wants a plate.' },
  ]);
  expect(found('')).toEqual([]);
  expect(found('the')).toEqual([]);
});
