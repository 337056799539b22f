import type { Mesh } from '../core/mesh/mesh.ts';
import type { Outline } from '../core/section/geometry.ts';
import { outlineOf, sectionAt } from '../core/section/slice.ts';
import { MERGED_WITHIN, moldHalves, type HollowVolumes, type MoldHalves } from '../core/solid/half.ts';
import type { MoldLayout, MoldTable, PlacedCavity } from '../core/solid/mold-table.ts';
import { meshInBlock, turnedDirection } from '../core/solid/plan.ts';
import type { BaitGeometry } from '../core/section/geometry.ts';
import type { Mold } from '../schema/mold.ts';
import { moldTable } from './case.ts';
import type { Remember } from './tools.ts';

/** The closed mold cut across through its first cavity; outlines are (y, z) in the block's frame [m]. */
export interface MoldSection {
  /** Station along the block. */
  readonly x: number;
  readonly lower: Outline;
  readonly upper: Outline;
  /** Sections of the baits where they lie. */
  readonly plastic: Outline;
}

/** What the two solid halves of a mold tell [m, m³]; of the solids themselves one is kept, made plain. */
export interface MoldStudy {
  readonly layout: MoldLayout;
  /** Block as it is before anything is cut. */
  readonly block: number;
  /** Metal left in both halves. */
  readonly metal: number;
  readonly hollow: HollowVolumes;
  readonly section: MoldSection;
  /** The lower half in the block's frame, with fewer triangles, for pictures. */
  readonly shown: Mesh;
}

/** Whether the cavities of the halves hold the baits. */
export interface ShotCheck {
  /** Hollows of the halves that are no channel, over the volume of all baits [1]. */
  readonly ratio: number;
  /** How far the ratio may be off: what moving all of the bait's surface by the merging tolerance would do [1]. */
  readonly tolerance: number;
}

/** The halves agree with the baits to this part where the merging moves nothing [1]. */
const ROUNDING = 1e-6;

type Parts = { readonly mold: Mold; readonly geometry: BaitGeometry };

/** Volume of everything that is cut but the cavities [m³]. */
function cutBesides({ gates, runner, sprue, vents, pins }: HollowVolumes): number {
  return gates + runner + sprue + vents.edge + vents.collector + vents.outlet + pins;
}

/** Sections of all baits that a plane across the block cuts. */
function plasticAt(mesh: Mesh, cavities: readonly PlacedCavity[], x: number): Outline {
  return cavities.flatMap((cavity) => {
    const along = cavity.outline.flat().map((point) => point[0]);
    const cut = Math.min(...along) < x && x < Math.max(...along);
    return cut ? outlineOf(sectionAt(meshInBlock(mesh, cavity), 'x', x)) : [];
  });
}

function sectionOf({ mesh, thickest }: BaitGeometry, { layout, lower, upper }: MoldHalves): MoldSection {
  const [first] = layout.cavities;
  if (!first) throw new RangeError('moldStudy: wants at least one cavity, got none');
  const x = first.x + turnedDirection([thickest.at[0], thickest.at[1]], first)[0];
  const metal = (half: Mesh) => outlineOf(sectionAt(half, 'x', x));
  return {
    x,
    lower: metal(lower.mesh),
    upper: metal(upper.mesh),
    plastic: plasticAt(mesh, layout.cavities, x),
  };
}

async function studyOf(table: MoldTable, geometry: BaitGeometry): Promise<MoldStudy> {
  const halves = await moldHalves(table);
  const { length, width, thickness } = table.block;
  return {
    layout: halves.layout,
    block: length * width * thickness,
    metal: halves.lower.volume + halves.upper.volume,
    hollow: halves.hollow,
    section: sectionOf(geometry, halves),
    shown: halves.shown,
  };
}

/**
 * Cuts both halves of a mold from the block and keeps what pages need of them.
 *
 * @throws {RangeError} in plain words when the mold cannot be cut as stated, or its cavities do not hold the baits
 */
export async function moldStudy(parts: Parts, remember: Remember): Promise<MoldStudy> {
  const { geometry } = parts;
  const table = moldTable(parts);
  const study = await remember('mold', { table, thickest: geometry.thickest }, () =>
    studyOf(table, geometry),
  );
  const { ratio, tolerance } = shotCheck(parts, study);
  if (Math.abs(ratio - 1) > tolerance) {
    throw new RangeError(
      `shot check: wants cavities that hold ${parts.mold.cavities.length} times the bait's volume within ${percent(tolerance)}, got ${percent(ratio)} of it`,
    );
  }
  return study;
}

const percent = (share: number): string => `${(100 * share).toFixed(2)} %`;

/** Compares the cavities, as the block less the metal of both halves and less all else that is cut, with the baits. */
export function shotCheck(
  { mold, geometry }: Parts,
  { block, metal, hollow }: Pick<MoldStudy, 'block' | 'metal' | 'hollow'>,
): ShotCheck {
  const cavities = block - metal - cutBesides(hollow);
  return {
    ratio: cavities / (mold.cavities.length * geometry.volume),
    tolerance: ROUNDING + (MERGED_WITHIN * geometry.surface) / geometry.volume,
  };
}
