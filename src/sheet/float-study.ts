import { band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import { floatOrSink, sinkSpeed, submergedWeightBand } from '../core/rigging/sink.ts';
import { freshWaterDensity, waterViscosity } from '../core/rigging/water.ts';
import { STEEL_DENSITY } from '../core/mold/alloy.ts';
import type { Case } from './case.ts';
import { WATER } from './practice.ts';
import type { FloatVerdict, HookFit } from './sheet.ts';
import { SOURCES } from './sources.ts';

/** Whether a bait floats, and how fast it sinks with its hook. */
export interface FloatStudy {
  readonly code: FloatVerdict['code'];
  /** With the hook; null when the sheet names none. */
  readonly withHook: FloatVerdict['code'] | null;
  readonly figures: readonly Figure[];
}

function hookMass(hook: HookFit | null): number | null {
  return hook?.hook.sizes.find(({ size }) => size === hook.size)?.mass ?? null;
}

/** Works out floating in fresh water, bare and on the recommended hook. */
export function floatStudy(given: Case, hook: HookFit | null): FloatStudy {
  const water = { density: freshWaterDensity(WATER.value), viscosity: waterViscosity(WATER.value) };
  const { geometry, density } = given;
  const bait = {
    volume: geometry.volume,
    length: geometry.box.max[0] - geometry.box.min[0],
    area: geometry.projectedArea,
    density,
  };
  const code = floatOrSink(submergedWeightBand(bait, water.density));
  const mass = hookMass(hook);
  const hooked = mass === null ? null : { ...bait, ballast: [{ mass, density: STEEL_DENSITY }] };
  const inputs = [
    figureInput('density of the bait', density, 'g/cm3'),
    figureInput('fresh water at 20 °C', band(water.density), 'g/cm3'),
    ...(mass === null ? [] : [figureInput(`hook, ${hook?.size ?? ''}`, band(mass), 'g')]),
  ];
  const speed = hooked ? sinkSpeed(hooked, water) : null;
  return {
    code,
    withHook: hooked ? floatOrSink(submergedWeightBand(hooked, water.density)) : null,
    figures: speed
      ? [
          figure(
            {
              key: 'float.sinkSpeed',
              label: 'Sinks with its hook at',
              unit: 'cm/s',
              basis: 'On its flat, in still fresh water, without a weight; a tail that flutters slows it.',
              formula: 'v = √(2W/(ρ·C·A))',
              inputs,
              sources: [SOURCES.archimedes, SOURCES.drag],
            },
            speed,
          ),
        ]
      : [],
  };
}
