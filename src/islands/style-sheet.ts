/** Style sheets that were asked for. */
const asked = new Map<string, Promise<void>>();

/**
 * Adds a style sheet to the page, once; a part of a page that is fetched when it is asked for brings its own.
 *
 * @param address - of the style sheet
 * @returns settles when it has come, rejects when it cannot
 */
export function withStyles(address: string): Promise<void> {
  const known = asked.get(address);
  if (known) return known;
  const link = document.createElement('link');
  link.rel = 'stylesheet';
  link.href = address;
  const come = new Promise<void>((resolve, reject) => {
    link.addEventListener('load', () => resolve());
    link.addEventListener('error', () => reject(new Error(`no style sheet at ${address}`)));
  });
  document.head.append(link);
  asked.set(address, come);
  return come;
}
