import { describe, expect, test } from 'vitest';
import type { Trial } from '../../src/schema/collections.ts';
import { lastTrial, testedOnset, trialStudy } from '../../src/sheet/trial-study.ts';
import { actionStudy } from '../../src/sheet/action-study.ts';
import { bait, plastisol } from '../support/fake-entries.ts';
import { fakeSheet } from '../support/fake-sheet.ts';

const { geometry } = fakeSheet();
const family = bait.revisions.map((revision) => ({ revision, geometry, readings: [] }));
const tail = geometry.features[0]!;
const onset = actionStudy(geometry, tail, plastisol).onset.from;

const trial = (id: string, changes: Partial<Trial>) => ({
  id,
  date: '2026-03-20',
  bait: 'capsule',
  revision: 'b',
  plastisol: 'medium',
  colour: 'pearl',
  clarity: 'stained' as const,
  rig: 'Texas' as const,
  retrieve: onset.value * 1.1,
  features: [{ name: 'tail', moved: 'moved' as const }],
  passed: true,
  fish: false,
  ...changes,
});
const study = (...trials: ReturnType<typeof trial>[]) => trialStudy(bait, trials, [plastisol], family);

describe('agreement of water and rule', () => {
  test('moving above the nominal onset agrees; still there lies inside the band; still far above contradicts', () => {
    const still = [{ name: 'tail', moved: 'did not move' as const }];
    const { trials, agreement, counted } = study(
      trial('a', {}),
      trial('b', { features: still }),
      trial('c', { features: still, retrieve: onset.high * 1.2 }),
      trial('d', { features: still, retrieve: onset.low / 2 }),
      trial('e', { features: [{ name: 'tail', moved: 'moved only fast' }], retrieve: onset.value / 1.1 }),
    );
    expect(trials.map(({ features }) => features[0]?.agreement)).toEqual([
      'agrees',
      'inside the band',
      'contradicts',
      'agrees',
      'agrees',
    ]);
    expect(agreement).toEqual({ agrees: 3, 'inside the band': 1, contradicts: 1 });
    expect(counted).toBe(
      'The rule was right for 3 of 5 tested parts; 1 within its band and 1 against it. Where they differ, the water is right.',
    );
  });

  test('tests of other baits and of revisions that are not shown are left out', () => {
    expect(study(trial('a', { bait: 'other' }), trial('b', { revision: 'z' })).trials).toEqual([]);
  });

  test('a failed test stays, with what was changed after it', () => {
    const { trials } = study(trial('a', { revision: 'a', passed: false }), trial('b', {}));
    expect(trials.map(({ after }) => after?.id ?? null)).toEqual(['b', null]);
  });
});

describe('onset by the water', () => {
  test('the rule is put right as far as the tests of the revision ask', () => {
    const below = testedOnset(study(trial('a', { retrieve: onset.value * 0.7 })), 'b', 'tail');
    expect(below?.factor).toBeCloseTo(0.7, 9);
    const fits = testedOnset(study(trial('a', { retrieve: onset.value * 1.4 })), 'b', 'tail');
    expect(fits?.factor).toBe(1);
    const still = [{ name: 'tail', moved: 'did not move' as const }];
    const above = testedOnset(
      study(trial('a', { retrieve: onset.value * 1.5, features: still })),
      'b',
      'tail',
    );
    expect(above?.factor).toBeCloseTo(1.5, 9);
  });

  test('tests of another revision stand in by the ratio law, and own ones come first', () => {
    const other = trial('a', { revision: 'a', retrieve: onset.value * 0.5 });
    expect(testedOnset(study(other), 'b', 'tail')?.factor).toBeCloseTo(0.5, 9);
    const own = trial('b', { retrieve: onset.value * 0.8 });
    expect(testedOnset(study(other, own), 'b', 'tail')?.factor).toBeCloseTo(0.8, 9);
    expect(testedOnset(study(), 'b', 'tail')).toBeNull();
  });
});

test('the last test of a revision goes by date, then by id', () => {
  const trials = [
    trial('z', { date: '2026-01-01' }),
    trial('b', { date: '2026-02-01', passed: false }),
    trial('a', { date: '2026-02-01' }),
  ];
  expect(lastTrial(trials, 'b')?.id).toBe('b');
  expect(lastTrial(trials, 'a')).toBeNull();
});

test('colour advice: what was seen there before, else common practice', () => {
  const { colours } = study(
    trial('a', { colour: 'pumpkin', seen: 'hardly' }),
    trial('b', { colour: 'chartreuse', seen: 'well' }),
    trial('c', { clarity: 'muddy', seen: 'not', colour: 'smoke' }),
  );
  expect(colours).toEqual([
    'In stained water chartreuse could be seen well; pumpkin could hardly be seen; test the next one in chartreuse.',
    'In muddy water smoke could hardly be seen; only white, chartreuse or black can be watched, and only near the surface.',
  ]);
});
