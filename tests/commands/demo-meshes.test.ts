import { readFile } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';
import { DEMO_FILES, demoFile } from '../../src/commands/demo-meshes.ts';
import { demoMesh } from '../../src/commands/demo-meshes/shape.ts';
import { meshVolume } from '../../src/core/mesh/mass-properties.ts';
import { readMesh } from '../../src/core/mesh/read-mesh.ts';

describe.each(DEMO_FILES)('$shape.id as $format', (file) => {
  test('the committed file is what the generator writes, byte for byte', async () => {
    const name = `${file.shape.id}.${file.format}`;
    const committed = await readFile(new URL(`../../content/meshes/${name}`, import.meta.url));
    const written = await demoFile(file);
    expect(Buffer.compare(committed, written)).toBe(0);
    expect(written.length).toBeLessThan(700_000);
  });

  test('it is read back without repairs, as large as it was drawn', async () => {
    const unit = file.format === 'stl' ? ('mm' as const) : undefined;
    const read = readMesh(await demoFile(file), { format: file.format, unit });
    if (!('mesh' in read)) throw new Error(read.message);
    expect(read.repairs).toEqual([]);
    expect(read.unit).toBe('mm');
    // Both files hold a hundredth of a micrometre or so.
    expect(meshVolume(read.mesh) / meshVolume(await demoMesh(file.shape))).toBeCloseTo(1, 6);
  });
});
