import type { Mesh } from '../core/mesh/mesh.ts';
import { moldHalves, type CutVolumes, type HollowVolumes } from '../core/solid/half.ts';
import { MERGED_WITHIN } from '../core/solid/merged-bait.ts';
import { moldSection, type MoldSection } from '../core/solid/mold-section.ts';
import type { MoldLayout, MoldTable } from '../core/solid/mold-table.ts';
import { turnedDirection } from '../core/solid/plan.ts';
import type { BaitGeometry } from '../core/section/geometry.ts';
import type { Mold } from '../schema/mold.ts';
import { moldTable } from './case.ts';
import type { Remember } from './tools.ts';

/** What a mold tells as a solid [m, m³]; of the solids themselves one is kept, made plain. */
export interface MoldStudy {
  readonly layout: MoldLayout;
  /** Block as it is before anything is cut. */
  readonly block: number;
  /** Metal left in both halves: the block less all that is hollow. */
  readonly metal: number;
  readonly hollow: HollowVolumes;
  readonly cut: CutVolumes;
  /** Through the thickest place of the first cavity. */
  readonly section: MoldSection;
  /** The lower half in the block's frame, with fewer triangles, for pictures. */
  readonly shown: Mesh;
}

/** Whether the cavities of the halves hold the baits. */
export interface ShotCheck {
  /** Hollows of the lower half that are no channel, over that part of the baits as they were merged to be cut [1]. */
  readonly ratio: number;
  /** How far it may be off [1]. */
  readonly tolerance: number;
  /** Volume of the merged baits over that of the baits themselves [1]. */
  readonly merged: number;
  /** How far that may be off: what moving all of the bait's surface by half the merging tolerance would do [1]. */
  readonly merging: number;
}

/** The halves agree with the baits that were cut to this part [1]. */
const ROUNDING = 1e-6;

type Parts = { readonly mold: Mold; readonly geometry: BaitGeometry };

function hollowTotal({ cavities, gates, runner, sprue, vents, pins }: HollowVolumes): number {
  return cavities + gates + runner + sprue + vents.edge + vents.collector + vents.outlet + pins;
}

async function studyOf(table: MoldTable, { thickest }: Pick<BaitGeometry, 'thickest'>): Promise<MoldStudy> {
  const { layout, hollow, cut, channels, shown } = await moldHalves(table);
  const [first] = layout.cavities;
  if (!first) throw new RangeError('moldStudy: wants at least one cavity, got none');
  const x = first.x + turnedDirection([thickest.at[0], thickest.at[1]], first)[0];
  const { length, width, thickness } = table.block;
  const block = length * width * thickness;
  return {
    layout,
    block,
    metal: block - hollowTotal(hollow),
    hollow,
    cut,
    section: await moldSection(table, layout.cavities, channels, x),
    shown,
  };
}

/**
 * Cuts a mold from its block and keeps what pages need of it.
 *
 * @throws {RangeError} in plain words when the mold cannot be cut as stated, or its cavities do not hold the baits
 */
export async function moldStudy(parts: Parts, remember: Remember): Promise<MoldStudy> {
  const { geometry } = parts;
  const table = moldTable(parts);
  const study = await remember('mold', { table, thickest: geometry.thickest }, () =>
    studyOf(table, geometry),
  );
  const { ratio, tolerance, merged, merging } = shotCheck(parts, study);
  for (const [share, within] of [
    [ratio, tolerance],
    [merged, merging],
  ] as const) {
    if (Math.abs(share - 1) <= within) continue;
    throw new RangeError(
      `shot check: wants cavities that hold ${parts.mold.cavities.length} times the bait's volume within ${percent(within)}, got ${percent(share)} of it`,
    );
  }
  return study;
}

const percent = (share: number): string => `${(100 * share).toFixed(4)} %`;

/** Most that merging moves the surface on the mean, over its root mean square; 0.35 at most were seen, in 100 baits [1]. */
const MERGED_MEAN = 0.5;

/**
 * Compares the cavities of the lower half, as its block less its metal and less all else that is cut, with the merged baits
 * that were cut, and those with the baits.
 */
export function shotCheck(
  { mold, geometry }: Parts,
  { block, cut }: Pick<MoldStudy, 'block' | 'cut'>,
): ShotCheck {
  return {
    ratio: (block / 2 - cut.metal - cut.besides) / cut.baits,
    tolerance: ROUNDING,
    merged: cut.merged / (mold.cavities.length * geometry.volume),
    merging: (MERGED_MEAN * MERGED_WITHIN * geometry.surface) / geometry.volume,
  };
}
