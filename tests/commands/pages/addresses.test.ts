import { expect, test } from 'vitest';
import { fileOf, inOrder, pathOf } from '../../../src/commands/pages/addresses.ts';

test.each([
  ['', 'page', '/', '/', 'index.html'],
  ['/', 'page', '/shop', '/shop/', 'index.html'],
  ['/molds/peg-2', 'page', '/', '/molds/peg-2/', 'molds/peg-2/index.html'],
  ['/molds/peg-2/', 'page', '/shop/', '/shop/molds/peg-2/', 'molds/peg-2/index.html'],
  ['/404', 'page', '/', '/404/', '404.html'],
  ['/search.json', 'endpoint', '/shop', '/shop/search.json', 'search.json'],
  ['/schema/spec.json', 'endpoint', '/', '/schema/spec.json', 'schema/spec.json'],
] as const)('"%s" is asked for and filed', (pathname, kind, base, path, file) => {
  expect([pathOf(pathname, kind, base), fileOf(pathname, kind)]).toEqual([path, file]);
});

test('pages of one mold follow one another, those of the whole catalogue come last', () => {
  const all = [
    '/',
    '/molds/a/insert',
    '/molds/b/insert',
    '/baits/a',
    '/molds/a',
    '/molds/b/',
    '/search.json',
  ];
  expect(inOrder(all.map((pathname) => ({ pathname }))).map(({ pathname }) => pathname)).toEqual([
    '/molds/a/insert',
    '/molds/a',
    '/molds/b/insert',
    '/molds/b/',
    '/baits/a',
    '/',
    '/search.json',
  ]);
});
