import { cutHalf } from '../../core/fill/grid/cavity.ts';
import { fillMap, type FillMap } from '../../core/fill/grid/fill-map.ts';
import { shotFill } from '../../core/fill/grid/shot-fill.ts';
import { setupMap, setupShot, type SetupChoice, type SetupData } from '../../core/fill/setup.ts';

/** One filling to run. */
export interface FillOrder {
  readonly data: SetupData;
  readonly choice: SetupChoice;
  /** Comes back with the result, so that a late one is told from the last. */
  readonly turn: number;
}

/** What came of it; no map when the model refused. */
export interface FillReport {
  readonly turn: number;
  readonly map: FillMap | null;
}

function reportOf({ data, choice, turn }: FillOrder): FillReport {
  try {
    const cavity = cutHalf(setupMap(data), data.grid.gate);
    return { turn, map: fillMap(shotFill(cavity, data.feed, setupShot(data, choice))) };
  } catch {
    return { turn, map: null };
  }
}

addEventListener('message', ({ data }: MessageEvent<FillOrder>) => postMessage(reportOf(data)));
