import { band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure, type FigureWords } from '../core/quantity/figure.ts';
import { HOT_RATIO_SOURCE } from '../core/shot/compound-density.ts';
import { gateVolume, runnerVolume, sprueVolume } from '../core/shot/channels.ts';
import type { Case } from './case.ts';
import { SOURCES } from './sources.ts';

type ChannelWords = Pick<FigureWords, 'basis' | 'formula' | 'inputs' | 'sources'>;

function perCavity({ shot }: Case): Figure {
  return figure(
    {
      key: 'shot.perCavity',
      label: 'One cavity, hot',
      unit: 'mL',
      basis: 'Volume of one cavity as cut, filled once with hot plastisol; top-off comes on top.',
      sources: [SOURCES.mesh],
    },
    band(shot.cavity),
  );
}

/** What the channels are made of where the runners were measured, or there are none: closed forms. */
function closedForms({ mold, runner }: Case): ChannelWords {
  return {
    basis: runner
      ? 'Sprue, runners as measured, and gates, each as a simple body.'
      : 'Sprue and gates, each as a simple body; the sprue feeds the cavity.',
    formula: 'π·L·(D² + Dd + d²)/12 + π·D²·L/4 + gates',
    inputs: [
      figureInput('sprue', band(sprueVolume(mold.sprue)), 'mL'),
      ...(runner
        ? [
            figureInput('runner diameter D', band(runner.diameter), 'mm'),
            figureInput('all runners together', band(runner.length), 'mm'),
            figureInput('runners', band(runnerVolume(runner)), 'mL'),
          ]
        : []),
      figureInput(
        `gates, ${mold.cavities.length} of them`,
        band(gateVolume(mold.gate) * mold.cavities.length),
        'mL',
      ),
    ],
    sources: [SOURCES.frustum],
  };
}

/** What they are made of as cut in the solid halves. */
function solidChannels({ mold, runner, halves: { hollow } }: Case): ChannelWords {
  return {
    basis:
      'Measured on the solid mold: the runners have round ends and the gates reach the rounded nose; what two channels share is counted once.',
    formula: 'gates + runners less gates + sprue less both',
    inputs: [
      figureInput(`gates, ${mold.cavities.length} of them`, band(hollow.gates), 'mL'),
      figureInput('all runners together', band(runner?.length ?? 0), 'mm'),
      figureInput('runners', band(hollow.runner), 'mL'),
      figureInput('sprue', band(hollow.sprue), 'mL'),
    ],
    sources: [SOURCES.mesh, SOURCES.halves],
  };
}

function runnerFigure(given: Case): Figure {
  const words = given.channels.from === 'solid' ? solidChannels(given) : closedForms(given);
  return figure(
    { key: 'shot.runner', label: 'Sprue, runners and gates, hot', unit: 'mL', ...words },
    band(given.channels.volume),
  );
}

function topOff(given: Case): Figure {
  const { plastisol, shot, topOffDrop, geometry, mold } = given;
  return figure(
    {
      key: 'shot.topOff',
      label: 'Top-off, hot',
      unit: 'mL',
      basis:
        'What all cavities draw in while they cool and the plunger is held down, until the gate freezes shut. Low: pressure let go at once. High: the gate stays open down to the no-flow temperature.',
      formula: 'V·β·ΔT',
      inputs: [
        figureInput('cavities together V', band(shot.cavity * mold.cavities.length), 'mL'),
        figureInput('expansion β', plastisol.expansion, '1/K'),
        figureInput('mean fall until the gate shuts ΔT', band(topOffDrop), 'K'),
        figureInput('thickest section', band(geometry.thickest.thickness), 'mm'),
        figureInput('gate depth', band(mold.gate.depth), 'mm'),
      ],
      sources: [SOURCES.contraction, plastisol.expansion.source],
    },
    shot.topOff,
  );
}

function total({ shot, mold }: Case): Figure {
  return figure(
    {
      key: 'shot.total',
      label: 'Shot, hot',
      unit: 'mL',
      basis: 'All cavities, sprue, runners and gates, and the top-off: what has to be in the injector.',
      formula: 'n·cavity + channels + top-off',
      inputs: [
        figureInput('cavities n', band(mold.cavities.length), '1'),
        figureInput('one cavity', band(shot.cavity), 'mL'),
        figureInput('channels', band(shot.runner), 'mL'),
        figureInput('top-off', shot.topOff, 'mL'),
      ],
      sources: [SOURCES.mesh, SOURCES.frustum, SOURCES.contraction],
    },
    shot.total,
  );
}

/** Figures of one shot. */
export function shotFigures(given: Case): Figure[] {
  return [
    perCavity(given),
    runnerFigure(given),
    topOff(given),
    total(given),
    figure(
      {
        key: 'shot.mass',
        label: 'Shot, by mass',
        unit: 'g',
        basis: 'Hot volume of the shot times the density of the compound at pouring heat.',
        formula: 'm = ρ_hot·V',
        inputs: [
          figureInput('shot V', given.shot.total, 'mL'),
          figureInput('density at pouring heat ρ_hot', given.hotDensity, 'g/cm3'),
        ],
        sources: [SOURCES.mesh, HOT_RATIO_SOURCE],
      },
      given.shotMass,
    ),
  ];
}
