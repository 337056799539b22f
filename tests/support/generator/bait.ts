import type { Mesh } from '../../../src/core/mesh/mesh.ts';
import { baitSolid, type BaitSolid, type DrawnFeature } from '../../../src/core/solid/bait.ts';
import { baitSchema, type SectionTable } from '../../../src/schema/bait.ts';
import { SKETCHES, type Sketch } from './families.ts';
import { dice, type Dice } from './random.ts';
import { variationOf, writtenShape, type Variation } from './shape.ts';

/** A bait as its author wrote it, and what molds and trials of it need to know. */
export interface GeneratedBait {
  readonly id: string;
  readonly sketch: Sketch;
  /** As in its file. */
  readonly entry: object;
  /** Marks of its revisions, oldest first. */
  readonly revisions: readonly string[];
  /** The newest revision [m]. */
  readonly mesh: Mesh;
  /** The newest revision is a mesh file. */
  readonly file?: string;
}

/** Triangles of mesh files. */
export const TRIANGLES = [20_000, 200_000] as const;

/** Every third bait comes as a mesh: their number shares no factor with the eight families, so all have some. */
const MESH_EVERY = 3;

const millimetres = (metres: number): number => Math.round(metres * 1e5) / 100;

/** Shape as the schema reads it [m, rad]. */
function tableOf(common: object, sections: object): SectionTable {
  const revisions = [{ id: 'a', date: '2025-01-01', note: 'Drawn.', sections }];
  const table = baitSchema.parse({ ...common, revisions }).revisions[0]?.sections;
  if (!table) throw new RangeError('tableOf: wants sections, got none');
  return table;
}

/** A solid with about so many triangles, and never outside `TRIANGLES`. */
async function fineSolid(table: SectionTable, wanted: number): Promise<BaitSolid> {
  // Limbs take half the points of a body's sections each, over a fixed number of steps.
  const limbs = table.appendages.reduce(
    (sum, { kind, mirrored }) => sum + (kind === 'rib' ? 0 : mirrored ? 2 : 1),
    0,
  );
  let points = wanted / 2;
  for (let round = 0; round < 8; round++) {
    const around = Math.max(24, 4 * Math.round(Math.sqrt(points / 2.5) / 4));
    const along = Math.max(24, Math.round(points / around) - 50 * limbs);
    const made = await baitSolid(table, { around, along });
    const count = made.mesh.triangles.length / 3;
    if (count >= TRIANGLES[0] && count <= TRIANGLES[1]) return made;
    points *= wanted / count;
  }
  throw new RangeError(`fineSolid: wants about ${wanted} triangles, got no such mesh`);
}

/** Box about a part, from where it is clear of the body. */
function boxOf({ name, kind, middleLine, profile }: DrawnFeature, root: string) {
  const from = 6;
  const reach = (axis: number, sign: 1 | -1): number => {
    const ends = middleLine.slice(from).map((point, i) => {
      const { width = 0, thickness = 0 } = profile[from + i] ?? {};
      return sign * (point[axis] ?? 0) + (axis === 2 ? thickness : width) / 2 + 5e-4;
    });
    return sign * Math.max(...ends);
  };
  const [x = 0, y = 0] = middleLine[from] ?? [];
  const low = [root === 'front' ? x : reach(0, -1), root === 'left' ? y : reach(1, -1), reach(2, -1)];
  const high = [reach(0, 1), root === 'right' ? y : reach(1, 1), reach(2, 1)];
  const corner = (point: readonly number[]) => point.map((value) => `${millimetres(value)} mm`);
  return { name, kind, box: { from: corner(low), to: corner(high) }, root };
}

function meshEntry({ mesh, features }: BaitSolid, { limbs }: Sketch, file: string): object {
  const length = mesh.positions.reduce((most, x, i) => (i % 3 === 0 ? Math.max(most, x) : most), 0);
  return {
    file,
    unit: 'mm',
    length: `${millimetres(length)} mm`,
    features: limbs.flatMap(({ name, root }) => {
      const drawn = features.find((feature) => feature.name === name);
      return root && drawn ? [boxOf(drawn, root)] : [];
    }),
  };
}

/** An older revision with thicker limbs that swam badly, for some baits with limbs. */
function olderOf(sketch: Sketch, variation: Variation, { between }: Dice): object[] {
  if (sketch.limbs.length === 0 || between(0, 1) < 0.7) return [];
  const shape = writtenShape(sketch, { ...variation, stout: variation.stout * 1.15 });
  return [{ id: 'a', date: '2025-02-01', note: 'First drawing.', sections: shape }];
}

/** Bait number `index` of a catalogue. */
export async function generatedBait(seed: number, index: number): Promise<GeneratedBait> {
  const sketch = SKETCHES[index % SKETCHES.length] as Sketch;
  const thrown = dice(seed, index);
  const variation = variationOf(thrown);
  const number = String(index + 1).padStart(5, '0');
  const id = `${sketch.short}-${number}`;
  const common = {
    name: `${sketch.short[0]?.toUpperCase()}${sketch.short.slice(1)} ${number}`,
    family: sketch.family,
    summary: `A ${sketch.family} made from dice, for measuring.`,
    lies: sketch.lies,
    rigs: sketch.rigs,
    plastisol: sketch.plastisol,
  };
  const sections = writtenShape(sketch, variation);
  const table = tableOf(common, sections);
  if (index % MESH_EVERY === MESH_EVERY - 1) {
    const wanted = TRIANGLES[0] * (TRIANGLES[1] / TRIANGLES[0]) ** thrown.between(0.04, 0.96);
    const solid = await fineSolid(table, wanted);
    const file = `meshes/${id}.stl`;
    const revision = { id: 'a', date: '2025-03-01', note: 'Cut from a mesh.' };
    const revisions = [{ ...revision, mesh: meshEntry(solid, sketch, file) }];
    return { id, sketch, entry: { ...common, revisions }, revisions: ['a'], mesh: solid.mesh, file };
  }
  const { mesh } = await baitSolid(table, { around: 24, along: 60 });
  const older = olderOf(sketch, variation, thrown);
  const mark = older.length > 0 ? 'b' : 'a';
  const newest = { id: mark, date: '2025-03-01', note: 'As it is cut.', sections };
  const entry = { ...common, revisions: [...older, newest] };
  return { id, sketch, entry, revisions: older.length > 0 ? ['a', 'b'] : ['a'], mesh };
}
