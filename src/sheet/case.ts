import { band, quadrature, type Band } from '../core/quantity/band.ts';
import type { BaitGeometry } from '../core/section/geometry.ts';
import type { MoldLayout, MoldTable } from '../core/solid/mold-table.ts';
import { ALLOYS } from '../core/mold/alloy.ts';
import { blockMass, blockSurface } from '../core/mold/block.ts';
import { handPressure } from '../core/mold/clamp.ts';
import { channelVolume } from '../core/shot/channels.ts';
import { compoundDensity, hotDensity } from '../core/shot/compound-density.ts';
import { gateShutDrop, topOffShare } from '../core/shot/contraction.ts';
import { smallestInjector } from '../core/shot/injector-fit.ts';
import { shotMass, shotVolume, type ShotVolume } from '../core/shot/shot-volume.ts';
import type { Revision } from '../schema/bait.ts';
import type { Bait, Catalogue, Entry, Injector, Mold, Plastisol } from '../schema/collections.ts';
import type { Ledger } from '../schema/published.ts';
import type { MeasuredRevision } from './trial-study.ts';
import type { MoldStudy } from './mold-study.ts';
import { COLD_MOLD, HAND_FORCE, TRANSFER_LOSS } from './practice.ts';
import { pourBand, type PourBand } from './pour.ts';

/** What a case is made from. */
export interface CaseParts {
  readonly catalogue: Catalogue;
  readonly mold: Entry<Mold>;
  readonly bait: Entry<Bait>;
  readonly revision: Revision;
  readonly plastisol: Entry<Plastisol>;
  readonly geometry: BaitGeometry;
  /** What the two solid halves tell. */
  readonly halves: MoldStudy;
  /** Revisions of the bait up to the newest one that may be shown, oldest first. */
  readonly family: readonly MeasuredRevision[];
  /** What has been published of this mold; null before the first time. */
  readonly ledger: Ledger | null;
}

/** One mold with everything that its figures start from [SI]. */
export interface Case extends CaseParts {
  /** Density of the compound at 20 °C and at pouring heat [kg/m³]. */
  readonly density: Band;
  readonly hotDensity: Band;
  /** Where everything lies in the block. */
  readonly layout: MoldLayout;
  /** The round runners as cut: stated length, else that of the layout [m]. */
  readonly runner: { readonly diameter: number; readonly length: number } | undefined;
  /** Sprue, runners and gates together [m³], and where that was taken from. */
  readonly channels: { readonly volume: number; readonly from: 'solid' | 'closed forms' };
  readonly pour: PourBand;
  /** Melt as it reaches the gate [K]. */
  readonly gateTemperature: Band;
  readonly shot: ShotVolume;
  readonly shotMass: Band;
  /** Mean fall of the bait's temperature until the gate shuts [K]. */
  readonly topOffDrop: number;
  readonly topOffShare: Band;
  /** The smallest listed injector that holds the shot; null when none does. */
  readonly injector: Entry<Injector> | null;
  /** The injector that pressures are worked out for: `injector`, or the largest listed. */
  readonly pushedWith: Entry<Injector>;
  /** Under the plunger by one hand [Pa]. */
  readonly pressure: Band;
  readonly blockMass: number;
  readonly blockSurface: number;
}

/** Diameter of a round sprue as the square gate of the same area, when no narrower gate shuts first. */
function gateOf({ gate }: Mold): { gateWidth: number; gateDepth: number } {
  return { gateWidth: gate.width, gateDepth: gate.depth };
}

function topOffOf(parts: CaseParts, pour: PourBand): { drop: number; share: Band } {
  const { plastisol, mold, geometry } = parts;
  const temperatures = { pour: pour.nominal, noFlow: plastisol.noFlow.value, mold: COLD_MOLD.value };
  const drop = gateShutDrop(temperatures, { ...gateOf(mold), bodyDiameter: geometry.thickest.thickness });
  return { drop, share: topOffShare(plastisol.expansion, drop, pour.nominal - plastisol.noFlow.value) };
}

/** A mold entry with the solid of its bait in every cavity: what the layout and the halves are made from. */
export function moldTable({ mold, geometry }: { mold: Mold; geometry: BaitGeometry }): MoldTable {
  const tips = geometry.features.flatMap(({ stations }) => {
    const tip = stations.at(-1)?.at;
    return tip ? [[tip[0], tip[1]] as const] : [];
  });
  const { mesh, plan } = geometry;
  const { block, sprue, runner, gate, vents, pins } = mold;
  const cavities = mold.cavities.map(({ x, y, turn, mirrored }) => {
    return { x, y, turn, mirrored, mesh, plan, tips };
  });
  return { cavities, block, sprue, runner, gate, vents, pins };
}

/** The runners with their length; none where the sprue ends at the gate. */
function runnerOf({ runner }: Mold, layout: MoldLayout): Case['runner'] {
  const length = runner?.length ?? layout.runnerLength;
  return runner && length > 0 ? { diameter: runner.diameter, length } : undefined;
}

/** Volume of the channels: as cut in the solid halves; by closed forms where the runners were measured or there are none. */
function channelsOf({ mold, halves: { hollow } }: CaseParts, runner: Case['runner']): Case['channels'] {
  if (runner && mold.runner?.length === undefined) {
    return { from: 'solid', volume: hollow.gates + hollow.runner + hollow.sprue };
  }
  const { sprue, gate, cavities } = mold;
  return {
    from: 'closed forms',
    volume: channelVolume({ sprue, runner, gate, cavities: cavities.length }),
  };
}

/** Works out what every figure of a mold starts from. */
export function caseOf(parts: CaseParts): Case {
  const { mold, plastisol, geometry, catalogue } = parts;
  const density = plastisol.density ?? compoundDensity(plastisol.recipe);
  const pour = pourBand(plastisol);
  const topOff = topOffOf(parts, pour);
  const cavities = mold.cavities.length;
  const { layout, block, metal } = parts.halves;
  const runner = runnerOf(mold, layout);
  const channels = channelsOf(parts, runner);
  const shot = shotVolume({
    cavity: geometry.volume,
    cavities,
    runner: channels.volume,
    topOffShare: topOff.share,
  });
  const injector = smallestInjector(shot.total, catalogue.injectors);
  const pushedWith = injector ?? largest(catalogue.injectors);
  const hot = hotDensity(density);
  const gateTemperature = quadrature(
    ({ poured, lost }) => poured - lost,
    { poured: band(pour.nominal), lost: TRANSFER_LOSS },
    'linear',
  );
  return {
    ...parts,
    layout,
    runner,
    channels,
    density,
    hotDensity: hot,
    pour,
    gateTemperature,
    shot,
    shotMass: shotMass(shot.total, hot),
    topOffDrop: topOff.drop,
    topOffShare: topOff.share,
    injector,
    pushedWith,
    pressure: handPressure(pushedWith.piston, HAND_FORCE),
    blockMass: blockMass(mold.block, block - metal, ALLOYS[mold.block.alloy].density),
    blockSurface: blockSurface(mold.block),
  };
}

function largest(injectors: Catalogue['injectors']): Entry<Injector> {
  const found = [...injectors].sort((a, b) => b.capacity - a.capacity)[0];
  if (!found) throw new RangeError('caseOf: wants at least one injector in the catalogue, got none');
  return found;
}
