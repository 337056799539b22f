import { plasticOf } from '../../src/render/colours.ts';
import { ALUMINIUM } from '../../src/render/material.ts';
import { framed } from '../../src/render/camera.ts';
import { rendered } from '../../src/render/render.ts';
import { partOf } from '../../src/render/scene.ts';
import { torus } from '../support/solids.ts';

// Run by `npx node tests/bench/picture.bench.ts`: prints medians, exits 1 when the limit is passed.

const RUNS = 7;
const SIZE = { width: 1200, height: 800 };
/** Of one core, for a picture of 30 000 triangles [s]. */
const LIMIT = 0.6;

const mesh = torus(0.03, 0.012, 150, 100);
const materials = { plastic: plasticOf('pumpkin'), metal: ALUMINIUM };

let passed = true;
console.log(`${mesh.triangles.length / 3} triangles, ${SIZE.width} × ${SIZE.height} px`);
for (const [name, material] of Object.entries(materials)) {
  const times: number[] = [];
  let covered = 0;
  for (let run = -2; run < RUNS; run++) {
    const start = process.cpuUsage();
    const part = partOf(mesh, material);
    const camera = framed(part.mesh.positions, { azimuth: -1, elevation: 0.8 }, SIZE, 0.1);
    const { data } = rendered({ parts: [part], ground: -12, camera, size: SIZE });
    const { user, system } = process.cpuUsage(start);
    covered = data.filter((value, i) => i % 4 === 3 && value === 255).length;
    if (run >= 0) times.push((user + system) / 1e6);
  }
  const sorted = times.toSorted((a, b) => a - b);
  const median = sorted[sorted.length >> 1]!;
  passed &&= median <= LIMIT && covered > 100_000;
  console.log(
    `${name}: ${median.toFixed(2)} s of one core (${sorted[0]!.toFixed(2)} to ${sorted.at(-1)!.toFixed(2)}), ${covered} px covered, limit ${LIMIT} s`,
  );
}
if (!passed) process.exitCode = 1;
