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

/**
 * Largest scale at which a thing fits.
 *
 * @param width - real width [mm]
 * @param height - real height [mm]
 * @param room - space on the paper [mm]
 * @param options - `intermediate` lets 1:2.5, 1:3 and 1:4 in; `most` is the largest factor that makes sense
 * @returns the smallest scale of the series when none fits
 * Source: ISO 5455:1979.
 */
export function fittingScale(
  width: number,
  height: number,
  room: { readonly width: number; readonly height: number },
  options: { readonly intermediate?: boolean; readonly most?: number } = {},
): Scale {
  const series = options.intermediate ? INTERMEDIATE : SERIES;
  const fits = ({ factor }: Scale) =>
    factor <= (options.most ?? Infinity) && width * factor <= room.width && height * factor <= room.height;
  return series.find(fits) ?? reduced(100);
}
