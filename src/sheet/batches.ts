import { band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import { UNITS } from '../core/quantity/units.ts';
import { batchFor, sprueShare, yieldOf, CLINGING_SHARE, type ShotShare } from '../core/shot/batch.ts';
import { baitMass } from '../core/shot/shot-volume.ts';
import type { Case } from './case.ts';
import type { BatchRow } from './sheet.ts';
import { SOURCES } from './sources.ts';

const RUNS = [10, 25, 50, 100, 250];
const MEASURES = [
  { key: 'pint', code: '[pt_us]' },
  { key: 'quart', code: '[qt_us]' },
  { key: 'gallon', code: '[gal_us]' },
  { key: 'litre', code: 'L' },
] as const;

const CLINGS = { kind: 'common practice', title: 'A tenth of the shot stays on cup and injector' } as const;

function share({ geometry, density, topOffShare, mold, shotMass }: Case): ShotShare {
  return {
    cavities: mold.cavities.length,
    shotMass,
    baitMass: baitMass(geometry.volume, density, topOffShare),
  };
}

/** Shots and liquid compound for round numbers of baits. */
export function batchRows(given: Case): BatchRow[] {
  return RUNS.map((baits) => {
    const batch = batchFor(baits, share(given), given.density);
    return {
      label: `${baits} baits`,
      baits,
      shots: batch.shots,
      compound: figure(
        {
          key: `batch.${baits}`,
          label: `Compound for ${baits} baits`,
          unit: 'mL',
          basis:
            'Liquid compound to heat at room temperature, sprues not melted again, with what stays on cup and injector.',
          formula: 'shots·shot mass·1.1/density',
          inputs: [
            figureInput('shots', band(batch.shots), '{shot}'),
            figureInput('clings', band(CLINGING_SHARE), '%'),
          ],
          sources: [SOURCES.box, CLINGS],
        },
        batch.liquid,
      ),
    };
  });
}

/** Baits from a bottle, and the share of a shot that is sprue. */
export function yieldFigures(given: Case): Figure[] {
  const yields = MEASURES.map(({ key, code }) =>
    figure(
      {
        key: `yield.${key}`,
        label: `From a ${key}`,
        unit: '{bait}',
        basis: 'Whole shots from new compound, sprues not melted again, a tenth left on cup and injector.',
        formula: 'cavities·⌊volume·density/(1.1·shot mass)⌋',
        inputs: [
          figureInput('liquid', band(UNITS[code].factor), 'mL'),
          figureInput('shot', given.shotMass, 'g'),
        ],
        sources: [SOURCES.box, CLINGS],
      },
      yieldOf(UNITS[code].factor, share(given), given.density).baits,
    ),
  );
  return [
    ...yields,
    figure(
      {
        key: 'shot.sprueShare',
        label: 'Of a shot, in sprue and runners',
        unit: '%',
        basis: 'Channels over the whole shot; clean sprues can be melted again.',
        formula: 'channels/shot',
        inputs: [
          figureInput('channels', band(given.shot.runner), 'mL'),
          figureInput('shot', given.shot.total, 'mL'),
        ],
        sources: [SOURCES.frustum],
      },
      sprueShare(given.shot.runner, given.shot.total),
    ),
  ];
}
