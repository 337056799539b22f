import initialise, { type CrossSection, type Manifold, type ManifoldToplevel } from 'manifold-3d';
import type { Mesh, Vec2, Vec3 } from '../mesh/mesh.ts';
import type { Outline } from '../section/geometry.ts';

/** Kernel units a metre: inside, lengths are millimetres, where the kernel's tolerances are at home. */
const SCALE = 1e3;

declare const inside: unique symbol;

/** A solid held by the kernel; it lives until the work that made it ends. */
export interface Solid {
  readonly [inside]: true;
}

/** How a solid is set down: mirrored across y = 0 first, then turned about z, then shifted. */
export interface Placement {
  readonly mirrored?: boolean;
  /** Counter-clockwise seen from +z [rad]. */
  readonly turn?: number;
  /** Where the origin goes [m]. */
  readonly shift?: Vec3;
}

/** Single is what the kernel takes and gives at its door, 10 nm in a block; double costs as much again. */
export type Precision = 'single' | 'double';

/** What the kernel does with solids. Lengths go in and come out in metres, areas in m², volumes in m³. */
export interface Workshop {
  /** A solid from a closed mesh; refuses one that is open, inconsistent or inside out. */
  readonly solid: (mesh: Mesh, precision?: Precision) => Solid;
  readonly box: (min: Vec3, max: Vec3) => Solid;
  /** A round bar or frustum between two points; its flats enclose the circle's own area, so volumes are exact. */
  readonly cone: (from: Vec3, to: Vec3, radii: readonly [number, number]) => Solid;
  readonly ball: (centre: Vec3, radius: number) => Solid;
  readonly place: (solid: Solid, placement: Placement) => Solid;
  readonly union: (solids: readonly Solid[]) => Solid;
  readonly intersection: (a: Solid, b: Solid) => Solid;
  readonly difference: (from: Solid, tools: readonly Solid[]) => Solid;
  /** The part with normal · p ≥ offset. */
  readonly trim: (solid: Solid, normal: Vec3, offset: number) => Solid;
  /** Fewer triangles, no surface point moved by more than `tolerance`. */
  readonly simplify: (solid: Solid, tolerance: number) => Solid;
  /** The bodies that do not touch one another. */
  readonly pieces: (solid: Solid) => Solid[];
  readonly volume: (solid: Solid) => number;
  readonly surface: (solid: Solid) => number;
  readonly mesh: (solid: Solid, precision?: Precision) => Mesh;
  /** A mesh in single precision, but for the corners that it has of others: those are theirs to the last bit. */
  readonly meshAfter: (solid: Solid, others: readonly Mesh[]) => Mesh;
  /** Outline of what closed loops in a plane wind about at least once, simplified by no more than `tolerance`. */
  readonly outline: (loops: Outline, tolerance: number) => Outline;
  /** What is left of an outline without others, simplified by no more than `tolerance`. */
  readonly outlineLess: (from: Outline, tools: Outline, tolerance: number) => Outline;
}

/** The loaded kernel: runs work and frees everything the work made. */
export interface Kernel {
  readonly work: <Result>(task: (shop: Workshop) => Result) => Result;
}

const FAULTS: Partial<Record<string, string>> = {
  NotManifold: 'its surface is open or two triangles disagree on which side is out',
  NonFiniteVertex: 'a corner is not a finite number',
  VertexOutOfBounds: 'a triangle names a corner that does not exist',
};

let loading: Promise<Kernel> | undefined;

/**
 * Loads the solid kernel (manifold-3d, WASM) on first use; later calls share it.
 *
 * @returns the kernel; what it takes and gives is in metres, m² and m³
 *
 * Cost: about 50 ms once.
 * Source: E. Lalish and others, manifold-3d 3.5 (robust mesh booleans after J. Smith, Towards robust inexact
 * geometric computation, 2009).
 */
export function loadKernel(): Promise<Kernel> {
  loading ??= initialise().then((wasm) => {
    wasm.setup();
    return { work: (task) => runAndFree(wasm, task) };
  });
  return loading;
}

function runAndFree<Result>(wasm: ManifoldToplevel, task: (shop: Workshop) => Result): Result {
  const made = new Set<Manifold>();
  try {
    return task(
      workshop(wasm, (manifold) => {
        made.add(manifold);
        return manifold as unknown as Solid;
      }),
    );
  } finally {
    for (const manifold of made) manifold.delete();
  }
}

const raw = (solid: Solid): Manifold => solid as unknown as Manifold;
const scaled = (v: Vec3): [number, number, number] => [v[0] * SCALE, v[1] * SCALE, v[2] * SCALE];

function workshop(wasm: ManifoldToplevel, keep: (manifold: Manifold) => Solid): Workshop {
  const { Manifold: Solids } = wasm;
  const list = (solids: readonly Solid[]): Manifold[] => solids.map(raw);
  // The kernel puts booleans off, and does them once more for every use of what they give.
  const done = (solid: Manifold): Solid => {
    solid.numTri();
    return keep(solid);
  };
  return {
    solid: (mesh, precision = 'double') => keep(imported(wasm, mesh, precision)),
    box: (min, max) => {
      const size = scaled([max[0] - min[0], max[1] - min[1], max[2] - min[2]]);
      const box = Solids.cube(size);
      keep(box);
      return keep(box.translate(scaled(min)));
    },
    cone: (from, to, radii) => cone(wasm, keep, from, to, radii),
    ball: (centre, radius) => {
      const ball = Solids.sphere(radius * SCALE, FLATS);
      keep(ball);
      return keep(ball.translate(scaled(centre)));
    },
    place: (solid, placement) => placed(raw(solid), placement, keep),
    union: (solids) => done(Solids.union(list(solids))),
    intersection: (a, b) => done(raw(a).intersect(raw(b))),
    difference: (from, tools) => done(Solids.difference(list([from, ...tools]))),
    trim: (solid, normal, offset) => done(raw(solid).trimByPlane([...normal], offset * SCALE)),
    simplify: (solid, tolerance) => keep(raw(solid).simplify(tolerance * SCALE)),
    pieces: (solid) => raw(solid).decompose().map(keep),
    volume: (solid) => raw(solid).volume() / SCALE ** 3,
    surface: (solid) => raw(solid).surfaceArea() / SCALE ** 2,
    mesh: (solid, precision = 'double') => exported(raw(solid), precision),
    meshAfter: (solid, others) => restored(raw(solid), others),
    outline: (loops, tolerance) => outlined(wasm, loops, [], tolerance),
    outlineLess: (from, tools, tolerance) => outlined(wasm, from, tools, tolerance),
  };
}

/** Flats of a round channel. */
const FLATS = 64;
const EQUAL_AREA = Math.sqrt((2 * Math.PI) / FLATS / Math.sin((2 * Math.PI) / FLATS));

function cone(
  wasm: ManifoldToplevel,
  keep: (manifold: Manifold) => Solid,
  from: Vec3,
  to: Vec3,
  radii: readonly [number, number],
): Solid {
  const axis = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
  const length = Math.hypot(...axis);
  const [a, b, c] = axis.map((part) => part / length) as [number, number, number];
  // Any two directions across the axis: the first lies in the parting plane unless the axis is upright.
  const flat = Math.hypot(a, b);
  const across: Vec3 = flat > 0 ? [-b / flat, a / flat, 0] : [1, 0, 0];
  const third = [b * across[2] - c * across[1], c * across[0] - a * across[2], a * across[1] - b * across[0]];
  const upright = wasm.Manifold.cylinder(
    length * SCALE,
    radii[0] * SCALE * EQUAL_AREA,
    radii[1] * SCALE * EQUAL_AREA,
    FLATS,
  );
  keep(upright);
  return keep(
    upright.transform([...across, 0, third[0]!, third[1]!, third[2]!, 0, a, b, c, 0, ...scaled(from), 1]),
  );
}

function placed(solid: Manifold, placement: Placement, keep: (manifold: Manifold) => Solid): Solid {
  const cos = Math.cos(placement.turn ?? 0);
  const sin = Math.sin(placement.turn ?? 0);
  const flip = placement.mirrored ? -1 : 1;
  const [x, y, z] = scaled(placement.shift ?? [0, 0, 0]);
  // Column by column: images of x, y, z, then the shift.
  return keep(solid.transform([cos, sin, 0, 0, -sin * flip, cos * flip, 0, 0, 0, 0, 1, 0, x, y, z, 1]));
}

/** In the kernel's units and precision. */
function rounded(positions: Float64Array): Float32Array<ArrayBuffer> {
  const single = new Float32Array(positions.length);
  for (let i = 0; i < single.length; i++) single[i] = positions[i]! * SCALE;
  return single;
}

/** The kernel takes single precision at its door; the corners are then set to their doubles one by one. */
function imported(wasm: ManifoldToplevel, mesh: Mesh, precision: Precision): Manifold {
  const single = rounded(mesh.positions);
  const entry = entered(wasm, single, mesh.triangles);
  if (precision === 'single') return entry;
  const rowAt = rowsByCorner(single);
  const exact = entry.warpBatch((corners, count) => {
    for (let i = 0; i < count; i++) {
      const row = rowAt(corners[3 * i]!, corners[3 * i + 1]!, corners[3 * i + 2]!);
      if (row < 0) continue;
      for (let axis = 0; axis < 3; axis++) corners[3 * i + axis] = mesh.positions[3 * row + axis]! * SCALE;
    }
  });
  entry.delete();
  return exact;
}

function entered(wasm: ManifoldToplevel, vertProperties: Float32Array, triangles: Uint32Array): Manifold {
  const refuse = (reason: string): RangeError =>
    new RangeError(`solid: wants a closed mesh wound outwards, got one the kernel refuses: ${reason}`);
  try {
    const entry = wasm.Manifold.ofMesh(
      new wasm.Mesh({ numProp: 3, vertProperties, triVerts: Uint32Array.from(triangles) }),
    );
    if (entry.volume() > 0) return entry;
    entry.delete();
  } catch (error) {
    const code = (error as { code?: string }).code ?? String(error);
    throw refuse(FAULTS[code] ?? code);
  }
  throw refuse('it is empty or inside out');
}

/** Row of the corner at a single-precision place; −1 where there is none, or where two corners share the place. */
type RowAt = (x: number, y: number, z: number) => number;

/** An open hash table: a place in it holds a row plus one, less than 0 where the row is not the only one. */
function rowsByCorner(single: Float32Array): RowAt {
  const count = single.length / 3;
  let size = 16;
  while (size < 2 * count) size *= 2;
  const rows = new Int32Array(size);
  const words = new Float32Array(3);
  const bits = new Int32Array(words.buffer);
  const placeOf = (x: number, y: number, z: number): number => {
    // Zero has two signs in single precision.
    [words[0], words[1], words[2]] = [x + 0, y + 0, z + 0];
    const mixed =
      Math.imul(bits[0]!, 0x9e3779b1) ^ Math.imul(bits[1]!, 0x85ebca6b) ^ Math.imul(bits[2]!, 0xc2b2ae35);
    let place = (mixed ^ (mixed >>> 15)) & (size - 1);
    while (rows[place] !== 0) {
      const at = 3 * (Math.abs(rows[place]!) - 1);
      if (single[at] === x && single[at + 1] === y && single[at + 2] === z) break;
      place = (place + 1) & (size - 1);
    }
    return place;
  };
  for (let row = 0; row < count; row++) {
    const place = placeOf(single[3 * row]!, single[3 * row + 1]!, single[3 * row + 2]!);
    rows[place] = rows[place] === 0 ? row + 1 : -Math.abs(rows[place]!);
  }
  return (x, y, z) => Math.max(-1, rows[placeOf(x, y, z)]! - 1);
}

function outlined(wasm: ManifoldToplevel, loops: Outline, tools: Outline, tolerance: number): Outline {
  const made = [region(wasm, loops)];
  const keep = <Made extends (typeof made)[number]>(one: Made): Made => {
    made.push(one);
    return one;
  };
  const left = tools.length > 0 ? keep(made[0]!.subtract(keep(region(wasm, tools)))) : made[0]!;
  const rings = keep(left.simplify(tolerance * SCALE)).toPolygons();
  for (const one of made) one.delete();
  return rings.map((ring) => ring.map(([u, v]): Vec2 => [u / SCALE, v / SCALE]));
}

/** What closed loops wind about at least once. */
function region(wasm: ManifoldToplevel, loops: Outline): CrossSection {
  return new wasm.CrossSection(
    loops.map((loop) => loop.map(([u, v]): [number, number] => [u * SCALE, v * SCALE])),
    'Positive',
  );
}

/** Triangles come out of the kernel by index; double corners are read through a warp that moves none. */
function exported(solid: Manifold, precision: Precision): Mesh {
  let positions = new Float64Array();
  if (precision === 'double') {
    const same = solid.warpBatch((corners, count) => {
      positions = metres(corners.subarray(0, 3 * count));
    });
    same.delete();
  }
  const { triVerts, vertProperties } = solid.getMesh();
  return {
    positions: precision === 'double' ? positions : metres(vertProperties),
    triangles: Uint32Array.from(triVerts),
  };
}

/** Corners that two of the others have at one place in single precision stay in single precision. */
function restored(solid: Manifold, others: readonly Mesh[]): Mesh {
  const exact = new Float64Array(others.reduce((sum, { positions }) => sum + positions.length, 0));
  let filled = 0;
  for (const { positions } of others) {
    exact.set(positions, filled);
    filled += positions.length;
  }
  const rowAt = rowsByCorner(rounded(exact));
  const { triVerts, vertProperties: single } = solid.getMesh();
  const positions = metres(single);
  for (let i = 0; i < single.length; i += 3) {
    const row = rowAt(single[i]!, single[i + 1]!, single[i + 2]!);
    if (row >= 0) positions.set(exact.subarray(3 * row, 3 * row + 3), i);
  }
  return { positions, triangles: Uint32Array.from(triVerts) };
}

function metres(lengths: Float32Array | Float64Array): Float64Array<ArrayBuffer> {
  const result = new Float64Array(lengths.length);
  for (let i = 0; i < lengths.length; i++) result[i] = lengths[i]! / SCALE;
  return result;
}
