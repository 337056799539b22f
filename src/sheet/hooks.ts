import { band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import {
  bestHookIndex,
  HOOK_FIT_SOURCES,
  hookFit,
  SQUEEZED,
  type GapeFit,
} from '../core/rigging/hook-fit.ts';
import type { Bait, Entry, Hook } from '../schema/collections.ts';
import type { HookSize } from '../schema/hook.ts';
import type { Case } from './case.ts';
import { bodyExtents } from './sections.ts';
import type { HookFit } from './sheet.ts';

type Rig = Bait['rigs'][number];

const REASONS: Readonly<Record<GapeFit['reason'], string>> = {
  comfortable: 'The point clears the squeezed body with room to spare.',
  gape: 'The point hardly clears the squeezed body.',
  'short hook': 'The shank is short for this bait: the point sits too far forward.',
  'long hook': 'The shank is long for this bait: it stiffens the tail.',
  'thick wire': 'The wire is thick for this body and tears it.',
};

/** Body height against which a hook pulls, by distance from the nose [m]: up as the bait swims. */
export function heightProfile({
  geometry,
  bait,
}: Pick<Case, 'geometry' | 'bait'>): (station: number) => number {
  const length = geometry.box.max[0] - geometry.box.min[0];
  const steps = 120;
  const stations = Array.from({ length: steps + 1 }, (_, i) => {
    const inside = Math.min(Math.max(i, 0.2), steps - 0.2);
    return geometry.box.min[0] + (length * inside) / steps;
  });
  const heights = bodyExtents(geometry, stations).map(({ across, out }) =>
    bait.lies === 'on its side' ? across : out,
  );
  return (station) => {
    const place = Math.min(steps, Math.max(0, (station / length) * steps));
    const low = Math.floor(place);
    const [before, after] = [heights[low] ?? 0, heights[Math.min(steps, low + 1)] ?? 0];
    return before + (after - before) * (place - low);
  };
}

function figures(key: string, size: HookSize, fit: GapeFit): { clearance: Figure; ratio: Figure } {
  const inputs = [
    figureInput('gape', band(size.gape), 'mm'),
    figureInput('body height there', band(fit.height), 'mm'),
    figureInput('squeezed to', SQUEEZED, '1'),
  ];
  const basis = 'Gape of the hook against the tallest body between shank and point, squeezed as a fish does.';
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

function fitsOf(given: Case, hook: Entry<Hook>, rig: Rig, heightAt: (x: number) => number): HookFit[] {
  const length = given.geometry.box.max[0] - given.geometry.box.min[0];
  const fits = hook.sizes.map((size) => hookFit(size, { length, heightAt }, rig));
  const best = bestHookIndex(fits);
  return fits.map((fit, i) => {
    const size = hook.sizes[i] as HookSize;
    return {
      hook,
      size: size.size,
      rig,
      verdict: i === best ? 'best' : fit.verdict,
      ...figures(keyOf(hook, rig, size), size, fit),
      reason: REASONS[fit.reason],
      entry: fit.entry,
      exit: fit.exit,
    };
  });
}

/** How every listed hook fits the bait on each rig it is made for, rigs in the bait's own order. */
export function hookFits(given: Case): HookFit[] {
  const heightAt = heightProfile(given);
  return given.bait.rigs.flatMap((rig) =>
    given.catalogue.hooks
      .filter(({ rigs }) => rigs.includes(rig))
      .flatMap((hook) => fitsOf(given, hook, rig, heightAt)),
  );
}

/** The hook to name first: the best of the bait's usual rig, else of the next rig that has one. */
export function bestHook(given: Case, fits: readonly HookFit[]): HookFit | null {
  for (const rig of given.bait.rigs) {
    const found = fits.find((fit) => fit.rig === rig && fit.verdict === 'best');
    if (found) return found;
  }
  return null;
}
