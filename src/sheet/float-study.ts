import { band, type Band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure, type FigureInput } from '../core/quantity/figure.ts';
import { centresOf, posture, standing, type Hanging } from '../core/rigging/attitude.ts';
import { wireCentroid } from '../core/rigging/hook-form.ts';
import {
  floatOrSink,
  noseFirstSpeed,
  sinkSpeed,
  submergedWeightBand,
  type Ballast,
  type SinkingBait,
  type Water,
} from '../core/rigging/sink.ts';
import { freshWaterDensity, seaWaterDensity, waterViscosity } from '../core/rigging/water.ts';
import { STEEL_DENSITY } from '../core/mold/alloy.ts';
import { floatCompounds } from './float-compounds.ts';
import type { Case } from './case.ts';
import { LEAD_DENSITY, NOSE_WEIGHT, WATER } from './practice.ts';
import { sizeOf } from './rig-advice.ts';
import type { FloatCell, FloatRow, FloatVerdict, RigAdvice } from './sheet.ts';
import { SOURCES } from './sources.ts';
import { sizeWords } from './words.ts';

/** Whether a bait floats, how fast it sinks and how it lies. */
export interface FloatStudy {
  readonly code: FloatVerdict['code'];
  /** With the hook; null when the sheet names none. */
  readonly withHook: FloatVerdict['code'] | null;
  readonly figures: readonly Figure[];
  readonly rows: readonly FloatRow[];
  /** How it lies in the water and on the bottom, one sentence each. */
  readonly postures: readonly string[];
}

const FRESH: Water = { density: freshWaterDensity(WATER.value), viscosity: waterViscosity(WATER.value) };
/** Sea water is some 7 % more viscous than fresh, which a bait's size and speed make no difference of. */
const SALT: Water = { density: seaWaterDensity(WATER.value), viscosity: 1.07 * FRESH.viscosity };

type Load = FloatCell['load'];

function ballastOf(load: Load, mass: number): Ballast[] {
  return [
    ...(load === 'bare' ? [] : [{ mass, density: STEEL_DENSITY }]),
    ...(load === 'weighted' ? [{ mass: NOSE_WEIGHT.value, density: LEAD_DENSITY }] : []),
  ];
}

function sinker({ geometry }: Case, density: Band, ballast: readonly Ballast[]): SinkingBait {
  return {
    volume: geometry.volume,
    length: geometry.box.max[0] - geometry.box.min[0],
    area: geometry.projectedArea,
    section: Math.max(...geometry.areaCurve.map(({ area }) => area)),
    density,
    ballast,
  };
}

const cmPerSecond = (speed: Band | null): FloatCell['speed'] =>
  speed && { value: 100 * speed.value, low: 100 * speed.low, high: 100 * speed.high, unit: 'cm/s' };

function cellsOf(given: Case, density: Band, hook: number | null): FloatCell[] {
  const loads: readonly Load[] = hook === null ? ['bare'] : ['bare', 'hooked', 'weighted'];
  return (['fresh', 'salt'] as const).flatMap((kind) => {
    const water = kind === 'fresh' ? FRESH : SALT;
    return loads.map((load) => {
      const bait = sinker(given, density, ballastOf(load, hook ?? 0));
      return {
        water: kind,
        load,
        code: floatOrSink(submergedWeightBand(bait, water.density)),
        speed: cmPerSecond(sinkSpeed(bait, water)),
      };
    });
  });
}

/** Bait, hook and weight where they hang in the side view. */
function hangingOf(given: Case, rig: RigAdvice, load: Load, density = given.density.value): Hanging[] {
  const { geometry, bait } = given;
  const { centroid, volume } = geometry;
  const body: Hanging = {
    at: [centroid[0], bait.lies === 'on its side' ? centroid[1] : centroid[2]],
    mass: density * volume,
    volume,
  };
  const extra = ballastOf(load, sizeOf(rig.best).mass).map(({ mass, density: rho }, index): Hanging => ({
    at: index === 0 ? wireCentroid(rig.form.line) : [geometry.box.min[0], rig.form.eye.at[1]],
    mass,
    volume: mass / rho,
  }));
  return [body, ...extra];
}

const LIES = {
  'nose down': 'sinks nose down',
  level: 'sinks level',
  'tail down': 'sinks tail down',
} as const;

const STANDS = {
  'tail up': 'its tail stands up',
  'lies flat': 'it lies flat',
  either: 'its tail may stand up or lie flat',
} as const;

function posturesOf(given: Case, rig: RigAdvice): string[] {
  const { box } = given.geometry;
  const length = box.max[0] - box.min[0];
  const on = `on a ${sizeWords(rig.best.size)} ${rig.best.hook.name.toLowerCase()}, ${rig.rig}`;
  const lie = (load: Load) => LIES[posture(centresOf(hangingOf(given, rig, load)), length)];
  const stands = [given.density.low, given.density.high].map((density) =>
    standing(hangingOf(given, rig, 'weighted', density), box.min[0], FRESH.density),
  );
  return [
    `Rigged ${on}, it ${lie('hooked')}; with an eighth of an ounce at the nose it ${lie('weighted')}.`,
    `With that weight resting on the bottom, ${STANDS[stands[0] === stands[1] ? (stands[0] ?? 'either') : 'either']}.`,
  ];
}

const FLAT =
  'On its flat, in still water, taken as a cylinder of its length and mean width; a tail that flutters slows it.';
const NOSE =
  'Nose first, in still water, taken as a flat-ended cylinder of its largest section; the high end is that of a rounded nose.';

interface Speed {
  readonly key: string;
  readonly label: string;
  readonly basis: string;
  readonly water: Water;
  readonly weight: boolean;
  readonly noseFirst?: boolean;
}

const SPEEDS: readonly Speed[] = [
  { key: 'sinkSpeed', label: 'Sinks with its hook at', basis: FLAT, water: FRESH, weight: false },
  { key: 'sinkSpeedSalt', label: 'The same in salt water', basis: FLAT, water: SALT, weight: false },
  {
    key: 'noseFirst',
    label: 'Nose first with its hook at',
    basis: NOSE,
    water: FRESH,
    weight: false,
    noseFirst: true,
  },
  {
    key: 'noseFirstWeighted',
    label: 'Nose first with an eighth of an ounce at',
    basis: NOSE,
    water: FRESH,
    weight: true,
    noseFirst: true,
  },
];

function speedFigures(given: Case, rig: RigAdvice, inputs: readonly FigureInput[]): Figure[] {
  const hook = sizeOf(rig.best).mass;
  return SPEEDS.flatMap(({ key, label, basis, water, weight, noseFirst }) => {
    const bait = sinker(given, given.density, ballastOf(weight ? 'weighted' : 'hooked', hook));
    const speed = noseFirst ? noseFirstSpeed(bait, water) : sinkSpeed(bait, water);
    if (!speed) return [];
    return [
      figure(
        {
          key: `float.${key}`,
          label,
          unit: 'cm/s',
          basis,
          formula: 'v = √(2W/(ρ·C·A))',
          inputs: [
            ...inputs,
            figureInput('water', band(water.density), 'g/cm3'),
            ...(weight ? [figureInput('weight at the nose', NOSE_WEIGHT, 'g')] : []),
          ],
          sources: [SOURCES.archimedes, SOURCES.drag, ...(weight ? [NOSE_WEIGHT.source] : [])],
        },
        speed,
      ),
    ];
  });
}

function centreFigure(given: Case, rig: RigAdvice): Figure {
  const { mass, buoyancy } = centresOf(hangingOf(given, rig, 'hooked'));
  return figure(
    {
      key: 'float.arm',
      label: 'Centre of mass ahead of centre of buoyancy',
      unit: 'mm',
      basis:
        'With its hook, without a weight, along the bait. Above nought it tips nose down, below nought tail down.',
      formula: 'x_buoyancy − x_mass',
      inputs: [
        figureInput('centre of mass, from the nose', band(mass[0] - given.geometry.box.min[0]), 'mm'),
        figureInput('centre of buoyancy, from the nose', band(buoyancy[0] - given.geometry.box.min[0]), 'mm'),
      ],
      sources: [SOURCES.archimedes, SOURCES.mesh, rig.best.hook.source],
    },
    band(buoyancy[0] - mass[0]),
  );
}

/** Works out floating in fresh and salt water, bare, on the recommended hook, and with a weight at the nose. */
export function floatStudy(given: Case, rig: RigAdvice | null): FloatStudy {
  const hook = rig && sizeOf(rig.best).mass;
  const judged = (load: Load) =>
    floatOrSink(submergedWeightBand(sinker(given, given.density, ballastOf(load, hook ?? 0)), FRESH.density));
  const inputs = [
    figureInput('density of the bait', given.density, 'g/cm3'),
    ...(rig ? [figureInput(`hook, ${rig.best.size}`, band(hook ?? 0), 'g')] : []),
  ];
  return {
    code: judged('bare'),
    withHook: rig ? judged('hooked') : null,
    figures: rig ? [...speedFigures(given, rig, inputs), centreFigure(given, rig)] : [],
    rows: floatCompounds(given).map(({ name, density }) => ({
      name,
      density: {
        value: density.value / 1e3,
        low: density.low / 1e3,
        high: density.high / 1e3,
        unit: 'g/cm3',
      },
      cells: cellsOf(given, density, hook),
    })),
    postures: rig ? posturesOf(given, rig) : [],
  };
}
