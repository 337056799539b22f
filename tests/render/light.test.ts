import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../src/core/mesh/mesh.ts';
import { encoded } from '../../src/render/exposure.ts';
import { framed } from '../../src/render/camera.ts';
import { lightsFor, openLight, type Light } from '../../src/render/lights.ts';
import { ALUMINIUM } from '../../src/render/material.ts';
import { partOf } from '../../src/render/scene.ts';
import { lightUp, unlit } from '../../src/render/shading.ts';
import { dot } from '../../src/render/vector.ts';
import { box, spindle } from '../support/solids.ts';

const metre = 1e-3;
const plate = (size: Vec3, min: Vec3) =>
  partOf(box(size.map((v) => v * metre) as never, min.map((v) => v * metre) as never), ALUMINIUM);
const at = (place: Vec3, normal: Vec3 = [0, 0, 1]) =>
  unlit({ count: 1, position: Float32Array.from(place), normal: Float32Array.from(normal) });

const view = { azimuth: -1, elevation: 0.8 };
const camera = framed(plate([100, 60, 20], [0, 0, 0]).mesh.positions, view, { width: 300, height: 200 }, 0.1);
const lights = lightsFor(camera);
const above: Light = { towards: [0, 0, 1], strength: 1, kind: 'key' };

/** Light on a level place from some of the lights. */
const levelLight = (some: (light: Light) => boolean) =>
  lights
    .filter((light) => light.kind !== 'paper' && some(light))
    .reduce((sum, { towards, strength }) => sum + strength * Math.max(0, towards[2]), 0);

describe('light on a place', () => {
  test('that nothing shades is all there is', () => {
    const lit = at([500, 0, 0]);
    lightUp([plate([10, 10, 10], [0, 0, 0])], lights, [{ lit, reach: 0 }]);
    expect(lit.sky[0]! + lit.key[0]!).toBeCloseTo(openLight(lights), 5);
  });

  test('on top of a plate is all there is: it does not shade itself', () => {
    const lit = at([50, 30, 20]);
    lightUp([plate([100, 60, 20], [0, 0, 0])], lights, [{ lit, reach: 0 }]);
    expect(lit.sky[0]! + lit.key[0]!).toBeCloseTo(openLight(lights), 5);
  });

  test('under a roof is what comes in from beyond its edges', () => {
    const lit = at([0, 0, 0]);
    lightUp([plate([400, 400, 10], [-200, -200, 30])], lights, [{ lit, reach: 0 }]);
    const beyond = (gap: number) =>
      levelLight(({ towards: [x, y, z] }) => Math.max(Math.abs(x), Math.abs(y)) * (gap / z) > 200);
    // A lookup starts 1.2 cells of 2 mm above the place.
    expect(lit.sky[0]! + lit.key[0]!).toBeGreaterThan(beyond(27.5) - 1e-5);
    expect(lit.sky[0]! + lit.key[0]!).toBeLessThan(beyond(30) + 1e-5);
    expect(beyond(30)).toBeLessThan(0.05 * openLight(lights));
  });

  test('at the foot of a high wall is that of the half of the sky before it', () => {
    const lit = at([5, 0, 0]);
    lightUp([plate([10, 800, 400], [-10, -400, -20])], lights, [{ lit, reach: 0 }]);
    expect(lit.sky[0]! + lit.key[0]!).toBeCloseTo(
      levelLight(({ towards }) => towards[0] > 0),
      5,
    );
  });

  test('reaches the floor of narrow grooves', () => {
    const [length, radius, groove] = [100, 5, 0.4];
    // Rounded ends, then a groove every four millimetres: half a millimetre deep, two and a half cells of a map wide.
    const shape = (share: number) => {
      const x = Math.abs(((share * length) % 4) - 2);
      const round = Math.sqrt(Math.min(1, 20 * share, 20 * (1 - share)));
      return (
        metre * round * (radius - (x < groove / 2 ? 0.25 * (1 + Math.cos((2 * Math.PI * x) / groove)) : 0))
      );
    };
    const rod = partOf(spindle(length * metre, shape, 1600, 60), ALUMINIUM);
    for (let x = 10; x <= 90; x += 4) {
      const lit = at([x, 0, radius - 0.5]);
      lightUp([rod], [above], [{ lit, reach: 0 }]);
      expect(lit.key[0]).toBeGreaterThan(0.75);
    }
  });

  test('falls with the cosine', () => {
    const tilted: Vec3 = [Math.sin(1), 0, Math.cos(1)];
    const lit = at([500, 0, 0], tilted);
    lightUp([plate([10, 10, 10], [0, 0, 0])], [above], [{ lit, reach: 0 }]);
    expect(lit.key[0]).toBeCloseTo(dot(tilted, [0, 0, 1]), 6);
  });
});

test('light through a slab as thick as its reach falls to a quarter', () => {
  const slab = plate([40, 40, 4], [0, 0, 0]);
  const lit = at([20, 20, 0], [0, 0, -1]);
  lightUp([slab], [above], [{ lit, reach: 4 }]);
  expect(lit.through[0]).toBeCloseTo(0.25, 3);
  expect(lit.key[0]).toBe(0);
});

// IEC 61966-2-1: linear light and signal, to four decimals.
test.each([
  [0, 0],
  [0.0031308, 0.0404],
  [0.214, 0.5],
  [0.0513, 0.2509],
])('linear light %f is signal %f', (light, signal) => {
  expect(encoded(light)).toBeCloseTo(signal, 2.6);
});

test('bright light is held back, never turned round', () => {
  const steps = Array.from({ length: 80 }, (_, i) => encoded(i / 20));
  expect(steps).toEqual(steps.toSorted((a, b) => a - b));
  expect(steps.at(-1)).toBeLessThanOrEqual(1);
});
