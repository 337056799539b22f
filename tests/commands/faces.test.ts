import { readdir, readFile } from 'node:fs/promises';
import { expect, test } from 'vitest';
import { FACES_FOLDER, faceFiles } from '../../src/commands/faces.ts';

test('the committed faces are what the generator writes, byte for byte, with their licence', async () => {
  const written = await faceFiles();
  expect((await readdir(FACES_FOLDER)).sort()).toEqual([...written.keys()].sort());
  for (const [name, bytes] of written)
    expect(Buffer.compare(await readFile(new URL(name, FACES_FOLDER)), bytes), name).toBe(0);
  expect(new TextDecoder().decode(written.get('LICENSE.txt'))).toContain(
    'SIL Open Font License, Version 1.1',
  );
});

/** Letters that a rule is for, as its `unicode-range` has them. */
function lettersOf(rule: string): number[] {
  const [, ranges = ''] = /unicode-range: ([^;]*);/u.exec(rule) ?? [];
  return [...ranges.matchAll(/U\+([0-9a-f]+)(?:-([0-9a-f]+))?/gu)].flatMap(([, from = '', to = from]) => {
    const [first, last] = [Number.parseInt(from, 16), Number.parseInt(to, 16)];
    return Array.from({ length: last - first + 1 }, (_, i) => first + i);
  });
}

test('the two cuts of a face share no letter and hold every one of Latin-1', async () => {
  const styles = await readFile(new URL('faces.css', FACES_FOLDER), 'utf8');
  const rules = styles.split('@font-face').filter((rule) => rule.includes('unicode-range'));
  expect(rules).toHaveLength(6);
  // Printable characters of ISO/IEC 8859-1: 0x20 to 0x7E and 0xA0 to 0xFF, 95 and 96 of them.
  const wanted = Array.from({ length: 0x100 }, (_, code) => code).filter(
    (code) => (code >= 0x20 && code <= 0x7e) || code >= 0xa0,
  );
  expect(wanted).toHaveLength(95 + 96);
  for (const name of ['barlow-400', 'barlow-600', 'barlow-condensed-600']) {
    const cuts = rules.filter((rule) => new RegExp(`/${name}(?:-more)?\\.woff2`, 'u').test(rule));
    const letters = cuts.flatMap(lettersOf);
    expect(cuts).toHaveLength(2);
    expect(new Set(letters).size).toBe(letters.length);
    expect(wanted.filter((code) => !letters.includes(code))).toEqual([]);
  }
});
