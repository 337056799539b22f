import { meshBodies, windingNumber } from './bodies.ts';
import type { Bodies, Body } from './bodies.ts';
import { edgeTrouble, isClosedSurface } from './edges.ts';
import type { EdgeGroup } from './edges.ts';
import { MESH_LIMITS, triangleLimitFault } from './limits.ts';
import { boxCentre, meshBox } from './mass-properties.ts';
import type { Mesh, MeshFault, Vec3 } from './mesh.ts';
import { nearWelded } from './near-weld.ts';
import { counted, isMeshFault, meshFault, meshFaultAt, meshUnitLength } from './result.ts';
import type { FileMesh, MeshUnit, ReadMesh } from './result.ts';
import { scaledMesh } from './placement.ts';

/**
 * A mesh as a solid to compute with: finite, closed, wound one way, facing outwards, one body; else the reason why not.
 *
 * Repairs only what is certain, and says so: triangles that use a point twice are dropped; where the surface is open,
 * points closer than `MESH_LIMITS.weldShare` of the diagonal are joined.
 *
 * @param file - points in the file's unit, equal points already sharing one number, every point used,
 * every index in range
 * @param notes - repairs made so far
 * @returns the mesh with all repairs, or one fault with its place [m]
 *
 * Valid: does not look for triangles that pass through each other.
 * Cost: linear in the triangles when nothing is wrong.
 * Source: own derivation.
 */
export function checkedSolid(file: FileMesh, notes: readonly string[] = []): ReadMesh | MeshFault {
  const unusable = unusableMesh(file);
  if (unusable) return unusable;
  const closed = closedMesh(file, file.unit);
  if (isMeshFault(closed)) return closed;
  const { mesh, repairs } = closed;
  const pieces = meshBodies(mesh, boxCentre(meshBox(mesh)));
  const fault = bodyFault(mesh, pieces, file.unit);
  if (fault) return fault;
  return {
    mesh: scaledMesh(mesh, meshUnitLength(file.unit)),
    triangles: mesh.triangles.length / 3,
    repairs: [...notes, ...repairs, ...pieceNotes(pieces)],
    unit: file.unit,
  };
}

function unusableMesh({ positions, triangles, unit }: FileMesh): MeshFault | undefined {
  const count = triangles.length / 3;
  if (count === 0) return meshFault('format', 'the file holds no triangles; export the solid again');
  if (count > MESH_LIMITS.triangles) return triangleLimitFault(count);
  const wild = firstBeyond(positions, FARTHEST / meshUnitLength(unit));
  if (wild < 0) return undefined;
  if (!Number.isFinite(positions[wild]!)) return notFiniteFault(triangles, Math.floor(wild / 3));
  return meshFault('limit', 'a corner lies more than 1000 km from the origin; check the unit and the file');
}

/** Greatest coordinate that is taken for a real one [m]. */
const FARTHEST = 1e6;

/** Place of the first number whose size is not within a limit, NaN among them; -1 for none. */
function firstBeyond(values: Float64Array, limit: number): number {
  for (let i = 0; i < values.length; i++) if (!(Math.abs(values[i]!) <= limit)) return i;
  return -1;
}

function notFiniteFault(triangles: Uint32Array, vertex: number): MeshFault {
  const triangle = Math.floor(triangles.indexOf(vertex) / 3) + 1;
  return meshFault(
    'not finite',
    `triangle ${triangle} has a coordinate that is not a number; export the file again`,
  );
}

function closedMesh(file: Mesh, unit: MeshUnit): { mesh: Mesh; repairs: string[] } | MeshFault {
  if (isClosedSurface(file)) return { mesh: file, repairs: [] };
  const exact = withoutCollapsed(file);
  const { triangles } = exact.mesh;
  if (triangles.length === 0) return meshFault('degenerate', 'no triangle of the mesh has any area');
  if (isClosedSurface(exact.mesh)) return { mesh: exact.mesh, repairs: dropNotes(exact.dropped) };
  const { min, max } = meshBox(exact.mesh);
  const tolerance = MESH_LIMITS.weldShare * Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  // A solid of 1e-320 m has a tolerance that no number can hold.
  if (tolerance === 0) return edgeFault(exact.mesh, unit);
  const near = nearWelded(exact.mesh, tolerance);
  const healed = withoutCollapsed(near.mesh);
  if (healed.mesh.triangles.length === 0 || !isClosedSurface(healed.mesh)) return edgeFault(exact.mesh, unit);
  const gap = `${tolerance.toPrecision(2)} ${unit}`;
  return {
    mesh: healed.mesh,
    repairs: [
      `${counted(near.joined, 'point')} closer than ${gap} to another joined`,
      ...dropNotes(exact.dropped + healed.dropped),
    ],
  };
}

function dropNotes(dropped: number): string[] {
  return dropped === 0 ? [] : [`${counted(dropped, 'triangle')} without area dropped`];
}

/** The mesh without triangles that use a point twice, and without points that no triangle uses. */
function withoutCollapsed({ positions, triangles }: Mesh): { mesh: Mesh; dropped: number } {
  const collapsed = (t: number) => {
    const a = triangles[t];
    const b = triangles[t + 1];
    const c = triangles[t + 2];
    return a === b || b === c || c === a;
  };
  let dropped = 0;
  for (let t = 0; t < triangles.length; t += 3) if (collapsed(t)) dropped++;
  const kept = new Uint32Array(triangles.length - 3 * dropped);
  let end = 0;
  for (let t = 0; t < triangles.length; t += 3) {
    if (!collapsed(t)) {
      kept.set(triangles.subarray(t, t + 3), end);
      end += 3;
    }
  }
  return { mesh: usedPoints({ positions, triangles: kept }), dropped };
}

function usedPoints({ positions, triangles }: Mesh): Mesh {
  const numbers = new Int32Array(positions.length / 3).fill(-1);
  const kept = new Float64Array(positions.length);
  let count = 0;
  const renumbered = triangles.map((vertex) => {
    if (numbers[vertex]! < 0) {
      kept.set(positions.subarray(3 * vertex, 3 * vertex + 3), 3 * count);
      numbers[vertex] = count++;
    }
    return numbers[vertex]!;
  });
  return { positions: kept.slice(0, 3 * count), triangles: renumbered };
}

function edgeFault(mesh: Mesh, unit: MeshUnit): MeshFault {
  const { open, crowded, opposed } = edgeTrouble(mesh);
  const at = ({ first: [from, to] }: EdgeGroup): Vec3 => {
    const [a, b] = [pointAt(mesh, from), pointAt(mesh, to)];
    return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
  };
  if (open.count > 0) {
    const message = `open edge near {place}; ${counted(open.count, 'open edge')}; close the surface and export a solid`;
    return meshFaultAt('open', message, at(open), unit);
  }
  if (crowded.count > 0) {
    const message = `edge near {place} belongs to more than two triangles; ${counted(crowded.count, 'such edge')}; join the parts into one solid`;
    return meshFaultAt('inconsistent', message, at(crowded), unit);
  }
  const message = `triangles face opposite ways across the edge near {place}; ${counted(opposed.count, 'such edge')}; make the normals agree and export again`;
  return meshFaultAt('inconsistent', message, at(opposed), unit);
}

function bodyFault(mesh: Mesh, { bodies, rootOf }: Bodies, unit: MeshUnit): MeshFault | undefined {
  const { min, max } = meshBox(mesh);
  const least = 1e-12 * Math.hypot(max[0] - min[0], max[1] - min[1], max[2] - min[2]) ** 3;
  const solids = bodies.filter(({ volume }) => volume > least);
  const voids = bodies.filter(({ volume }) => volume < -least);
  const flat = bodies.find(({ volume }) => Math.abs(volume) <= least);
  const faultAt = (kind: MeshFault['kind'], message: string, { vertex }: Body) =>
    meshFaultAt(kind, message, pointAt(mesh, vertex), unit);
  if (flat)
    return faultAt(
      'degenerate',
      'the piece near {place} encloses no volume; remove it or give it thickness',
      flat,
    );
  const solid = largestBody(solids);
  const second = solids.find((body) => body !== solid);
  if (!solid) {
    return faultAt(
      'inverted',
      'the whole surface faces inwards, seen first near {place}; flip the normals in the CAD export',
      voids[0]!,
    );
  }
  if (second) {
    const message = `${solids.length} separate bodies; the second begins near {place}; join them or export one`;
    return faultAt('several bodies', message, second);
  }
  const outer = (vertex: number) => rootOf[vertex] === solid.vertex;
  const astray = voids.find(({ vertex }) => windingNumber(mesh, pointAt(mesh, vertex), outer) < 0.5);
  if (!astray) return undefined;
  return faultAt(
    'inverted',
    'the separate piece near {place} faces inwards and lies outside the body; remove it',
    astray,
  );
}

/** The first of the largest bodies; rounding does not decide between equals. */
function largestBody(bodies: readonly Body[]): Body | undefined {
  const most = bodies.reduce((volume, body) => Math.max(volume, body.volume), 0);
  return bodies.find(({ volume }) => volume >= most * (1 - 1e-9));
}

function pieceNotes({ bodies, flat }: Bodies): string[] {
  const voids = bodies.length - 1;
  return [
    ...(voids > 0 ? [`${counted(voids, 'closed void')} inside the body kept`] : []),
    ...(flat > 0
      ? [`${counted(flat, 'triangle')} without area kept, since the surface would open without`]
      : []),
  ];
}

function pointAt({ positions }: Mesh, vertex: number): Vec3 {
  return [positions[3 * vertex]!, positions[3 * vertex + 1]!, positions[3 * vertex + 2]!];
}
