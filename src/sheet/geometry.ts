import type { Box, Mesh, Vec3 } from '../core/mesh/mesh.ts';
import { placedMesh, type Matrix3 } from '../core/mesh/placement.ts';
import { isMeshFault } from '../core/mesh/result.ts';
import { statedLengthFault } from '../core/mesh/stated-length.ts';
import type { BaitGeometry } from '../core/section/geometry.ts';
import { measureBait, type FeatureRequest } from '../core/section/measure.ts';
import { baitSolid } from '../core/solid/bait.ts';
import type { MeshGeometry, Revision, SectionTable } from '../schema/bait.ts';
import type { Bait, Entry } from '../schema/collections.ts';
import type { EntryProblem, Path } from '../schema/problem.ts';
import { calipered, caliperReadings, type CaliperReading } from './calipers.ts';
import type { Tools } from './tools.ts';

/** A geometry, or the mistake that prevents it. */
export type GeometryResult =
  | { readonly geometry: BaitGeometry; readonly readings: readonly CaliperReading[] }
  | { readonly problem: EntryProblem };

/** The solid alone, before calipers have their say. */
type SolidResult = { readonly geometry: BaitGeometry } | { readonly problem: EntryProblem };

type Direction = NonNullable<MeshGeometry['axes']>['nose'];

function unitVector(direction: Direction): Vec3 {
  const sign = direction.startsWith('-') ? -1 : 1;
  return ['x', 'y', 'z'].map((axis) => (direction.endsWith(axis) ? sign : 0)) as unknown as Vec3;
}

function cross([a, b, c]: Vec3, [d, e, f]: Vec3): Vec3 {
  return [b * f - c * e, c * d - a * f, a * e - b * d];
}

const least = (mesh: Mesh): number => {
  let low = Infinity;
  for (let i = 0; i < mesh.positions.length; i += 3) low = Math.min(low, mesh.positions[i] ?? Infinity);
  return low;
};

/** Lays a file's mesh into the mold's frame: nose at x = 0, parting plane at z = 0. */
export function laidInMold(
  mesh: Mesh,
  { axes, parting = 0 }: Pick<MeshGeometry, 'axes' | 'parting'>,
): Mesh | string {
  const along = unitVector(axes?.nose ?? '-x').map((part) => 0 - part) as unknown as Vec3;
  const out = unitVector(axes?.out ?? '+z');
  if (along.some((part, i) => part !== 0 && out[i] !== 0))
    return 'the axis to the nose and the axis out of the parting plane are the same';
  const rows: Matrix3 = [along, cross(out, along), out];
  const turned = placedMesh(mesh, rows, [0, 0, -parting]);
  return placedMesh(
    turned,
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ],
    [-least(turned), 0, 0],
  );
}

function boxOf({ from, to }: { from: readonly number[]; to: readonly number[] }): Box {
  const ends = (pick: (a: number, b: number) => number) =>
    [0, 1, 2].map((i) => pick(from[i] ?? 0, to[i] ?? 0)) as unknown as Vec3;
  return { min: ends(Math.min), max: ends(Math.max) };
}

async function fromSections(table: SectionTable): Promise<BaitGeometry> {
  const { mesh, features } = await baitSolid(table);
  return measureBait(
    mesh,
    features.filter(({ kind }) => kind !== 'rib'),
  );
}

type Refuse = (path: Path, message: string, remedy: string) => { readonly problem: EntryProblem };

function requestsOf(table: MeshGeometry): FeatureRequest[] {
  return table.features.map(({ name, kind, box, root, point }) => ({
    name,
    kind,
    point,
    box: box && boxOf(box),
    root,
  }));
}

async function fromMesh(table: MeshGeometry, { readMesh }: Tools, refuse: Refuse): Promise<SolidResult> {
  const read = await readMesh(table.file, table.unit);
  if (isMeshFault(read)) return refuse(['file'], `${table.file}: ${read.message}`, 'export the mesh again');
  const mesh = laidInMold(read.mesh, table);
  if (typeof mesh === 'string') return refuse(['axes'], mesh, 'name two different axes of the file');
  const geometry = await measureBait(mesh, requestsOf(table), read.repairs);
  const measured = geometry.box.max[0] - geometry.box.min[0];
  const fault = statedLengthFault({
    measured,
    stated: table.length,
    unit: read.unit,
    unitInFile: table.unit === undefined,
  });
  if (fault)
    return refuse(['length'], `${table.file} ${fault.message}`, 'correct the unit or the stated length');
  if (geometry.box.min[2] >= 0 || geometry.box.max[2] <= 0) {
    return refuse(
      ['parting'],
      'the parting plane does not cut the bait',
      'state its height in the file as `parting`',
    );
  }
  return { geometry };
}

/** Refusals are not kept: they name a place in an entry, and they are quick. */
async function measured({ mesh, sections }: Revision, tools: Tools, refuse: Refuse): Promise<SolidResult> {
  if (sections) {
    return { geometry: await tools.remember('geometry', sections, () => fromSections(sections)) };
  }
  if (!mesh) throw new RangeError('geometryOf: wants sections or a mesh, got neither');
  const refused: SolidResult[] = [];
  const inputs = { mesh, bytes: await tools.fingerprint(mesh.file) };
  try {
    const geometry = await tools.remember('geometry', inputs, async () => {
      const result = await fromMesh(mesh, tools, refuse);
      if ('geometry' in result) return result.geometry;
      refused.push(result);
      throw new Refusal();
    });
    return { geometry };
  } catch (error) {
    const [result] = refused;
    if (error instanceof Refusal && result) return result;
    throw error;
  }
}

/** Leaves the memory without a result. */
class Refusal extends Error {}

/** The geometry of one revision, measured on its solid. */
export async function geometryOf(
  bait: Entry<Bait>,
  revision: Revision,
  tools: Tools,
): Promise<GeometryResult> {
  const index = bait.revisions.indexOf(revision);
  const kind = revision.mesh ? 'mesh' : 'sections';
  const refuse: Refuse = (path, message, remedy) => ({
    problem: { collection: 'baits', id: bait.id, path: ['revisions', index, kind, ...path], message, remedy },
  });
  try {
    const result = await measured(revision, tools, refuse);
    if ('problem' in result) return result;
    const readings = caliperReadings(result.geometry, revision);
    return { geometry: calipered(result.geometry, revision), readings };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return refuse([], error.message, 'correct the shape');
  }
}
