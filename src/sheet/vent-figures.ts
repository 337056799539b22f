import { band, quadrature, type Band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import { arrheniusViscosity } from '../core/fill/viscosity.ts';
import { noFlowFraction } from '../core/heat/solidification.ts';
import { flashLength, flashThroughDepth, type VentMelt } from '../core/vent/flash.ts';
import { backPressure } from '../core/vent/tiers.ts';
import type { VentTier } from '../schema/mold.ts';
import type { Case } from './case.ts';
import { airResistance, airTemperature } from './fill-feed.ts';
import { VISCOSITY_AT } from '../core/fill/grid/reserve-band.ts';
import { COLD_MOLD, CONTACT_COEFFICIENT, FILL_TIME, VENT_TOLERANCE } from './practice.ts';
import { SOURCES } from './sources.ts';

const TIER_WORDS: Readonly<Record<VentTier['tier'], string>> = {
  edge: 'edge vents',
  collector: 'collectors',
  outlet: 'outlets',
};

function flashInputs({ plastisol, pressure, gateTemperature }: Case) {
  const { viscosity, activation, diffusivity, noFlow } = plastisol;
  return {
    pressure,
    viscosity,
    activation,
    diffusivity,
    noFlow,
    melt: band(gateTemperature.value, gateTemperature.low, gateTemperature.high),
    mold: COLD_MOLD,
    contact: CONTACT_COEFFICIENT,
  };
}

type Values = Record<keyof ReturnType<typeof flashInputs>, number>;

function meltOf({ plastisol, hotDensity }: Case, values: Values): VentMelt {
  const at = { reference: values.viscosity, at: VISCOSITY_AT, activation: values.activation };
  return {
    pressure: values.pressure,
    viscosity: arrheniusViscosity(at, values.melt),
    diffusivity: values.diffusivity,
    theta: noFlowFraction(values.noFlow, values.mold, values.melt),
    contact: values.contact,
    heatCapacity: hotDensity.value * plastisol.specificHeat.value,
  };
}

function inputsOf(given: Case, tier: VentTier) {
  return [
    figureInput('vent depth', depthBand(tier), 'um'),
    figureInput('land', band(tier.land), 'mm'),
    figureInput('pressure', given.pressure, 'kPa'),
    figureInput('viscosity at 175 °C', given.plastisol.viscosity, 'Pa.s'),
    figureInput('no-flow temperature', given.plastisol.noFlow, 'Cel'),
    figureInput('contact coefficient', CONTACT_COEFFICIENT, 'W/(m2.K)'),
  ];
}

const depthBand = ({ depth }: VentTier): Band =>
  band(depth, Math.max(depth / 2, depth + VENT_TOLERANCE.low), depth + VENT_TOLERANCE.high);

function flashFigures(given: Case, tier: VentTier, key: string): Figure[] {
  const sources = [SOURCES.vents, CONTACT_COEFFICIENT.source, given.plastisol.viscosity.source];
  const inputs = flashInputs(given);
  const depth = depthBand(tier);
  return [
    figure(
      {
        key: `vent.flash.${key}`,
        label: `Plastisol enters the ${TIER_WORDS[tier.tier]}`,
        unit: 'mm',
        basis: `How far it gets into a vent of this depth before it freezes, at full pressure. The land is longer where the vent holds.`,
        formula: 'x = d·√(P·t/(60·μ)), t until the vent is frozen shut',
        inputs: inputsOf(given, tier),
        sources,
      },
      quadrature(({ d, ...values }) => flashLength(d, meltOf(given, values)), { d: depth, ...inputs }),
    ),
    figure(
      {
        key: `vent.flashThrough.${key}`,
        label: `Depth at which the ${TIER_WORDS[tier.tier]} would flash`,
        unit: 'um',
        basis: 'Vent depth from which plastisol would run through the whole land. The low end counts.',
        formula: 'depth d with x(d) = land',
        inputs: inputsOf(given, tier),
        sources,
      },
      quadrature((values) => flashThroughDepth(tier.land, meltOf(given, values)), inputs),
    ),
  ];
}

function backPressureFigure(given: Case): Figure {
  const { mold, shot } = given;
  const inputs = { time: FILL_TIME, wear: VENT_TOLERANCE };
  return figure(
    {
      key: 'vent.backPressure',
      label: 'Air pressure left in the cavity while it fills',
      unit: 'kPa',
      basis:
        'Air pushed out through all vents of a cavity, the rows of a tier side by side and tiers one after the other, at the pace of a steady push. A few per cent of the plunger pressure is harmless.',
      formula: 'ΔP = Q·Σ 12μL/(n·w·d³)',
      inputs: [
        figureInput('cavity', band(shot.cavity), 'mL'),
        figureInput('time of the push', FILL_TIME, 's'),
        figureInput('tolerance on the depth', VENT_TOLERANCE, 'um'),
      ],
      sources: [SOURCES.vents, FILL_TIME.source, VENT_TOLERANCE.source],
    },
    quadrature(({ time, wear }) => {
      const total = airResistance(mold.vents, airTemperature(given), wear);
      return backPressure(total, shot.cavity / time);
    }, inputs),
  );
}

/** Figures of the vents, by tier in the order they are listed; none when the mold lists no vents. */
export function ventFigures(given: Case): Figure[] {
  const { vents } = given.mold;
  if (vents.length === 0) return [];
  const keys = vents.map(({ tier }, i) => {
    const same = vents.slice(0, i).filter((other) => other.tier === tier).length;
    return same === 0 ? tier : `${tier}${same + 1}`;
  });
  return [
    backPressureFigure(given),
    ...vents.flatMap((tier, i) => (tier.tier === 'edge' ? flashFigures(given, tier, keys[i] as string) : [])),
  ];
}
