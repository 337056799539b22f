import { plasticOf } from '../../src/render/colours.ts';
import { ALUMINIUM } from '../../src/render/material.ts';
import { framed } from '../../src/render/camera.ts';
import { rendered } from '../../src/render/render.ts';
import { partOf } from '../../src/render/scene.ts';
import { torus } from '../support/solids.ts';
import { keep, timed, verdict } from './harness.ts';

// Run by `npx node tests/bench/picture.bench.ts`: keeps medians, exits 1 when the limit is passed.

const RUNS = 7;
const SIZE = { width: 810, height: 540 };
/** Of one core, for a picture of 30 000 triangles [s]. */
const LIMIT = 0.2;

const mesh = torus(0.03, 0.012, 150, 100);
const materials = { plastic: plasticOf('pumpkin'), metal: ALUMINIUM };

console.log(`${mesh.triangles.length / 3} triangles, ${SIZE.width} × ${SIZE.height} px`);
const covered: Record<string, number> = {};
const draw = (name: string, material: (typeof materials)[keyof typeof materials]) => () => {
  const part = partOf(mesh, material);
  const camera = framed(part.mesh.positions, { azimuth: -1, elevation: 0.8 }, SIZE, 0.1);
  const { shown } = rendered({ parts: [part], ground: -12, camera, size: SIZE });
  covered[name] = shown.data.filter((value, i) => i % 4 === 3 && value === 255).length;
};
const tasks = Object.entries(materials).map(([name, material]) => [name, draw(name, material)] as const);
const times = await timed(Object.fromEntries(tasks), { runs: RUNS, clock: 'cpu' });
for (const [what, spread] of Object.entries(times))
  keep({ bench: 'picture', what, n: mesh.triangles.length / 3, unit: 'ms', ...spread });
verdict(
  Object.fromEntries(
    Object.entries(times).flatMap(([name, { median }]) => [
      [`${name} within ${LIMIT} s of one core`, median <= LIMIT * 1e3],
      [`${name} covers its picture`, (covered[name] ?? 0) > 70_000],
    ]),
  ),
);
