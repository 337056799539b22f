import { expect, test } from 'vitest';
import { loadKernel } from '../../../src/core/solid/kernel.ts';
import { mergedBaits } from '../../../src/core/solid/merged-bait.ts';
import type { MoldTable } from '../../../src/core/solid/mold-table.ts';
import { ellipsoid } from '../../support/solids.ts';

test('a smooth bait is cut with fewer triangles, and holds nearly what it held', async () => {
  const mesh = ellipsoid([0.05, 0.008, 0.006], 64, 96);
  const kernel = await loadKernel();
  const { own, volume, triangles } = kernel.work((shop) => {
    const [bait] = mergedBaits(shop, { cavities: [{ mesh }] } as unknown as MoldTable);
    return { ...bait!, triangles: shop.mesh(bait!.whole).triangles.length };
  });
  expect(triangles).toBeLessThan(0.9 * mesh.triangles.length);
  expect(volume).not.toBe(own.volume);
  expect(Math.abs(volume / own.volume - 1)).toBeLessThan(5e-3);
});
