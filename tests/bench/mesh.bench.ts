// Time to turn a binary STL of a million triangles into a welded, checked solid with volume and surface, beside a bare
// loop over typed arrays that does the same minimum, three's loader with its own merge, manifold-3d with its own, and
// ADMesh, a program in C, where it is installed. Exits 1 when core is over 1.5 of the bare loop or not the fastest other.
// Run: npx node tests/bench/mesh.bench.ts
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import Module from 'manifold-3d';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { mergeVertices } from 'three/examples/jsm/utils/BufferGeometryUtils.js';
import { meshSize } from '../../src/core/mesh/mass-properties.ts';
import { readMesh } from '../../src/core/mesh/read-mesh.ts';
import { isMeshFault } from '../../src/core/mesh/result.ts';
import { binaryStl, uvSphere } from '../support/solids.ts';
import { keep, spreadOf, type Spread } from './harness.ts';

/** Most that core may take, over the bare loop [1]. */
const LIMIT = 1.5;

interface Sums {
  readonly volume: number;
  /** Left out by a program that does not tell it. */
  readonly surface?: number;
}

/** Core's way, in mm so that all can be compared. */
function core(bytes: Uint8Array): Sums {
  const read = readMesh(bytes, { format: 'stl', unit: 'mm' });
  if (isMeshFault(read)) throw new Error(read.message);
  const { volume, surface } = meshSize(read.mesh);
  return { volume: volume * 1e9, surface: surface * 1e6 };
}

/** One loop after the other, nothing reported, no limits, nothing repaired: parse, weld, pair the edges, sum. */
function bare(bytes: Uint8Array): Sums {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(80, true);
  let size = 64;
  while (size < count) size *= 2;
  const table = new Int32Array(size).fill(-1);
  const bits = new Uint32Array((3 * size) / 2);
  const points = new Float32Array(bits.buffer);
  const corners = new Uint32Array(3 * count);
  let vertices = 0;
  for (let triangle = 0; triangle < count; triangle++) {
    let offset = 96 + 50 * triangle;
    for (let corner = 3 * triangle; corner < 3 * triangle + 3; corner++, offset += 12) {
      const x = view.getUint32(offset, true);
      const y = view.getUint32(offset + 4, true);
      const z = view.getUint32(offset + 8, true);
      let slot = Math.imul(x, 73856093) ^ Math.imul(y, 19349663) ^ Math.imul(z, 83492791);
      slot = (slot ^ (slot >>> 15)) & (size - 1);
      let point = table[slot]!;
      while (
        point >= 0 &&
        !(bits[3 * point] === x && bits[3 * point + 1] === y && bits[3 * point + 2] === z)
      ) {
        slot = (slot + 1) & (size - 1);
        point = table[slot]!;
      }
      if (point < 0) {
        point = vertices++;
        table[slot] = point;
        bits[3 * point] = x;
        bits[3 * point + 1] = y;
        bits[3 * point + 2] = z;
      }
      corners[corner] = point;
    }
  }
  if (!bareClosed(corners, vertices)) throw new Error('open');
  return bareSums(points, corners);
}

function bareClosed(corners: Uint32Array, vertices: number): boolean {
  const head = new Int32Array(vertices).fill(-1);
  const next = new Int32Array(corners.length);
  const far = new Int32Array(corners.length);
  let edges = 0;
  let unpaired = 0;
  for (let triangle = 0; triangle < corners.length; triangle += 3) {
    let from = corners[triangle + 2]!;
    for (let corner = 0; corner < 3; corner++) {
      const to = corners[triangle + corner]!;
      const low = from < to ? from : to;
      const high = from < to ? to : from;
      const seen = from < to ? 1 : 2;
      let edge = head[low]!;
      while (edge >= 0 && far[edge]! >> 2 !== high) edge = next[edge]!;
      if (edge >= 0) {
        if ((far[edge]! & 3) + seen !== 3) return false;
        far[edge] = far[edge]! | 3;
        unpaired--;
      } else {
        far[edges] = (high << 2) | seen;
        next[edges] = head[low]!;
        head[low] = edges++;
        unpaired++;
      }
      from = to;
    }
  }
  return unpaired === 0;
}

function bareSums(p: Float32Array, corners: Uint32Array): Sums {
  let volume = 0;
  let surface = 0;
  for (let corner = 0; corner < corners.length; corner += 3) {
    const i = 3 * corners[corner]!;
    const j = 3 * corners[corner + 1]!;
    const k = 3 * corners[corner + 2]!;
    const ax = p[i]!;
    const ay = p[i + 1]!;
    const az = p[i + 2]!;
    const bx = p[j]! - ax;
    const by = p[j + 1]! - ay;
    const bz = p[j + 2]! - az;
    const cx = p[k]! - ax;
    const cy = p[k + 1]! - ay;
    const cz = p[k + 2]! - az;
    const nx = by * cz - bz * cy;
    const ny = bz * cx - bx * cz;
    const nz = bx * cy - by * cx;
    volume += ax * nx + ay * ny + az * nz;
    surface += Math.sqrt(nx * nx + ny * ny + nz * nz);
  }
  return { volume: volume / 6, surface: surface / 2 };
}

/** three's loader and merge; it checks nothing and has no volume, so the bare sums are taken on its result. */
function three(bytes: Uint8Array): Sums {
  const soup = new STLLoader().parse(bytes.buffer as ArrayBuffer);
  soup.deleteAttribute('normal');
  const merged = mergeVertices(soup, 0);
  const points = merged.getAttribute('position').array as Float32Array;
  return bareSums(points, Uint32Array.from(merged.getIndex()!.array));
}

const wasm = await Module();
wasm.setup();

/** manifold-3d's own merge, check, volume and surface, on triangles read by a bare loop. */
function manifold(bytes: Uint8Array): Sums {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const corners = 3 * view.getUint32(80, true);
  const vertProperties = new Float32Array(3 * corners);
  for (let value = 0; value < vertProperties.length; value++) {
    const triangle = Math.floor(value / 9);
    vertProperties[value] = view.getFloat32(96 + 50 * triangle + 4 * (value - 9 * triangle), true);
  }
  const mesh = new wasm.Mesh({
    numProp: 3,
    vertProperties,
    triVerts: Uint32Array.from({ length: corners }, (_, i) => i),
  });
  mesh.merge();
  const solid = new wasm.Manifold(mesh);
  const sums = { volume: solid.volume(), surface: solid.surfaceArea() };
  solid.delete();
  return sums;
}

/** ADMesh's own check and volume of a file, which is closed and leaves it nothing to repair; the time holds its start and its reading, not the writing of the file. */
function admesh(file: string): Sums {
  const told = execFileSync('admesh', [file], { encoding: 'utf8' });
  const [, disconnected = '', volume = ''] =
    /Total disconnected facets\s*:\s*\d+\s+(\d+)[\s\S]*Volume\s*:\s*([\d.]+)/u.exec(told) ?? [];
  if (disconnected !== '0') throw new Error(`admesh: wants a closed mesh, got ${disconnected} open facets`);
  return { volume: Number(volume) };
}

const hasAdmesh = (): boolean => spawnSync('admesh', ['--version']).status === 0;

/** One way to do the work, and how often it is run. */
interface Entry {
  readonly name: string;
  readonly work: (bytes: Uint8Array) => Sums;
  readonly runs: number;
  /** How far its sums may be off [1]; left out, 1e-5. */
  readonly within?: number;
}

/** Median, least and greatest time of each way [ms], the ways taking turns so that a busy machine slows all alike. */
function meshTimes(bytes: Uint8Array, entries: readonly Entry[]): Map<string, Spread> {
  const expected = bare(bytes);
  const times = new Map(entries.map(({ name }) => [name, [] as number[]]));
  const most = Math.max(...entries.map(({ runs }) => runs));
  for (let run = -1; run < most; run++) {
    for (const { name, work, runs, within = 1e-5 } of entries) {
      if (run >= runs) continue;
      const start = performance.now();
      const { volume, surface } = work(bytes);
      const time = performance.now() - start;
      const off = (value: number | undefined, right = NaN) =>
        value !== undefined && !(Math.abs(value / right - 1) <= within);
      if (off(volume, expected.volume) || off(surface, expected.surface)) {
        throw new Error(
          `${name}: volume ${volume}, surface ${surface} do not agree with ${JSON.stringify(expected)}`,
        );
      }
      if (run >= 0) times.get(name)!.push(time);
    }
  }
  return new Map([...times].map(([name, list]) => [name, spreadOf(list)]));
}

/** Keeps the times of all ways on a sphere of a million triangles; true when core keeps its limits. */
function benchmark(folder: string): boolean {
  const bytes = binaryStl(uvSphere(0.05, 501, 1000));
  const file = join(folder, 'sphere.stl');
  writeFileSync(file, bytes);
  console.log(
    `${(bytes.length - 84) / 50} triangles, binary STL; ${cpus()[0]?.model ?? 'unknown'}, Node ${process.version}`,
  );
  const others: Entry[] = [
    { name: 'three', work: three, runs: 5 },
    { name: 'manifold-3d', work: manifold, runs: 5 },
  ];
  // It adds a million tetrahedra up in single precision.
  if (hasAdmesh()) others.push({ name: 'admesh', work: () => admesh(file), runs: 5, within: 1e-3 });
  else console.log('admesh is not installed: left out');
  const times = meshTimes(bytes, [
    { name: 'bare loop', work: bare, runs: 11 },
    { name: 'core', work: core, runs: 11 },
    ...others,
  ]);
  const median = (name: string) => times.get(name)?.median ?? NaN;
  for (const [what, spread] of times) {
    const ratio = spread.median / median('bare loop');
    keep({ bench: 'mesh', what, n: (bytes.length - 84) / 50, unit: 'ms', ratio, ...spread });
  }
  return (
    median('core') <= LIMIT * median('bare loop') && others.every(({ name }) => median('core') < median(name))
  );
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const folder = mkdtempSync(join(tmpdir(), 'partline-bench-'));
  try {
    if (!benchmark(folder)) process.exitCode = 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
