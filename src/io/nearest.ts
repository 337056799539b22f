/** Edits between two words: letters added, dropped, changed, or two neighbours swapped. */
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

/** The known word that `word` was probably meant to be, or nothing when none is near. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  const short = word.slice(0, 80);
  const allowed = Math.max(2, Math.floor(short.length / 3));
  const ranked = known
    .map((candidate) => ({ candidate, edits: editDistance(short.toLowerCase(), candidate.toLowerCase()) }))
    .filter(({ edits }) => edits <= allowed)
    .sort((a, b) => a.edits - b.edits);
  return ranked[0]?.candidate;
}

/** "did you mean …?" where a known word is near, and the known ones; never an endless list. */
export function suggestion(word: string, known: readonly string[], what: string): string {
  if (known.length === 0) return `there are no ${what} yet; add one or take this out`;
  const meant = nearest(word, known);
  const listed = known.slice(0, 12).join(', ') + (known.length > 12 ? ', …' : '');
  return meant === undefined
    ? `choose from ${what}: ${listed}`
    : `did you mean "${meant}"? ${what}: ${listed}`;
}
