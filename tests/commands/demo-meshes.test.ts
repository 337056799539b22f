import { readFile } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';
import { DEMO_SHAPES } from '../../src/commands/demo-meshes.ts';
import { binaryStl, demoMesh } from '../../src/commands/demo-meshes/shape.ts';
import { readMesh } from '../../src/core/mesh/read-mesh.ts';

describe.each(DEMO_SHAPES)('$id', (shape) => {
  test('the committed file is what the generator writes, byte for byte', async () => {
    const committed = await readFile(new URL(`../../content/meshes/${shape.id}.stl`, import.meta.url));
    const written = binaryStl(await demoMesh(shape));
    expect(Buffer.compare(committed, written)).toBe(0);
    expect(written.length).toBeLessThan(700_000);
  });

  test('it is read back without repairs', async () => {
    const read = readMesh(binaryStl(await demoMesh(shape)), { format: 'stl', unit: 'mm' });
    expect(read).toMatchObject({ repairs: [] });
  });
});
