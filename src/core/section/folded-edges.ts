import type { Mesh, Vec3 } from '../mesh/mesh.ts';
import { nextCorner, turnBeyond, walkedMesh, type WalkedMesh } from './surface-walk.ts';

/** An edge that may show in a view along z: a contour, or a crease that stands out (ridge) or lies in (groove). */
export interface FoldedEdge {
  /** Vertices at its ends. */
  readonly from: number;
  readonly to: number;
  readonly kind: 'contour' | 'ridge' | 'groove';
  /** Unit vector half-way between the normals of its faces [1]. */
  readonly outwards: Vec3;
}

/** A face is seen edge on when its normal leans towards the eye by less than this [1]. */
const EDGE_ON = 1e-9;

/** Least turn of a surface that is drawn as a crease [rad]. */
const CREASE = (30 * Math.PI) / 180;
/** Cosine of the least fold that is the middle of one, 8° [1]. */
const FLAT = Math.cos((8 * Math.PI) / 180);
/** A surface that turns by more than this is a rounded part of its own, unless it does so within `SHARP` [rad]. */
const ROUND = (100 * Math.PI) / 180;
const SHARP = 5e-4;
/** Radius below which a rounded edge counts as an edge [m]. */
const RADIUS = 1.8e-3;
/** Folds farther apart than `gap` do not belong together; what still turns after `reach` is a round [m]. */
const LIMITS = { gap: 1e-3, reach: 4e-3 };
/** The edge in the middle of the turn has as much on one side as on the other, within this part of its own [1]. */
const MIDDLE = 1.15;

/** A mesh with what its edges are, for views from several sides. */
export interface FoldedMesh extends WalkedMesh {
  /** What each half edge is as far as it was asked for: 0 where not yet, else a place in `KINDS` plus one. */
  readonly known: Uint8Array;
}

const KINDS = [null, 'ridge', 'groove'] as const;

/**
 * A mesh with what `foldedEdges` needs.
 *
 * @param mesh - closed and wound outwards [m]
 * @returns the mesh, ready for views from any side [m]
 *
 * Cost: one pass over the triangles.
 * Source: definition.
 */
export function foldedMesh(mesh: Mesh): FoldedMesh {
  return { ...walkedMesh(mesh), known: new Uint8Array(mesh.triangles.length) };
}

/**
 * Edges of a mesh that may show in a view from one side: contours, where it turns away from the eye, and creases. What looks
 * away from the eye altogether is left out.
 *
 * A crease is where the surface turns by 30° or more in one sense, be it at one edge or over several: the edge in the middle of
 * the turn stands for it. A turn of more than 100° that takes more than half a millimetre is a round, such as that of a leg, and
 * has no crease: so facets of a coarse mesh are not taken for edges of the part.
 *
 * @param mesh - closed and wound outwards [m]; it keeps what is found of its edges for the next view
 * @param eye - unit vector towards the eye [1]
 * @returns edges by the numbers of their vertices, each once
 *
 * Cost: one pass over the triangles, and a short walk from each folded edge, once for all views.
 * Source: own derivation.
 */
export function foldedEdges(mesh: FoldedMesh, eye: Vec3): FoldedEdge[] {
  const { triangles, normals: n, opposite } = mesh;
  const [ex, ey, ez] = eye;
  const found: FoldedEdge[] = [];
  for (let edge = 0; edge < triangles.length; edge++) {
    const other = opposite[edge]!;
    if (other < edge) continue;
    const a = edge - (edge % 3);
    const b = other - (other % 3);
    const one = n[a]! * ex + n[a + 1]! * ey + n[a + 2]! * ez > EDGE_ON;
    const two = n[b]! * ex + n[b + 1]! * ey + n[b + 2]! * ez > EDGE_ON;
    if (!one && !two) continue;
    const kind = one === two ? creaseOf(mesh, edge, other) : 'contour';
    if (!kind) continue;
    const sum: Vec3 = [n[a]! + n[b]!, n[a + 1]! + n[b + 1]!, n[a + 2]! + n[b + 2]!];
    const size = Math.hypot(...sum) || 1;
    found.push({
      from: triangles[edge]!,
      to: triangles[nextCorner(edge)]!,
      kind,
      outwards: [sum[0] / size, sum[1] / size, sum[2] / size],
    });
  }
  return found;
}

/** What an edge is, found once. */
function creaseOf(mesh: FoldedMesh, edge: number, other: number): 'ridge' | 'groove' | null {
  const known = mesh.known[edge]!;
  if (known > 0) return KINDS[known - 1]!;
  const kind = creaseAt(mesh, edge, other);
  mesh.known[edge] = KINDS.indexOf(kind) + 1;
  return kind;
}

function creaseAt(mesh: WalkedMesh, edge: number, other: number): 'ridge' | 'groove' | null {
  const { normals: n } = mesh;
  const a = edge - (edge % 3);
  const b = other - (other % 3);
  const cosine = n[a]! * n[b]! + n[a + 1]! * n[b + 1]! + n[a + 2]! * n[b + 2]!;
  if (cosine > FLAT) return null;
  const fold = Math.acos(Math.max(-1, cosine));
  const sense = standsOut(mesh, edge, other) ? 1 : -1;
  const [left, right] = [turnBeyond(mesh, edge, sense, LIMITS), turnBeyond(mesh, other, sense, LIMITS)];
  const turn = left.turn + fold + right.turn;
  const width = left.way + right.way;
  if (turn < CREASE || turn * RADIUS < width || (turn > ROUND && width > SHARP)) return null;
  if (Math.abs(left.turn - right.turn) > MIDDLE * fold) return null;
  return sense > 0 ? 'ridge' : 'groove';
}

/** Whether the far corner of the other triangle lies below this one. */
function standsOut(
  { normals: n, positions: p, triangles }: WalkedMesh,
  edge: number,
  other: number,
): boolean {
  const face = edge - (edge % 3);
  const far = 3 * triangles[nextCorner(nextCorner(other))]!;
  const near = 3 * triangles[edge]!;
  const height =
    n[face]! * (p[far]! - p[near]!) +
    n[face + 1]! * (p[far + 1]! - p[near + 1]!) +
    n[face + 2]! * (p[far + 2]! - p[near + 2]!);
  return height < 0;
}
