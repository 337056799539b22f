import { describe, expect, test } from 'vitest';
import { volumeAhead } from '../../../src/core/shot/split-volume.ts';
import { meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import { box, ellipsoid, flipped, mapped, torus } from '../../support/solids.ts';

describe('volume ahead of a station', () => {
  test('box: area times length, exactly', () => {
    const mesh = box([0.1, 0.02, 0.01], [0.003, -0.004, 0.002]);
    for (const at of [0.003, 0.02, 0.0531, 0.103]) {
      expect(volumeAhead(mesh, at)).toBeCloseTo((at - 0.003) * 2e-4, 15);
    }
    expect(volumeAhead(mesh, -1)).toBe(0);
    expect(volumeAhead(mesh, 1)).toBeCloseTo(2e-5, 15);
  });

  test('half an ellipsoid, and a cap by πbc(2/3 − t + t³/3)·a within a fine mesh’s error', () => {
    const [a, b, c] = [0.05, 0.01, 0.008];
    const mesh = ellipsoid([a, b, c], 96, 192);
    expect(volumeAhead(mesh, 0)).toBeCloseTo(meshVolume(mesh) / 2, 12);
    const t = 0.4;
    const cap = Math.PI * a * b * c * (2 / 3 - t + t ** 3 / 3);
    expect(Math.abs(volumeAhead(mesh, -t * a) / cap - 1)).toBeLessThan(2e-3);
  });

  test('ahead and behind add up to the whole, also of a ring that the plane cuts twice', () => {
    const mesh = torus(0.03, 0.006, 48, 24);
    const mirrored = flipped(mapped(mesh, ([x, y, z]) => [-x, y, z]));
    for (const at of [-0.031, -0.01, 0.004, 0.029]) {
      expect(volumeAhead(mesh, at) + volumeAhead(mirrored, -at)).toBeCloseTo(meshVolume(mesh), 15);
    }
  });
});
