import { band, type Band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import { ALLOYS } from '../core/mold/alloy.ts';
import { shippingMass } from '../core/mold/block.ts';
import { MERGED_WITHIN } from '../core/solid/merged-bait.ts';
import type { Case } from './case.ts';
import { shotCheck } from './mold-study.ts';
import { CLAMP_FACTOR, HAND_FORCE } from './practice.ts';
import { SOURCES } from './sources.ts';

const scaled = (b: Band, factor: number): Band => band(b.value * factor, b.low * factor, b.high * factor);

/** Plan area on which the push acts: cavities, and runner and gates as far as they lie in the plane [m²]. */
export function pushedArea({ mold, geometry, runner }: Pick<Case, 'mold' | 'geometry' | 'runner'>): number {
  const { gate, cavities } = mold;
  const channels =
    (runner ? runner.diameter * runner.length : 0) + gate.width * gate.length * cavities.length;
  return cavities.length * geometry.projectedArea + channels;
}

function forces(given: Case): Figure[] {
  const area = pushedArea(given);
  const inputs = [
    figureInput('hand on the plunger', HAND_FORCE, 'N'),
    figureInput(`piston, ${given.pushedWith.name}`, band(given.pushedWith.piston), 'mm'),
    figureInput('pressure under it', given.pressure, 'kPa'),
    figureInput('plan area of cavities and channels', band(area), 'cm2'),
  ];
  const sources = [SOURCES.clamp, HAND_FORCE.source, given.pushedWith.source];
  return [
    figure(
      {
        key: 'mold.partingForce',
        label: 'Force that opens the mold',
        unit: 'N',
        basis:
          'Full plunger pressure over the whole plan area. Low: a gentle push. High: leaning on the plunger.',
        formula: 'F = P·A',
        inputs,
        sources,
      },
      scaled(given.pressure, area),
    ),
    figure(
      {
        key: 'mold.clampForce',
        label: 'Clamp to',
        unit: 'N',
        basis: 'The opening force with half as much again. Low: a gentle push. High: leaning on the plunger.',
        formula: 'F = 1.5·P·A',
        inputs: [...inputs, figureInput('factor', CLAMP_FACTOR, '1')],
        sources: [...sources, CLAMP_FACTOR.source],
      },
      scaled(given.pressure, area * CLAMP_FACTOR.value),
    ),
  ];
}

function shotCheckFigure(given: Case): Figure {
  const { block, cut, hollow } = given.halves;
  const { ratio, tolerance } = shotCheck(given, given.halves);
  return figure(
    {
      key: 'mold.shotCheck',
      label: 'Cavities over baits',
      unit: '1',
      basis: `What the lower half, cut as a solid, leaves free besides channels, vents and pin holes, over the part of all baits that lies in it. Their surface is merged within ${MERGED_WITHIN * 1e6} µm before they are cut.`,
      formula: '(block/2 − metal − channels, vents and pin holes)/V',
      inputs: [
        figureInput('block', band(block), 'cm3'),
        figureInput('metal of the lower half', band(cut.metal), 'cm3'),
        figureInput('channels, vents and pin holes in it', band(cut.besides), 'mL'),
        figureInput('merged baits in it V', band(cut.baits), 'cm3'),
        figureInput('all of the merged baits', band(cut.merged), 'cm3'),
        figureInput('baits before merging', band(hollow.cavities), 'cm3'),
        figureInput('tolerance', band(tolerance), '%'),
      ],
      sources: [SOURCES.mesh, SOURCES.halves],
    },
    band(ratio),
  );
}

/** Figures of the block: forces, mass, pressure, what the parcel weighs. */
export function moldFigures(given: Case): Figure[] {
  const alloy = ALLOYS[given.mold.block.alloy];
  return [
    ...forces(given),
    figure(
      {
        key: 'shot.pressure',
        label: 'Pressure under the plunger',
        unit: 'kPa',
        basis: `One hand on the ${given.pushedWith.name}.`,
        formula: 'P = F/(π·d²/4)',
        inputs: [
          figureInput('hand', HAND_FORCE, 'N'),
          figureInput('piston d', band(given.pushedWith.piston), 'mm'),
        ],
        sources: [SOURCES.clamp, HAND_FORCE.source],
      },
      given.pressure,
    ),
    figure(
      {
        key: 'mold.blockMass',
        label: 'Mold',
        unit: 'kg',
        basis:
          'Metal of both halves: the block less cavities, channels, vents and pin holes, without pins and screws.',
        formula: 'm = ρ·V',
        inputs: [
          figureInput('density of the alloy ρ', band(alloy.density), 'g/cm3'),
          figureInput('block before cutting', band(given.halves.block), 'cm3'),
          figureInput('metal of both halves V', band(given.halves.metal), 'cm3'),
        ],
        sources: [SOURCES.box, SOURCES.halves, alloy.source],
      },
      band(given.blockMass),
    ),
    shotCheckFigure(given),
    figure(
      {
        key: 'mold.shippingMass',
        label: 'Parcel',
        unit: 'kg',
        basis: 'The mold with an allowance for box, padding and papers.',
        inputs: [figureInput('mold', band(given.blockMass), 'kg')],
        sources: [{ kind: 'common practice', title: '120 g of box and papers and 5 % of padding' }],
      },
      band(shippingMass(given.blockMass)),
    ),
  ];
}
