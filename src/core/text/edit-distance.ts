/**
 * Edits between two words: letters added, dropped, changed, or two neighbours swapped.
 *
 * @param a - one word
 * @param b - another
 * @returns number of edits [1], 0 for equal words
 *
 * Valid: any two texts, compared by UTF-16 units.
 * Cost: length of `a` times length of `b`.
 * Source: Wagner & Fischer, J. ACM 21 (1974) 168, with the neighbours of Damerau, Commun. ACM 7 (1964) 171; from memory.
 */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (last[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      row.push(
        Math.min(
          (last[j] ?? 0) + 1,
          (row[j - 1] ?? 0) + 1,
          change,
          swapped ? (before[j - 2] ?? 0) + 1 : Infinity,
        ),
      );
    }
    [before, last] = [last, row];
  }
  return last[b.length] ?? 0;
}
