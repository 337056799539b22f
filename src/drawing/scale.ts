/** A drawing scale: `factor` is paper length over real length. */
export interface Scale {
  readonly factor: number;
  /** As written: `1:2`. */
  readonly text: string;
}

const enlarged = (times: number): Scale => ({ factor: times, text: `${times}:1` });
const reduced = (times: number): Scale => ({ factor: 1 / times, text: `1:${times}` });

/** Recommended scales, largest first. Source: ISO 5455:1979, table. */
export const SERIES: readonly Scale[] = [
  ...[50, 20, 10, 5, 2].map(enlarged),
  ...[1, 2, 5, 10, 20, 50, 100].map(reduced),
];

/** The series with intermediate scales, which ISO 5455 leaves for cases where the series does not fit. */
const INTERMEDIATE: readonly Scale[] = [...SERIES, ...[2.5, 3, 4].map(reduced)].sort(
  (a, b) => b.factor - a.factor,
);

/** Which scales may be chosen. */
export interface ScaleChoice {
  /** Lets 1:2.5, 1:3 and 1:4 in. */
  readonly intermediate?: boolean;
  /** Largest factor that makes sense. */
  readonly most?: number;
}

/**
 * Largest scale that fits.
 *
 * @param fits - tells for a factor (paper length over real length) whether the drawing fits
 * @returns 1:100 when none does
 * Source: ISO 5455:1979.
 */
export function largestScale(fits: (factor: number) => boolean, choice: ScaleChoice = {}): Scale {
  const series = choice.intermediate ? INTERMEDIATE : SERIES;
  return series.find(({ factor }) => factor <= (choice.most ?? Infinity) && fits(factor)) ?? reduced(100);
}

/**
 * Largest scale at which a thing fits into a room.
 *
 * @param width - real width [mm]
 * @param height - real height [mm]
 * @param room - space on the paper [mm]
 */
export function fittingScale(
  width: number,
  height: number,
  room: { readonly width: number; readonly height: number },
  choice: ScaleChoice = {},
): Scale {
  return largestScale((factor) => width * factor <= room.width && height * factor <= room.height, choice);
}
