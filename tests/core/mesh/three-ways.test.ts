import Module from 'manifold-3d';
import { Vector3 } from 'three';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { describe, expect, test } from 'vitest';
import { meshSurface, meshVolume } from '../../../src/core/mesh/mass-properties.ts';
import type { Mesh } from '../../../src/core/mesh/mesh.ts';
import { readMesh } from '../../../src/core/mesh/read-mesh.ts';
import { isMeshFault } from '../../../src/core/mesh/result.ts';
import {
  binaryStl,
  box,
  capsule,
  ellipsoid,
  ellipticRing,
  frustum,
  superellipsoid,
  torus,
  uvSphere,
  wedge,
} from '../../support/solids.ts';

// Three independent paths from the same file: core; three's loader with its own vectors; manifold-3d's own merge and sums.
// The file is in mm, so all of them start from the same 32-bit numbers.

const wasm = await Module();
wasm.setup();

function byThree(bytes: Uint8Array) {
  const points = new STLLoader().parse(bytes.buffer as ArrayBuffer).getAttribute('position');
  let [volume, surface] = [0, 0];
  for (let i = 0; i < points.count; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => new Vector3().fromBufferAttribute(points, i + k)) as [
      Vector3,
      Vector3,
      Vector3,
    ];
    volume += a.dot(new Vector3().crossVectors(b, c)) / 6;
    surface += new Vector3().crossVectors(b.clone().sub(a), c.clone().sub(a)).length() / 2;
  }
  return { volume, surface };
}

function byManifold({ positions, triangles }: Mesh) {
  // Metres to mm gives back the 32-bit numbers of the file.
  const mesh = new wasm.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(positions, (value) => value * 1000),
    triVerts: triangles,
  });
  const solid = new wasm.Manifold(mesh);
  const sums = { status: solid.status(), volume: solid.volume(), surface: solid.surfaceArea() };
  solid.delete();
  return sums;
}

const SOLIDS: readonly (readonly [string, Mesh])[] = [
  ['box', box([0.02, 0.03, 0.04], [0.1, -0.05, 0.07])],
  ['wedge', wedge(0.05, 0.01, 0.004)],
  ['sphere', uvSphere(0.01, 24, 48)],
  ['capsule', capsule(0.003, 0.02, 16, 32)],
  ['frustum', frustum(0.005, 0.003, 0.012, 40)],
  ['ellipsoid', ellipsoid([0.03, 0.005, 0.004], 24, 48)],
  ['superellipsoid', superellipsoid([0.006, 0.004, 0.003], 4, 24, 48)],
  ['torus', torus(0.01, 0.003, 48, 24)],
  ['elliptic ring', ellipticRing(0.015, [0.002, 0.001], 48, 24)],
];

describe.each(SOLIDS)('%s', (_, mesh) => {
  test('core, three and manifold-3d agree to 1e-9', () => {
    const bytes = binaryStl(mesh);
    const read = readMesh(bytes, { format: 'stl', unit: 'mm' });
    if (isMeshFault(read)) throw new Error(read.message);
    const core = { volume: meshVolume(read.mesh) * 1e9, surface: meshSurface(read.mesh) * 1e6 };
    const [three, manifold] = [byThree(bytes), byManifold(read.mesh)];
    expect(manifold.status).toBe('NoError');
    for (const key of ['volume', 'surface'] as const) {
      expect(Math.abs(core[key] / three[key] - 1), `three, ${key}`).toBeLessThan(1e-9);
      expect(Math.abs(core[key] / manifold[key] - 1), `manifold-3d, ${key}`).toBeLessThan(1e-9);
    }
  });
});
