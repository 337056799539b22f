import { band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import { printedBoth, type UnitSystem } from '../core/quantity/print.ts';
import { HOOK_FIT_SOURCES, hookChoice } from '../core/rigging/hook-fit.ts';
import { hookForm, wireExit, type HookForm } from '../core/rigging/hook-form.ts';
import { RIG_HABITS, type Rig } from '../core/rigging/rigs.ts';
import { kinks, type Kink } from '../core/rigging/straightness.ts';
import type { HookSize } from '../schema/hook.ts';
import type { Case } from './case.ts';
import { rigsOf, type HookedSide } from './hooks.ts';
import type { HookFit, RigAdvice } from './sheet.ts';
import { sizeWords } from './words.ts';

const rigKey = (rig: string) => `rig.${rig.toLowerCase().replaceAll(' ', '-')}`;

/** The size of a hook that a fit speaks of. */
export function sizeOf({ hook, size }: Pick<HookFit, 'hook' | 'size'>): HookSize {
  const found = hook.sizes.find((one) => one.size === size);
  if (!found) throw new RangeError(`sizeOf: wants a size of ${hook.id}, got "${size}"`);
  return found;
}

interface Station {
  readonly name: string;
  readonly label: string;
  readonly at: number;
  readonly basis: string;
}

function stationsOf(best: HookFit, exit: number | null): Station[] {
  const { entry, point, trim } = best.fit;
  const size = `${sizeWords(best.size)} ${best.hook.name.toLowerCase()}`;
  return [
    ...(trim > 0
      ? [
          {
            name: 'trim',
            label: 'Cut it off here',
            at: trim,
            basis: `Cut here, the point of a ${size} comes out just ahead of the tail; of a bait without a tail, what is left suits the hook.`,
          },
        ]
      : []),
    { name: 'entry', label: 'Hook goes in', at: entry, basis: `Where a ${size} enters on this rig.` },
    ...(exit === null
      ? []
      : [
          {
            name: 'exit',
            label: 'Shank comes out',
            at: exit,
            basis: `Where the wire of a ${size} first leaves the body, lying as drawn.`,
          },
        ]),
    {
      name: 'point',
      label: 'Point lies',
      at: point,
      basis: `Overall length of a ${size} less its throat, from where it enters; a threaded hook keeps its eye ahead of the bait.`,
    },
  ];
}

function stationFigures(rig: string, best: HookFit, exit: number | null): Figure[] {
  const { length, bite } = sizeOf(best);
  return stationsOf(best, exit).map(({ name, label, at, basis }) =>
    figure(
      {
        key: `${rigKey(rig)}.${name}`,
        label,
        unit: 'mm',
        basis: `${basis} From the nose, along the bait.`,
        formula: name === 'point' ? 'entry + length − throat' : '',
        inputs: [figureInput('hook length', band(length), 'mm'), figureInput('throat', band(bite), 'mm')],
        sources: [best.hook.source, ...HOOK_FIT_SOURCES.slice(2)],
      },
      band(at),
    ),
  );
}

type Say = (metres: number) => string;

const sayIn =
  (units: UnitSystem): Say =>
  (metres) => {
    const mm = metres * 1e3;
    return printedBoth({ value: mm, low: mm, high: mm, unit: 'mm' }, units);
  };

function kinkWords(kink: Kink, say: Say): string {
  switch (kink.cause) {
    case 'tail':
      return `The bend lies in the ${kink.feature.replaceAll('-', ' ')}, which begins at ${say(kink.at)}: a smaller hook lets it move.`;
    case 'root':
      return `The point lies at the root of the ${kink.feature.replaceAll('-', ' ')}, ${say(kink.at)} from the nose: bring it out just ahead of there, or the limb pulls the body crooked.`;
    case 'step':
      return `The hook steps off more or less than the nose is high, by ${say(kink.size)}: enter lower or higher until the body lies flat along the shank.`;
    case 'bow':
      return `The body itself bows by ${say(kink.size)} along the shank: follow its middle line, or it rides crooked.`;
  }
}

const ENDINGS = {
  weedless:
    'Lay the hook along the bait first and mark where the bend comes: the point goes back in there, so that the bait hangs straight. Then bury the tip just under the skin of the back.',
  threaded:
    'Lay the hook along the bait first and mark where the bend comes: bring the point out there, on the middle of the back, so that the bait hangs straight.',
  'through the nose': 'Go in under the chin and out through the middle of the snout, so that it hangs level.',
} as const;

function stepsOf(best: HookFit, exit: number | null, found: readonly Kink[], say: Say): string[] {
  const { lie } = RIG_HABITS[best.rig as Rig];
  const { trim, entry, point } = best.fit;
  const cut =
    trim > 0 ? [`Cut the front off ${say(trim)} from the nose, square, and thread on what is left.`] : [];
  const through =
    lie === 'weedless' && exit !== null
      ? `In at the tip of the nose, out of the belly ${say(exit)} back; the point lies ${say(point)} from the nose.`
      : lie === 'threaded'
        ? `In at the middle of the front, along the body; the point comes out ${say(point)} from the nose.`
        : `Through the nose, ${say(entry)} from its tip.`;
  return [...cut, through, ENDINGS[lie], ...found.map((kink) => kinkWords(kink, say))];
}

function formOf(best: HookFit, side: HookedSide): HookForm {
  return hookForm(sizeOf(best), RIG_HABITS[best.rig as Rig].lie, side.body, best.fit.entry);
}

function adviceOn(given: Case, side: HookedSide, pattern: readonly HookFit[], best: HookFit): RigAdvice {
  const { smallest, largest } = hookChoice(pattern.map(({ fit }) => fit));
  const form = formOf(best, side);
  const exit = form.lie === 'weedless' ? wireExit(form.line, side.body) : null;
  const { entry, point, reach } = best.fit;
  const { features } = given.geometry;
  const found = kinks({ body: side.body, form, gape: sizeOf(best).gape, entry, point, reach, features });
  return {
    rig: best.rig,
    best,
    from: pattern[smallest]?.size ?? best.size,
    to: pattern[largest]?.size ?? best.size,
    below: pattern[smallest - 1]?.reason ?? null,
    above: pattern[largest + 1]?.reason ?? null,
    steps: stepsOf(best, exit, found, sayIn(given.catalogue.shop.units)),
    stations: stationFigures(best.rig, best, exit),
    section: side.outline,
    form,
  };
}

/** The hook for each rig of the bait, rigs in the bait's own order; a rig that no listed hook fits is left out. */
export function rigAdvice(given: Case, side: HookedSide, fits: readonly HookFit[]): RigAdvice[] {
  return rigsOf(given).flatMap((rig) => {
    const best = fits.find((fit) => fit.rig === rig && fit.verdict === 'best');
    if (!best) return [];
    const pattern = fits.filter((fit) => fit.rig === rig && fit.hook.id === best.hook.id);
    return [adviceOn(given, side, pattern, best)];
  });
}
