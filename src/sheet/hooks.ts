import { band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import {
  HOOK_FIT_SOURCES,
  hookChoice,
  hookFit,
  SQUEEZED,
  type GapeFit,
  type HookedBait,
} from '../core/rigging/hook-fit.ts';
import { hookPlaneSection, sideBody, type SideBody } from '../core/rigging/side-body.ts';
import { RIG_HABITS } from '../core/rigging/rigs.ts';
import { tailRootStation } from '../core/rigging/straightness.ts';
import type { Outline } from '../core/section/geometry.ts';
import type { Bait, Entry, Hook } from '../schema/collections.ts';
import type { HookSize } from '../schema/hook.ts';
import type { Case } from './case.ts';
import type { HookFit } from './sheet.ts';

type Rig = Bait['rigs'][number];

const REASONS: Readonly<Record<GapeFit['reason'], string>> = {
  comfortable: 'The point clears the squeezed body with room to spare.',
  gape: 'The point hardly clears the squeezed body.',
  'short hook': 'The shank is short for this bait: the point sits too far forward.',
  'long hook': 'The shank is long for this bait: it stiffens the tail.',
  'into the tail': 'The point would come out in the tail, which then cannot move.',
  'thick wire': 'The wire is thick for this body and tears it.',
};

/** The bait as a hook finds it: its side section, and the body in it. */
export interface HookedSide {
  readonly outline: Outline;
  readonly body: SideBody;
  readonly bait: HookedBait;
}

/** Cuts a bait by the plane that a hook lies in. */
export function hookedSide({ geometry, bait }: Pick<Case, 'geometry' | 'bait'>): HookedSide {
  const outline = hookPlaneSection(geometry.mesh, bait.lies);
  const body = sideBody(outline);
  const nose = body.nose[0];
  return {
    outline,
    body,
    bait: {
      length: geometry.box.max[0] - geometry.box.min[0],
      heightAt: (station) => body.backAt(nose + station) - body.bellyAt(nose + station),
      tailRoot: tailRootStation(geometry.features, nose),
    },
  };
}

function figures(key: string, size: HookSize, fit: GapeFit): { clearance: Figure; ratio: Figure } {
  const inputs = [
    figureInput('gape', band(size.gape), 'mm'),
    figureInput('point, from the nose', band(fit.point), 'mm'),
    figureInput('body height there', band(fit.height), 'mm'),
    figureInput('squeezed to', SQUEEZED, '1'),
  ];
  const basis =
    'Gape of the hook against the tallest body between shank and point, cut in the plane of the hook and squeezed as a fish does.';
  return {
    clearance: figure(
      {
        key: `${key}.clearance`,
        label: `Clearance of a ${size.size}`,
        unit: 'mm',
        basis,
        formula: 'gape − squeezed height',
        inputs,
        sources: HOOK_FIT_SOURCES,
      },
      fit.clearance,
    ),
    ratio: figure(
      {
        key: `${key}.ratio`,
        label: `Gape over squeezed height, ${size.size}`,
        unit: '1',
        basis,
        formula: 'gape/squeezed height',
        inputs,
        sources: HOOK_FIT_SOURCES,
      },
      fit.ratio,
    ),
  };
}

const keyOf = (hook: Entry<Hook>, rig: Rig, size: HookSize) =>
  `hook.${hook.id}.${rig.toLowerCase().replaceAll(' ', '-')}.${size.size.replace('/', '-')}`;

function fitsOf(hook: Entry<Hook>, rig: Rig, bait: HookedBait): HookFit[] {
  const fits = hook.sizes.map((size) => hookFit(size, bait, rig));
  const { best } = hookChoice(fits, RIG_HABITS[rig].trims === 'whole');
  return fits.map((fit, i) => {
    const size = hook.sizes[i] as HookSize;
    return {
      hook,
      size: size.size,
      rig,
      verdict: i === best ? 'best' : fit.verdict,
      ...figures(keyOf(hook, rig, size), size, fit),
      reason: REASONS[fit.reason],
      fit,
    };
  });
}

/** The rigs of what a mold makes, the usual one first: a tail alone goes on a jig. */
export function rigsOf({ bait, mold }: Pick<Case, 'bait' | 'mold'>): readonly Rig[] {
  return mold.from === undefined ? bait.rigs : ['tail on a jig'];
}

type Rigged = Pick<Case, 'bait' | 'mold' | 'catalogue'>;

/** How every listed hook fits the bait on each rig it is made for, rigs in the bait's own order. */
export function hookFits(given: Rigged, side: HookedSide): HookFit[] {
  const { catalogue } = given;
  return rigsOf(given).flatMap((rig) =>
    catalogue.hooks.filter(({ rigs }) => rigs.includes(rig)).flatMap((hook) => fitsOf(hook, rig, side.bait)),
  );
}

/** The hook to name first: the best of the bait's usual rig, else of the next rig that has one. */
export function bestHook(given: Pick<Case, 'bait' | 'mold'>, fits: readonly HookFit[]): HookFit | null {
  for (const rig of rigsOf(given)) {
    const found = fits.find((fit) => fit.rig === rig && fit.verdict === 'best');
    if (found) return found;
  }
  return null;
}
