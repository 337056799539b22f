import { editDistance } from '../core/text/edit-distance.ts';

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
