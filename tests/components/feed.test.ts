import { expect, test } from 'vitest';
import { sheetEvents } from '../../src/components/export/dates.ts';
import { jsonFeed } from '../../src/components/export/feed.ts';
import { band } from '../../src/core/quantity/band.ts';
import { accepted } from '../../src/sheet/ledger.ts';
import { fakeFigure, fakeSheet } from '../support/fake-sheet.ts';

const sheet = fakeSheet();
const first = accepted(null, sheet, { date: '2026-04-01', note: 'First published.', amend: false });
const clamp = fakeFigure('mold.clampForce', 'Clamping force', 'N', band(950, 400, 2100));
const stronger = fakeSheet({ figures: { ...sheet.figures, 'mold.clampForce': clamp } });
const second = accepted(first, stronger, { date: '2026-05-01', note: 'Clamp harder.', amend: false });

test('every accepted step is an event, newest first; changes that safety hangs on are marked', () => {
  const events = sheetEvents([{ ...stronger, ledger: second }]);
  expect(events.map(({ kind, date, safety }) => ({ kind, date, safety }))).toEqual([
    { kind: 'revised', date: '2026-05-01', safety: true },
    { kind: 'new', date: '2026-04-01', safety: false },
  ]);
  expect(events[0]?.changes).toEqual([
    {
      key: 'mold.clampForce',
      label: 'Clamping force',
      from: expect.stringMatching(/^200\slbf/u) as string,
      to: expect.stringMatching(/^21\d\slbf/u) as string,
    },
  ]);
});

test('the feed tells old and new', () => {
  const text = jsonFeed(sheet.shop, [{ ...stronger, ledger: second }]);
  expect(text).toMatch(/Revised, figures of safety among them: Capsule 4/u);
  expect(text).toMatch(/Clamp harder\. Clamping force: 21\d\slbf[^"]*before 200\slbf/u);
});

test('a sheet that was never accepted is new on the day of its release', () => {
  expect(sheetEvents([sheet])).toMatchObject([{ kind: 'new', date: '2026-04-01', changes: [] }]);
});
