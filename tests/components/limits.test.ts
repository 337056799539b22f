import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readings } from '../../src/components/figure/limits.ts';

test('US and metric both, the shop’s own first', () => {
  const length = { value: 100, low: 99, high: 101, unit: 'mm' } as const;
  expect(readings(length, 'us').map(({ system }) => system)).toEqual(['us', 'metric']);
  expect(readings(length, 'metric').map(({ system }) => system)).toEqual(['metric', 'us']);
});

test('one reading where both systems share the unit', () => {
  expect(readings({ value: 90, low: 60, high: 120, unit: 's' }, 'us')).toMatchObject([
    { system: 'both', value: '90', range: { low: '60', high: '120' } },
  ]);
});

test('a banded quantity never reads as a single number', () => {
  const edge = fc.double({ min: 0.01, max: 5000, noNaN: true });
  fc.assert(
    fc.property(fc.tuple(edge, edge, edge), fc.constantFrom('mm', 'mL', 'Cel', 's', '1'), (numbers, unit) => {
      const [low = 0, value = 0, high = 0] = [...numbers].sort((a, b) => a - b);
      fc.pre(low < high);
      for (const reading of readings({ value, low, high, unit }, 'us')) expect(reading.range).not.toBeNull();
    }),
    { seed: 20260314 },
  );
});
