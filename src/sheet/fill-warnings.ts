import type { ReserveInputs } from '../core/fill/grid/reserve-band.ts';
import type { Vec2 } from '../core/mesh/mesh.ts';
import { turnedDirection } from '../core/solid/plan.ts';
import type { Case } from './case.ts';
import { cavityFeeds } from './fill-feed.ts';
import { FILL_INPUT_WORDS } from './fill-inputs.ts';
import { firstShot } from './first-shot.ts';
import type { FillModel, FillStudy } from './fill-study.ts';
import type { Sheet } from './sheet.ts';
import { featureLabel } from './words.ts';

function short({ mold }: Case, studies: readonly FillStudy[]): string[] {
  const { short: parts, warmed } = firstShot(mold, studies);
  const where = warmed ? 'in a mold warmed as `warmTo` says' : 'in a cold mold';
  return parts.map((label) => `the ${label} comes short ${where} at nominal`);
}

/** A thin part that the plan grid does not show. */
function unseen({ geometry }: Case, { table }: FillModel): string[] {
  const shown = new Set(table.parts.map(({ name }) => name));
  return geometry.features
    .filter(({ kind, name }) => kind !== 'rib' && !shown.has(name))
    .map(
      (feature) => `the ${featureLabel(feature)} does not show in the plan: its filling is not worked out`,
    );
}

/** A cavity starves when the easiest one has this much more reserve [1], and reserves are not ample. */
const [STARVED, AMPLE] = [1.1, 1.2];

function starved(given: Case, studies: readonly FillStudy[]): string[] {
  const weakest = studies.find(({ part, cold }) => Math.exp(part.easier / 2) > STARVED && cold.low < AMPLE);
  if (!weakest) return [];
  const more = Math.round(100 * (Math.exp(weakest.part.easier / 2) - 1));
  return [
    `its runners starve cavity ${cavityFeeds(given).cavity}: the ${weakest.label} has ${more}% more reserve in the cavity that is easiest to reach; widen the runner or place the cavities evenly`,
  ];
}

/** How far from the last place to fill the nearest edge vent may lie [m]: common practice. */
const NEAR = 0.008;

const mm = (metres: number) => `${Math.round(metres * 1e3)} mm`;

function unvented({ layout }: Case, { cold, warm }: FillModel): string[] {
  // Where a cavity stops short, nothing is known of the places beyond.
  const [place] = [cold, warm].find(({ short }) => !short.includes(1))?.last ?? [];
  const [cavity] = layout.cavities;
  const edges = layout.vents.filter((vent) => vent.tier === 'edge' && vent.cavity === 0);
  if (!place || !cavity || edges.length === 0) return [];
  const [x, y] = turnedDirection([place.x, place.y], cavity);
  const at: Vec2 = [x + cavity.x, y + cavity.y];
  const away = Math.min(...edges.map(({ from }) => Math.hypot(from[0] - at[0], from[1] - at[1])));
  if (away <= NEAR) return [];
  return [
    `its last place to fill lies ${mm(place.x)} from the nose and ${mm(Math.abs(place.y))} beside the middle line, ${mm(away)} from the nearest edge vent: put a vent there`,
  ];
}

/** What the maker should know of the filling. */
export function fillWarnings(given: Case, model: FillModel, studies: readonly FillStudy[]): string[] {
  return [
    ...short(given, studies),
    ...unseen(given, model),
    ...starved(given, studies),
    ...unvented(given, model),
  ];
}

/** How to measure what makes the band of the fill reserves wide; others are out of a workshop's reach. */
const MEASURE: Partial<Record<keyof ReserveInputs, string>> = {
  viscosity: 'shoot short shots into a slot of even gap and enter them under `measured`',
  noFlow: 'cool a cup while you stir it, note where it stops to flow, and narrow `noFlow`',
  pressure: 'push on a bathroom scale, and tell customers how hard',
};

/** For each compound whose reserves leave the verdict open: the one measurement that narrows them most. */
export function measureHints(sheets: readonly Sheet[]): string[] {
  const open = sheets.filter(({ verdicts }) => verdicts.cold.code !== 'fills cold');
  return open.flatMap(({ plastisol, filling }) => {
    const [widest] = filling.widest;
    const name = widest?.name as keyof ReserveInputs | undefined;
    const how = name && MEASURE[name];
    return how
      ? [
          `${plastisol.id}: most of the width of its fill reserves comes from the ${FILL_INPUT_WORDS[name]}; to narrow it, ${how}`,
        ]
      : [];
  });
}
