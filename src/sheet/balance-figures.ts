import { massProperties, type MassProperties } from '../core/mesh/mass-properties.ts';
import { band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import type { Case } from './case.ts';
import { SOURCES } from './sources.ts';

type Axis = 'xx' | 'yy' | 'zz';

/** Axes of the mold's frame as the bait swims: a bait that lies on its side swims with y up. */
function swumAxes({ bait }: Pick<Case, 'bait'>): { upright: 1 | 2; across: Axis; up: Axis } {
  return bait.lies === 'on its side'
    ? { upright: 1, across: 'zz', up: 'yy' }
    : { upright: 2, across: 'yy', up: 'zz' };
}

/** √(I/m) about an axis through the centroid, from the two second moments across it. */
function gyration({ volume, moments }: MassProperties, one: Axis, other: Axis): number {
  return Math.sqrt((moments[one] + moments[other]) / volume);
}

function gyrations(given: Case, solid: MassProperties): Figure[] {
  const { across, up } = swumAxes(given);
  const rows = [
    ['Roll', 'rolling about its length', across, up],
    ['Pitch', 'pitching nose up or down', 'xx', up],
    ['Yaw', 'turning to one side', 'xx', across],
  ] as const;
  return rows.map(([turn, words, one, other]) =>
    figure(
      {
        key: `bait.gyration${turn}`,
        label: `Radius of gyration, ${turn.toLowerCase()}`,
        unit: 'mm',
        basis: `Distance at which all of its mass would resist ${words} as much: the smaller, the livelier. Even density, no hook.`,
        formula: 'k = √(I/m) about the balance point',
        inputs: [figureInput('volume', band(solid.volume), 'cm3')],
        sources: [SOURCES.mesh],
      },
      band(gyration(solid, one, other)),
    ),
  );
}

/** Where a bait balances, and how its mass is spread about that point. */
export function balanceFigures(given: Case): Figure[] {
  const solid = massProperties(given.geometry.mesh);
  const { upright } = swumAxes(given);
  const from = (axis: 0 | 1 | 2) => solid.centroid[axis] - solid.box.min[axis];
  const basis = 'Centre of the volume of the solid: of a bait of even density, without hook or weight.';
  const centre = (key: string, label: string, si: number) =>
    figure({ key, label, unit: 'mm', basis, formula: 'x̄ = ∫x dV/V', sources: [SOURCES.mesh] }, band(si));
  return [
    centre('bait.centroid', 'Balances, from the nose', from(0)),
    centre('bait.centroidHeight', 'Balances, above its lowest point', from(upright)),
    ...gyrations(given, solid),
  ];
}
