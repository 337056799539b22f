/** What a function returns, worked out at its first call. */
export function once<Result>(work: () => Result): () => Result {
  let kept: { readonly result: Result } | undefined;
  return () => (kept ??= { result: work() }).result;
}
