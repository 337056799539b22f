import { printed } from '../../core/quantity/print.ts';
import type { SheetAction } from '../../sheet/sheet.ts';

/** One thin part on the speed scale; places in hundredths of its width. */
export interface ScaleRow {
  readonly name: string;
  /** Below `from` it is unlikely to move, beyond `to` likely; `at` is the nominal onset. */
  readonly from: number;
  readonly at: number;
  readonly to: number;
  readonly words: string;
}

/** A mark on the scale. */
export interface ScaleMark {
  readonly at: number;
  readonly text: string;
}

/** The speed scale of a sheet: from which retrieve on each thin part moves. */
export interface ActionScale {
  readonly rows: readonly ScaleRow[];
  readonly retrieves: readonly ScaleMark[];
  readonly centimetres: readonly ScaleMark[];
  readonly inches: readonly ScaleMark[];
}

/** Ends of the scale [cm/s], even steps in the logarithm. */
const SLOWEST = 4;
const FASTEST = 800;
const CM_PER_INCH = 2.54;

const place = (speed: number) => {
  const share = Math.log(Math.max(speed, 1e-9) / SLOWEST) / Math.log(FASTEST / SLOWEST);
  return Math.min(100, Math.max(0, 100 * share));
};

/** Places of onset speeds and retrieves on one scale from 4 to 800 cm/s. */
export function actionScale({ features }: SheetAction): ActionScale {
  return {
    rows: features.map(({ label, onset }) => ({
      name: label,
      from: place(onset.low),
      at: place(onset.value),
      to: place(onset.high),
      words: `${label}: moves from ${printed(onset, 'metric').text} on`,
    })),
    retrieves: (features[0]?.retrieves ?? []).map(({ name, speed }) => ({
      at: place(speed * 100),
      text: name,
    })),
    centimetres: [5, 10, 20, 50, 100, 200, 500].map((speed) => ({ at: place(speed), text: String(speed) })),
    inches: [2, 5, 10, 20, 50, 100, 200].map((speed) => ({
      at: place(speed * CM_PER_INCH),
      text: String(speed),
    })),
  };
}
