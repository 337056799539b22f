import { recipeHardness } from '../core/hardness/compound-hardness.ts';
import type { PlanCompound, PlanData } from '../core/plan/plan-state.ts';
import { compoundDensity } from '../core/shot/compound-density.ts';
import type { Catalogue, Entry, Plastisol } from '../schema/collections.ts';
import { pourBand } from './pour.ts';
import type { Sheet } from './sheet.ts';

function planCompound(plastisol: Entry<Plastisol>): PlanCompound {
  const { id, name, density, hardness, recipe } = plastisol;
  const { low, nominal, high } = pourBand(plastisol);
  const bare = ({ value, low, high }: PlanCompound['density']) => ({ value, low, high });
  return {
    id,
    name,
    density: bare(density ?? compoundDensity(recipe)),
    shore00: bare(hardness ?? recipeHardness(recipe).shore00),
    pour: { low, nominal, high },
  };
}

/** What the planner chooses from: the molds of these sheets, every compound and injector of the catalogue. */
export function planData(
  { plastisols, injectors }: Pick<Catalogue, 'plastisols' | 'injectors'>,
  sheets: readonly Pick<Sheet, 'plan' | 'plastisol' | 'injectors'>[],
): PlanData {
  const [first] = sheets;
  const listed = [...injectors].sort((a, b) => a.capacity - b.capacity);
  const holding = first?.injectors.find(({ holds }) => holds)?.injector ?? listed.at(-1);
  return {
    molds: sheets.map(({ plan }) => plan),
    compounds: plastisols.map(planCompound),
    injectors: listed.map(({ id, name, capacity }) => ({ id, name, capacity })),
    start: { compound: first?.plastisol.id ?? plastisols[0]?.id ?? '', injector: holding?.id ?? '' },
  };
}
