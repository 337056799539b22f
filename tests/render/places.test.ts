import { describe, expect, test } from 'vitest';
import { takeLight } from '../../src/render/blend.ts';
import { framed } from '../../src/render/camera.ts';
import { fragments } from '../../src/render/fragments.ts';
import { ALUMINIUM } from '../../src/render/material.ts';
import { BLOCK, leaders, placesOf, type Places } from '../../src/render/places.ts';
import { partOf, type Scene } from '../../src/render/scene.ts';
import { unlit } from '../../src/render/shading.ts';
import { somewhere } from '../../src/render/surface.ts';
import { box, uvSphere } from '../support/solids.ts';

const size = { width: 300, height: 200 };

function sceneOf(mesh = box([0.02, 0.02, 0.004])): Scene {
  const part = partOf(mesh, ALUMINIUM);
  const camera = framed(part.mesh.positions, { azimuth: -1, elevation: 0.8 }, size, 0.1);
  return { parts: [part], ground: -10, camera, size };
}

describe.each([
  ['a box', box([0.02, 0.02, 0.004])],
  ['a ball', uvSphere(0.01, 120, 240)],
])('places of %s', (_, mesh) => {
  const seen = fragments(sceneOf(mesh));
  const found = leaders(seen, size, 0.5);
  const { count, fragments: all, places, position, normal, blocks } = placesOf(seen, found, 0);

  test('are far fewer than fragments, and every fragment has one', () => {
    expect(all).toHaveLength(seen.count);
    expect(Math.max(...places)).toBe(count - 1);
    expect(count).toBeLessThan(seen.count / 4);
    expect(blocks.filter((place) => place >= 0).length).toBeGreaterThan(count / 4);
  });

  test('lie where their fragments lie, and face as they do', () => {
    all.forEach((fragment, i) => {
      let [apart, alike] = [0, 0];
      for (let axis = 0; axis < 3; axis++) {
        const [of, at] = [3 * fragment + axis, 3 * places[i]! + axis];
        apart = Math.max(apart, Math.abs(seen.position[of]! - position[at]!));
        alike += seen.normal[of]! * normal[at]!;
      }
      // Half a block is at most two pixels of 0.13 mm, seen aslant.
      expect(apart).toBeLessThan(1);
      expect(alike).toBeGreaterThan(0.98);
    });
  });
});

describe('light between blocks', () => {
  // Three rows alike: two whole blocks side by side, one that is not whole to their right; one place lies by itself.
  const none = new Float32Array();
  const lit = unlit({ count: 3, position: none, normal: none });
  lit.sky.set([0.25, 1.25, 9]);
  const places: Places = {
    count: 3,
    position: none,
    normal: none,
    fragments: new Uint32Array(),
    places: new Uint32Array(),
    blocks: Int32Array.of(0, 1, -1, 0, 1, -1, 0, 1, -1),
    columns: 3,
  };
  const light = (own: number, x: number) => {
    const place = somewhere();
    takeLight(place, places, lit, own, x, BLOCK + 1);
    return place.sky;
  };

  test('grows evenly from the middle of one to the middle of the next', () => {
    for (let x = BLOCK / 2; x < BLOCK; x++)
      expect(light(0, x)).toBeCloseTo(0.25 + (x + 0.5 - BLOCK / 2) / BLOCK, 6);
    for (let x = BLOCK; x < 1.5 * BLOCK; x++)
      expect(light(1, x)).toBeCloseTo(0.25 + (x + 0.5 - BLOCK / 2) / BLOCK, 6);
  });

  test('is that of the block towards what is no block, and beyond the last', () => {
    expect(light(0, 0)).toBeCloseTo(0.25, 6);
    expect(light(1, 2 * BLOCK - 1)).toBeCloseTo(1.25, 6);
  });

  test('leaves a fragment with a place of its own alone', () => {
    expect(light(2, BLOCK)).toBe(9);
  });
});
