import { band, type Band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import { paceForPeak } from '../core/heat/block-warming.ts';
import { colourShots } from '../core/plan/session.ts';
import type { PlanMold } from '../core/plan/session-parts.ts';
import { volumeAhead } from '../core/shot/split-volume.ts';
import type { Case } from './case.ts';
import { workingMold } from './first-shot.ts';
import type { HeatStudy } from './heat-study.ts';
import { HANDLING_TIME, MOST_WARM_UPS, WORKING_MOLD } from './practice.ts';
import { SOURCES } from './sources.ts';

/** What the planner has to know of a mold, and the figures that say it on the sheet. */
export interface PlanFacts {
  readonly mold: PlanMold;
  readonly figures: readonly Figure[];
}

/** A pause longer than this is a block too small for its shot: the plan then says so by its length [s]. */
const LONGEST_PAUSE = 1800;

/** Rest on top of the handling, so that the block settles at the upper end of a working block [s]. */
function pauseOf({ cycle }: HeatStudy, warmest: number): number {
  const wanted = paceForPeak(cycle, warmest) - cycle.pace;
  return Math.min(LONGEST_PAUSE, Math.max(0, wanted));
}

function pauseFigure(study: HeatStudy, pause: number, warmest: number): Figure {
  return figure(
    {
      key: 'heat.pause',
      label: 'Extra rest after each shot of a long run',
      unit: 's',
      basis: `On top of the usual pace, so that the block settles no higher than a working block. ${pause >= LONGEST_PAUSE ? 'Half an hour is the most that is counted: let the block cool to the room between shots.' : 'At the nominal values; feel the block.'}`,
      formula: 't = τ·ln((T − T_room)/(T_before − T_room)) − pace',
      inputs: [
        figureInput('usual pace', study.pace, 's'),
        figureInput('block no hotter than', band(warmest), 'Cel'),
      ],
      sources: [SOURCES.energy, WORKING_MOLD.source],
    },
    band(pause),
  );
}

/** Share of the bait ahead of the station where it changes colour [1]; undefined when it has one colour. */
function splitShare({ bait, mold, geometry }: Case): number | undefined {
  if (bait.split === undefined) return undefined;
  const { min, max } = geometry.box;
  const ahead = bait.split - (mold.from ?? 0);
  if (mold.from !== undefined && ahead <= 0) return undefined;
  const at = min[0] + ahead;
  if (!(ahead > 0 && at < max[0])) {
    throw new RangeError(
      `split: wants a station inside the bait, 0 to ${((max[0] - min[0]) * 1e3).toFixed(1)} mm, got ${(bait.split * 1e3).toFixed(1)} mm`,
    );
  }
  return volumeAhead(geometry.mesh, at) / geometry.volume;
}

function colourFigure(given: Case, which: 'ahead' | 'behind', volume: Band): Figure {
  const where = which === 'ahead' ? 'nose' : 'tail';
  const { shot, bait, mold } = given;
  return figure(
    {
      key: `shot.colour-${which}`,
      label: `Two colours: the ${where} part of a shot, hot`,
      unit: 'mL',
      basis: `All cavities ${which === 'ahead' ? 'up to' : 'from'} the station where the colour changes, with their share of the top-off; the part at the gate, ${mold.gate.at === 'tail' ? 'the tail' : 'the nose'}, has sprue and runners too.`,
      formula: 'share·(shot − channels), + channels at the gate',
      inputs: [
        figureInput('colour changes at, from the nose', band(bait.split ?? 0), 'mm'),
        figureInput('shot', shot.total, 'mL'),
        figureInput('channels', band(shot.runner), 'mL'),
      ],
      sources: [SOURCES.mesh, SOURCES.frustum],
    },
    volume,
  );
}

/** Works out what the planner has to know of a mold; `warmUps` are the shots that warm a cold block. */
export function planFacts(given: Case, heat: HeatStudy, warmUps: number): PlanFacts {
  const { high: warmest } = workingMold(given);
  const pause = pauseOf(heat, warmest);
  const mold: PlanMold = {
    id: given.mold.id,
    name: given.mold.name,
    cavities: given.mold.cavities.length,
    shot: given.shot.total,
    channels: given.shot.runner,
    closed: heat.demold,
    handling: band(HANDLING_TIME.value, HANDLING_TIME.low, HANDLING_TIME.high),
    pause,
    warmUps: warmUps <= MOST_WARM_UPS ? warmUps : 0,
    preheat: warmUps > MOST_WARM_UPS,
    split: splitShare(given),
    gate: given.mold.gate.at,
  };
  const colours = colourShots(mold);
  return {
    mold,
    figures: [
      pauseFigure(heat, pause, warmest),
      ...(colours
        ? [colourFigure(given, 'ahead', colours[0]), colourFigure(given, 'behind', colours[1])]
        : []),
    ],
  };
}
