import { describe, expect, test } from 'vitest';

/** One published or closed-form value: inputs by name, expected results by name, how well it is known. */
export interface PublishedCheck {
  readonly id: string;
  readonly source: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: Readonly<Record<string, number>>;
  readonly tolerance: { readonly rel?: number; readonly abs?: number };
}

/** Inputs as plain numbers; a missing one comes out as NaN and fails the row. */
export type Numbers = (name: string) => number;

/** Results of a row by the names under `expected`. */
export type Evaluator = (input: Numbers, row: PublishedCheck) => Record<string, number>;

/** Largest allowed difference of a row. */
export function allowed(row: PublishedCheck, expected: number): number {
  return row.tolerance.abs ?? (row.tolerance.rel ?? 0) * Math.abs(expected);
}

/**
 * One test a row: the evaluator whose key starts the row's id must yield every expected number. A row without an
 * evaluator, or an evaluator without a result, fails.
 */
export function walkPublished(
  title: string,
  rows: readonly PublishedCheck[],
  evaluators: Record<string, Evaluator>,
) {
  describe(title, () => {
    test.each(rows.map((row) => ({ row, id: row.id, source: row.source })))('$id ($source)', ({ row }) => {
      const key = Object.keys(evaluators)
        .filter((prefix) => row.id.startsWith(prefix))
        .sort((a, b) => b.length - a.length)[0];
      const evaluator = key === undefined ? undefined : evaluators[key];
      expect(evaluator, `no evaluator for ${row.id}`).toBeDefined();
      const results = evaluator?.((name) => Number(row.inputs[name] ?? NaN), row) ?? {};
      for (const [name, expected] of Object.entries(row.expected)) {
        const difference = Math.abs((results[name] ?? NaN) - expected);
        expect(difference, `${name}: ${results[name]} against ${expected}`).toBeLessThanOrEqual(
          allowed(row, expected),
        );
      }
    });
  });
}
