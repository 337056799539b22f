import { band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import { ALLOYS } from '../core/mold/alloy.ts';
import type { Case } from './case.ts';
import { workingMold } from './first-shot.ts';
import { MINUTE_LIMIT, TOUCH_LIMIT, type HeatStudy } from './heat-study.ts';
import { AMBIENT, COLD_MOLD, EMISSIVITY, HANDLING_TIME, SKIN } from './practice.ts';
import { SOURCES } from './sources.ts';

const CORNERS = 'Low and high are hard bounds over every combination of its inputs.';

function demold(given: Case, study: HeatStudy, cold: boolean): Figure {
  const { plastisol, pour } = given;
  const mold = cold ? COLD_MOLD : workingMold(given);
  return figure(
    {
      key: cold ? 'heat.demoldTimeCold' : 'heat.demoldTime',
      label: cold ? 'Time until you open it, cold mold' : 'Time until you open it, in a run',
      unit: 's',
      basis: `Until the middle of the thickest section has cooled enough to be lifted out. ${CORNERS}`,
      formula: 't = ln(C·θ)/(α·k²), θ = (pour − mold)/(open − mold)',
      inputs: [
        figureInput('thickest section', band(study.inscribed), 'mm'),
        figureInput('area of that section', band(study.sectionArea), 'cm2'),
        figureInput('diffusivity α', plastisol.diffusivity, 'mm2/s'),
        figureInput('pour', band(pour.nominal, pour.low, pour.high), 'Cel'),
        figureInput('mold', mold, 'Cel'),
        figureInput('middle when opened', plastisol.demold, 'Cel'),
      ],
      sources: [SOURCES.cooling, plastisol.diffusivity.source, plastisol.demold.source, mold.source],
    },
    cold ? study.demoldCold : study.demold,
  );
}

function rise(given: Case, study: HeatStudy): Figure {
  return figure(
    {
      key: 'heat.riseFirstShot',
      label: 'Block warms by, first shot',
      unit: 'K',
      basis:
        'All the heat of one shot into a cold block: an upper bound, reached when the bait stays in until it is as cool as the block.',
      formula: 'ΔT = (m·c/(m·c + M·C))·(melt − mold)',
      inputs: [
        figureInput('shot m', given.shotMass, 'g'),
        figureInput('specific heat of the compound c', given.plastisol.specificHeat, 'J/(kg.K)'),
        figureInput('block M', band(given.blockMass), 'kg'),
        figureInput('specific heat of the block C', ALLOYS[given.mold.block.alloy].specificHeat, 'J/(kg.K)'),
        figureInput('melt at the gate', given.gateTemperature, 'Cel'),
        figureInput('cold mold', COLD_MOLD, 'Cel'),
      ],
      sources: [SOURCES.energy, given.plastisol.specificHeat.source, ALLOYS[given.mold.block.alloy].source],
    },
    study.rise,
  );
}

function steady(given: Case, study: HeatStudy): Figure {
  const { finish } = given.mold.block;
  return figure(
    {
      key: 'heat.blockSteady',
      label: 'Block in a long run, if never rested',
      unit: 'Cel',
      basis: `What the block settles to when it is shot again at an even pace without a pause. ${CORNERS}`,
      formula: 'T = T* with r·(melt − T) in each shot and exp(−t/τ) between, τ = M·C/(h·A)',
      inputs: [
        figureInput('from shot to shot', study.pace, 's'),
        figureInput(`loss to the room h, ${finish}`, study.loss, 'W/(m2.K)'),
        figureInput('surface A', band(given.blockSurface), 'cm2'),
        figureInput('specific heat of the compound', given.plastisol.specificHeat, 'J/(kg.K)'),
        figureInput('room', AMBIENT, 'Cel'),
      ],
      sources: [SOURCES.energy, EMISSIVITY[finish].source, HANDLING_TIME.source],
    },
    study.steady,
  );
}

function safeToTouch(study: HeatStudy): Figure {
  return figure(
    {
      key: 'heat.safeToTouch',
      label: 'Rest before you touch the block bare',
      unit: 'min',
      basis: `From the end of a long run until the block is down to what bare skin stands for a minute. ${CORNERS}`,
      formula: 't = τ·ln((T − T_room)/(T_safe − T_room))',
      inputs: [
        figureInput('block at the end of the run', study.steady, 'Cel'),
        figureInput('safe for a minute', band(MINUTE_LIMIT), 'Cel'),
        figureInput('room', AMBIENT, 'Cel'),
      ],
      sources: [SOURCES.energy, SOURCES.touch],
    },
    study.safeToTouch,
  );
}

function limit(key: string, label: string, si: number, basis: string): Figure {
  return figure({ key, label, unit: 'Cel', basis, sources: [SOURCES.touch] }, band(si));
}

function skinContact(given: Case, study: HeatStudy): Figure {
  return figure(
    {
      key: 'burn.skinContact',
      label: 'Skin under a splash',
      unit: 'Cel',
      basis: `Surface of the skin at once under plastisol at the hottest pour; it stays there while the plastic sticks. ${CORNERS}`,
      formula: 'T = (e₁T₁ + e₂T₂)/(e₁ + e₂), e = √(kρc)',
      inputs: [
        figureInput('hottest pour', band(given.pour.high), 'Cel'),
        figureInput('skin', SKIN, 'Cel'),
        figureInput('conductivity of the compound', given.plastisol.conductivity, 'W/(m.K)'),
        figureInput('specific heat of the compound', given.plastisol.specificHeat, 'J/(kg.K)'),
      ],
      sources: [SOURCES.contact, SOURCES.skin, SKIN.source],
    },
    study.skinContact,
  );
}

/** Figures of heat: how long to wait, how warm the block gets, what can burn. */
export function heatFigures(given: Case, study: HeatStudy): Figure[] {
  return [
    demold(given, study, false),
    demold(given, study, true),
    rise(given, study),
    steady(given, study),
    safeToTouch(study),
    limit(
      'burn.minuteLimit',
      'Bare metal, a minute',
      MINUTE_LIMIT,
      'Hottest bare metal that skin stands for one minute.',
    ),
    limit(
      'burn.touchLimit',
      'Bare metal, a second',
      TOUCH_LIMIT,
      'Hottest bare metal that skin stands for one second.',
    ),
    skinContact(given, study),
  ];
}
