/**
 * Puts work off until what the reader just did has been painted.
 *
 * @param work - done once, however often it was asked for before the paint
 * @returns asks for it
 */
export function afterPaint(work: () => void): () => void {
  let asked = false;
  return () => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => {
      setTimeout(() => {
        asked = false;
        work();
      });
    });
  };
}
