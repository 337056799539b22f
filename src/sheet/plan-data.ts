import { recipeHardness } from '../core/hardness/compound-hardness.ts';
import type { PlanCompound, PlanData } from '../core/plan/plan-state.ts';
import { compoundDensity } from '../core/shot/compound-density.ts';
import type { Catalogue, Entry, Injector, Plastisol } from '../schema/collections.ts';
import { pourBand } from './pour.ts';
import type { Brief } from './brief.ts';

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

type Planned = Pick<Brief, 'plan' | 'plastisol' | 'injectors'>;

/** What most of these have; the first of equals. */
function usual(ids: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const id of ids) counts.set(id, (counts.get(id) ?? 0) + 1);
  const count = (id: string) => counts.get(id) ?? 0;
  return ids.reduce((best, id) => (count(id) > count(best) ? id : best), ids[0] ?? '');
}

/** The smallest injector that fills as many of these molds in one push as any does. */
function startInjector(listed: readonly Entry<Injector>[], sheets: readonly Planned[]): string {
  const fills = (id: string) =>
    sheets.filter(({ injectors }) => injectors.some((fit) => fit.injector.id === id && fit.holds)).length;
  const most = Math.max(0, ...listed.map(({ id }) => fills(id)));
  return listed.find(({ id }) => fills(id) === most)?.id ?? '';
}

/** What the planner chooses from: the molds of these sheets, every compound and injector of the catalogue. */
export function planData(
  { plastisols, injectors }: Pick<Catalogue, 'plastisols' | 'injectors'>,
  sheets: readonly Planned[],
): PlanData {
  const listed = [...injectors].sort((a, b) => a.capacity - b.capacity);
  return {
    molds: sheets.map(({ plan }) => plan),
    compounds: plastisols.map(planCompound),
    injectors: listed.map(({ id, name, capacity }) => ({ id, name, capacity })),
    start: {
      compound: usual(sheets.map(({ plastisol }) => plastisol.id)),
      injector: startInjector(listed, sheets),
    },
  };
}
