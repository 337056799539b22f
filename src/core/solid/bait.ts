import type { Mesh, Vec3 } from '../mesh/mesh.ts';
import { placedMesh, type Matrix3 } from '../mesh/placement.ts';
import { sweepMesh, sweepOf, type AppendageKind, type AppendageTable, type Sweep } from './appendage.ts';
import { bodyOf, type Body, type BodyRing, type BodyTable } from './body.ts';
import { loadKernel, type Solid, type Workshop } from './kernel.ts';
import { FINE, loft, type Resolution } from './loft.ts';

/** A bait as a table [m, rad]. */
export interface BaitTable extends BodyTable {
  readonly appendages?: readonly AppendageTable[];
}

/** A named part of the bait as it was drawn, from where it leaves the body to its tip. */
export interface DrawnFeature {
  readonly name: string;
  readonly kind: AppendageKind;
  /** Points of its middle line, evenly spaced [m]; of a rib, from the body's surface outwards. */
  readonly middleLine: readonly Vec3[];
  /** Drawn sizes at each of those points: arc length, in the parting plane, out of it [m]. */
  readonly profile: readonly { readonly s: number; readonly width: number; readonly thickness: number }[];
  /** How many of them the bait has, mirror images and rows counted. */
  readonly copies: number;
}

/** A bait's solid and its named parts [m]. */
export interface BaitSolid {
  readonly mesh: Mesh;
  readonly features: readonly DrawnFeature[];
}

/** Points of a feature's middle line. */
const POINTS = 49;
const mm = (metres: number): string => `${Number((metres * 1e3).toFixed(2))} mm`;

/**
 * The one watertight solid of a bait that is described by a table: body, ribs, and appendages joined to it.
 *
 * @param table - stations, appendages and end roundings [m, rad]
 * @param resolution - how finely it is meshed
 * @returns closed mesh [m] with the nose at x = 0 and the parting plane at z = 0, and the named parts
 * @throws {RangeError} when stations are out of order, an appendage does not touch the body, reaches ahead of the
 * nose, or its shape is impossible
 *
 * Valid: roundness 1 and more; middle lines in planes z = constant.
 * Cost: some 25 ms a body, 35 ms an appendage.
 * Source: own derivation; joined by the kernel's union: corners of the seams in single precision, 4 nm.
 */
export async function baitSolid(table: BaitTable, resolution: Resolution = FINE): Promise<BaitSolid> {
  const appendages = table.appendages ?? [];
  const body = bodyOf({ ...table, rings: [...(table.rings ?? []), ...appendages.flatMap(ringsOf)] });
  const core = loft(body, resolution);
  const limbs = appendages.filter(({ kind }) => kind !== 'rib').flatMap(copiesOf);
  const features = appendages.map((appendage) => featureOf(appendage, body));
  if (limbs.length === 0) return { mesh: core, features };
  const kernel = await loadKernel();
  const mesh = kernel.work((shop) => joined(shop, body, core, limbs, resolution.around));
  checkNose(mesh);
  return { mesh, features };
}

/** The rings on the body that a row of ribs is. */
function ringsOf(appendage: AppendageTable): BodyRing[] {
  if (appendage.kind !== 'rib') return [];
  const { root, length, width, count = 1, pitch = 0 } = appendage;
  if (count > 1 && !(pitch >= width.root)) {
    throw new RangeError(
      `${appendage.name}: wants a pitch of at least the ribs' own ${mm(width.root)}, got ${mm(pitch)}`,
    );
  }
  return Array.from({ length: count }, (_, i) => ({
    at: root.at + i * pitch,
    proud: length,
    root: width.root,
    crown: width.tip,
  }));
}

/** The appendages of a row, each with its mirror image if it has one. */
function copiesOf(appendage: AppendageTable): { name: string; sweep: Sweep; mirrored: boolean }[] {
  const { count = 1, pitch = 0, root, name } = appendage;
  return Array.from({ length: count }, (_, i) => {
    const sweep = sweepOf({ ...appendage, root: { ...root, at: root.at + i * pitch } });
    return (appendage.mirrored ? [false, true] : [false]).map((mirrored) => ({ name, sweep, mirrored }));
  }).flat();
}

function joined(
  shop: Workshop,
  body: Body,
  core: Mesh,
  limbs: ReturnType<typeof copiesOf>,
  around: number,
): Mesh {
  const trunk = shop.solid(core, 'single');
  // Limbs are small: half the points of the body's sections give them the same fineness.
  const points = Math.max(16, 4 * Math.ceil(around / 8));
  const meshes = limbs.map(({ sweep, mirrored }) => {
    const mesh = sweepMesh(sweep, points);
    return mirrored ? placedMesh(mesh, ACROSS) : mesh;
  });
  const solids = limbs.map(({ name, sweep }, i): Solid => {
    const solid = shop.solid(meshes[i]!, 'single');
    // The body is alike on both sides. A limb that begins inside it needs no cut to tell.
    const meets = isInside(sweep.pointAt(0), body) || shop.volume(shop.intersection(trunk, solid)) > 0;
    if (!meets) {
      throw new RangeError(
        `${name}: wants a root inside the body, got one that does not touch it; move its root or make the body reach it`,
      );
    }
    return solid;
  });
  const whole = shop.union([trunk, ...solids]);
  const bodies = shop.pieces(whole).length;
  if (bodies !== 1) throw new RangeError(`bait: wants one body, got ${bodies} that do not touch`);
  return shop.meshAfter(whole, [core, ...meshes]);
}

/** Mirrors across y = 0. */
const ACROSS: Matrix3 = [
  [1, 0, 0],
  [0, -1, 0],
  [0, 0, 1],
];

function checkNose({ positions }: Mesh): void {
  let low = Infinity;
  for (let i = 0; i < positions.length; i += 3) low = Math.min(low, positions[i]!);
  if (low < -1e-7) {
    throw new RangeError(
      `bait: wants every distance measured from its foremost point, got an appendage ${mm(-low)} ahead of the nose`,
    );
  }
}

function featureOf(appendage: AppendageTable, body: Body): DrawnFeature {
  const { name, kind, count = 1 } = appendage;
  const drawn = kind === 'rib' ? ribLine(appendage, body) : sweepLine(sweepOf(appendage), body);
  return { name, kind, copies: count * (appendage.mirrored && kind !== 'rib' ? 2 : 1), ...drawn };
}

type Line = Pick<DrawnFeature, 'middleLine' | 'profile'>;

function sweepLine(sweep: Sweep, body: Body): Line {
  const start = exitOf(sweep, body);
  const lengths = Array.from({ length: POINTS }, (_, i) => ((sweep.length - start) * i) / (POINTS - 1));
  return {
    middleLine: lengths.map((s) => sweep.pointAt(start + s)),
    profile: lengths.map((s) => ({
      s,
      width: sweep.widthAt(start + s),
      thickness: sweep.thicknessAt(start + s),
    })),
  };
}

/** Arc length at which the middle line first leaves the body; 0 when it starts outside or never leaves. */
function exitOf(sweep: Sweep, body: Body): number {
  const steps = 400;
  for (let i = 0; i < steps; i++) {
    const s = (sweep.length * i) / steps;
    if (!isInside(sweep.pointAt(s), body)) return s;
  }
  return 0;
}

/** Whether a point lies in the body; nothing that is drawn reaches ahead of its nose. */
function isInside([x, y, z]: Vec3, body: Body): boolean {
  if (x >= body.to) return false;
  const { halfWidth, above, below, roundness } = body.sectionAt(x);
  const height = z > 0 ? above : below;
  return Math.abs(y / halfWidth) ** roundness + (z === 0 ? 0 : Math.abs(z / height) ** roundness) < 1;
}

/** A rib is measured across: from the body's surface to its crown, its width along the bait as thickness. */
function ribLine({ root, length, width }: AppendageTable, body: Body): Line {
  const section = body.sectionAt(root.at);
  const foot = section.halfWidth - length;
  const across = section.above + section.below;
  const at = Array.from({ length: POINTS }, (_, i) => i / (POINTS - 1));
  return {
    middleLine: at.map((t): Vec3 => [root.at, foot + t * length, 0]),
    profile: at.map((t) => ({
      s: t * length,
      // The inverse of the flank's half cosine.
      width: width.tip + ((width.root - width.tip) * Math.acos(2 * t - 1)) / Math.PI,
      thickness: across,
    })),
  };
}
