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
