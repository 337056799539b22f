import type { Mesh, Vec3 } from '../../src/core/mesh/mesh.ts';

// Analytic solids as closed meshes, counter-clockwise from outside. Lengths carry the unit of their arguments:
// give metres where a Mesh of `core` is wanted. Axis of every turned solid: x.

/** A mesh from rows of points and triples of indices. */
export function meshOf(points: readonly Vec3[], triangles: readonly Vec3[]): Mesh {
  return { positions: Float64Array.from(points.flat()), triangles: Uint32Array.from(triangles.flat()) };
}

/** An axis-aligned box of edge lengths `size`, its least corner at `min`. */
export function box(size: Vec3, min: Vec3 = [0, 0, 0]): Mesh {
  const points: Vec3[] = [];
  for (let corner = 0; corner < 8; corner++) {
    const [i, j, k] = [corner & 1, (corner >> 1) & 1, corner >> 2];
    points.push([min[0] + i * size[0], min[1] + j * size[1], min[2] + k * size[2]]);
  }
  const quads = [
    [0, 2, 3, 1],
    [4, 5, 7, 6],
    [0, 1, 5, 4],
    [2, 6, 7, 3],
    [0, 4, 6, 2],
    [1, 3, 7, 5],
  ] as const;
  return meshOf(
    points,
    quads.flatMap(([a, b, c, d]): Vec3[] => [
      [a, b, c],
      [a, c, d],
    ]),
  );
}

/** A prism with a sharp edge along y at x = 0, growing to `height` (even about z = 0) at x = `length`. */
export function wedge(length: number, width: number, height: number): Mesh {
  const [up, down] = [height / 2, -height / 2];
  return meshOf(
    [
      [0, 0, 0],
      [0, width, 0],
      [length, 0, down],
      [length, width, down],
      [length, 0, up],
      [length, width, up],
    ],
    [
      [0, 1, 3],
      [0, 3, 2],
      [0, 4, 5],
      [0, 5, 1],
      [2, 3, 5],
      [2, 5, 4],
      [0, 2, 4],
      [1, 5, 3],
    ],
  );
}

/**
 * Closes rings of equally many points, in order along +x and each turning from +y to +z, with a point at either end.
 */
export function skinned(nose: Vec3, rings: readonly (readonly Vec3[])[], tail: Vec3): Mesh {
  const around = rings[0]!.length;
  const last = 1 + around * rings.length;
  const at = (ring: number, turn: number) => 1 + ring * around + (turn % around);
  const triangles: Vec3[] = [];
  for (let turn = 0; turn < around; turn++) {
    triangles.push([0, at(0, turn + 1), at(0, turn)]);
    for (let ring = 0; ring + 1 < rings.length; ring++) {
      const [a, b, c, d] = [at(ring, turn), at(ring, turn + 1), at(ring + 1, turn + 1), at(ring + 1, turn)];
      triangles.push([a, b, c], [a, c, d]);
    }
    triangles.push([last, at(rings.length - 1, turn), at(rings.length - 1, turn + 1)]);
  }
  return meshOf([nose, ...rings.flat(), tail], triangles);
}

/** A solid turned about x from stations (x, radius) in order; radius 0 at both ends is a point, else a flat cap. */
export function turned(stations: readonly (readonly [number, number])[], segments: number): Mesh {
  const circle = ([x, radius]: readonly [number, number]): Vec3[] =>
    Array.from({ length: segments }, (_, turn) => {
      const angle = (2 * Math.PI * turn) / segments;
      return [x, radius * Math.cos(angle), radius * Math.sin(angle)];
    });
  const open = stations.filter(([, radius]) => radius > 0);
  return skinned([stations[0]![0], 0, 0], open.map(circle), [stations.at(-1)![0], 0, 0]);
}

/** A latitude-longitude sphere about the origin, its vertices on the sphere. */
export function uvSphere(radius: number, bands: number, segments: number): Mesh {
  return turned(arc(0, radius, 0, Math.PI, bands), segments);
}

/** A cylinder of length `length` between two half spheres, centred on the origin; `bands` (even) over both. */
export function capsule(radius: number, length: number, bands: number, segments: number): Mesh {
  const half = bands / 2;
  const front = arc(-length / 2, radius, 0, Math.PI / 2, half);
  return turned([...front, ...arc(length / 2, radius, Math.PI / 2, Math.PI, half)], segments);
}

function arc(centre: number, radius: number, from: number, to: number, bands: number): [number, number][] {
  return Array.from({ length: bands + 1 }, (_, band) => {
    const angle = from + ((to - from) * band) / bands;
    const pole = (band === 0 && from === 0) || (band === bands && to === Math.PI);
    return [centre - radius * Math.cos(angle), pole ? 0 : radius * Math.sin(angle)];
  });
}

/** A cone cut flat, radius `front` at x = 0 and `back` at x = `height`. */
export function frustum(front: number, back: number, height: number, segments: number): Mesh {
  return turned(
    [
      [0, front],
      [height, back],
    ],
    segments,
  );
}

/** A spindle from x = 0 to `length`, its radius given as a function of x / length that vanishes at 0 and 1. */
export function spindle(
  length: number,
  radiusAt: (share: number) => number,
  bands: number,
  segments: number,
): Mesh {
  const stations = Array.from({ length: bands + 1 }, (_, band): [number, number] => [
    (length * band) / bands,
    band === 0 || band === bands ? 0 : radiusAt(band / bands),
  ]);
  return turned(stations, segments);
}

/** Semi-axes a, b, c along x, y, z, centred on the origin. */
export function ellipsoid([a, b, c]: Vec3, bands: number, segments: number): Mesh {
  return mapped(uvSphere(1, bands, segments), ([x, y, z]) => [a * x, b * y, c * z]);
}

/** |x/a|ⁿ + |y/b|ⁿ + |z/c|ⁿ ≤ 1, its vertices on the surface along the directions of a latitude-longitude sphere. */
export function superellipsoid([a, b, c]: Vec3, n: number, bands: number, segments: number): Mesh {
  return mapped(uvSphere(1, bands, segments), ([x, y, z]) => {
    const reach = (Math.abs(x) ** n + Math.abs(y) ** n + Math.abs(z) ** n) ** (-1 / n);
    return [a * x * reach, b * y * reach, c * z * reach];
  });
}

/** A ring about z at radius `ring` with a round section of radius `tube`. */
export function torus(ring: number, tube: number, around: number, across: number): Mesh {
  return ellipticRing(ring, [tube, tube], around, across);
}

/** A ring about z at radius `ring` with an elliptic section of semi-axes [radial, along z]. */
export function ellipticRing(
  ring: number,
  [radial, axial]: readonly [number, number],
  around: number,
  across: number,
): Mesh {
  const points: Vec3[] = [];
  const triangles: Vec3[] = [];
  const at = (i: number, j: number) => (i % around) * across + (j % across);
  for (let i = 0; i < around; i++) {
    const turn = (2 * Math.PI * i) / around;
    for (let j = 0; j < across; j++) {
      const angle = (2 * Math.PI * j) / across;
      const reach = ring + radial * Math.cos(angle);
      points.push([reach * Math.cos(turn), reach * Math.sin(turn), axial * Math.sin(angle)]);
      const [a, b, c, d] = [at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j + 1)];
      triangles.push([a, b, c], [a, c, d]);
    }
  }
  return meshOf(points, triangles);
}

/** The same mesh with every point moved by `move`. */
export function mapped(mesh: Mesh, move: (point: Vec3) => Vec3): Mesh {
  const positions = new Float64Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    positions.set(move([mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!]), i);
  }
  return { positions, triangles: mesh.triangles };
}

/** Several meshes as one list of triangles. */
export function joined(...meshes: readonly Mesh[]): Mesh {
  const positions = meshes.flatMap((mesh) => [...mesh.positions]);
  let base = 0;
  const triangles = meshes.flatMap((mesh) => {
    const own = Array.from(mesh.triangles, (index) => index + base);
    base += mesh.positions.length / 3;
    return own;
  });
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** Every triangle turned over. */
export function flipped(mesh: Mesh): Mesh {
  const triangles = mesh.triangles.slice();
  for (let i = 0; i < triangles.length; i += 3) {
    [triangles[i + 1], triangles[i + 2]] = [triangles[i + 2]!, triangles[i + 1]!];
  }
  return { positions: mesh.positions, triangles };
}

/**
 * A binary STL file of a mesh.
 *
 * @param mesh - in metres
 * @param perMetre - file units in a metre: 1000 for a file in mm, 1/0.0254 for inches, 1 to write the numbers as they are
 */
export function binaryStl(mesh: Mesh, perMetre = 1000): Uint8Array {
  const count = mesh.triangles.length / 3;
  const bytes = new Uint8Array(84 + 50 * count);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (let corner = 0; corner < 3 * count; corner++) {
    const offset = 84 + 50 * Math.floor(corner / 3) + 12 + 12 * (corner % 3);
    for (let axis = 0; axis < 3; axis++) {
      view.setFloat32(
        offset + 4 * axis,
        mesh.positions[3 * mesh.triangles[corner]! + axis]! * perMetre,
        true,
      );
    }
  }
  return bytes;
}
