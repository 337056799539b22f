import { expect, test } from 'vitest';
import { catalogueCsv } from '../../src/components/export/csv.ts';
import { lastChanged, sheetEvents } from '../../src/components/export/dates.ts';
import { atomFeed, jsonFeed } from '../../src/components/export/feed.ts';
import { sheetMarkdown } from '../../src/components/export/markdown.ts';
import { insertFacts } from '../../src/components/insert/facts.ts';
import { qrCode } from '../../src/components/insert/qr.ts';
import { band } from '../../src/core/quantity/band.ts';
import { fakeFigure, fakeSheet } from '../support/fake-sheet.ts';

test('a text that a spreadsheet would take for a formula stays a text', () => {
  for (const start of ['=', '+', '-', '@', '\t', '\r']) {
    const title = `${start}HYPERLINK("https://a.example")`;
    const [, row = ''] = catalogueCsv([fakeSheet({ title })]).split('\r\n');
    expect([start, row.includes(`"'${start}HYPERLINK`) || row.includes(`,'${start}`)]).toEqual([start, true]);
  }
});

test('a comma and a quote in a name do not shift the columns', () => {
  const csv = catalogueCsv([fakeSheet({ title: 'Grub, "fat"' })]);
  expect(csv).toContain('"Grub, ""fat"""');
});

test('days come from the catalogue: first published, then every accepted change', () => {
  const sheet = fakeSheet({ ledger: null });
  expect(sheetEvents([sheet])).toMatchObject([{ kind: 'new', date: '2026-04-01' }]);
  expect(lastChanged(sheet)).toBe('2026-04-01');
  const feed = atomFeed(sheet.shop, [sheet]);
  expect(feed).toContain('<updated>2026-04-01T12:00:00Z</updated>');
  expect(feed).toBe(atomFeed(sheet.shop, [sheet]));
});

test('a name with markup is a text in feed and Markdown', () => {
  const sheet = fakeSheet({ title: '<b>Grub</b> & [fat](x) *one*', ledger: null });
  expect(atomFeed(sheet.shop, [sheet])).toContain('<title>New: &lt;b&gt;Grub&lt;/b&gt; &amp; [fat]');
  expect(jsonFeed(sheet.shop, [sheet])).toContain('<b>Grub</b> & [fat](x)');
  expect(jsonFeed(sheet.shop, [sheet])).not.toContain('content_html');
  expect(sheetMarkdown(sheet)).toContain('# \\<b\\>Grub\\</b\\> & \\[fat\\](x) \\*one\\*');
});

test('the Markdown twin has every caution, first and whole', () => {
  const sheet = fakeSheet();
  const text = sheetMarkdown(sheet);
  for (const { signal, consequence, avoid } of sheet.cautions) {
    expect(text).toContain(`### ${signal} (`);
    for (const words of [consequence, ...avoid]) expect(text).toContain(words);
  }
  expect(text.indexOf('## Cautions')).toBeLessThan(text.indexOf('## Figures'));
});

test('the insert gives its figures in both unit systems', () => {
  const sheet = fakeSheet();
  const rest = fakeFigure('heat.safeToTouch', 'Rest', 'min', band(22, 0, 146));
  const facts = insertFacts({ ...sheet, figures: { ...sheet.figures, [rest.key]: rest } });
  const shot = facts.find(({ name }) => name === 'Shot, hot');
  expect([shot?.value, shot?.other]).toEqual([
    expect.stringContaining('fl oz'),
    expect.stringContaining('mL'),
  ]);
  // A wait is told by its safe end: 22 min, from 0 to 146.
  expect(facts.find(({ name }) => name === 'Touch bare after')).toMatchObject({
    value: '146\u00a0min',
    other: 'at the longest',
  });
});

// Version 5 of ISO/IEC 18004 has 37 modules a side and holds 60 bytes at level Q; four quiet modules on each side.
test('an address of 47 letters takes a code of 37 modules, level Q', () => {
  expect(qrCode('https://thistledown.example/molds/osier-grub-6/').side).toBe(37 + 8);
});
