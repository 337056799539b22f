import type { Point } from './picture.ts';

function distance([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const dx = bx - ax;
  const dy = by - ay;
  const length = dx * dx + dy * dy;
  const along = length > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length)) : 0;
  return Math.hypot(x - ax - along * dx, y - ay - along * dy);
}

function farthest(points: readonly Point[], from: number, to: number): { index: number; away: number } {
  const [a, b] = [points[from], points[to]];
  let best = { index: -1, away: -1 };
  if (!a || !b) return best;
  for (let index = from + 1; index < to; index++) {
    const away = distance(points[index] ?? a, a, b);
    if (away > best.away) best = { index, away };
  }
  return best;
}

/**
 * A polyline with fewer points that stays within `tolerance` of the given one; both ends are kept.
 *
 * @param points - in order [mm]
 * @param tolerance - largest distance of a left-out point [mm]
 * Cost: n·log n for ordinary outlines, n² at worst.
 * Source: D. Douglas and T. Peucker, Cartographica 10 (1973) 112.
 */
export function simplified(points: readonly Point[], tolerance: number): Point[] {
  const keep = new Uint8Array(points.length);
  keep[0] = keep[points.length - 1] = 1;
  const spans: [number, number][] = [[0, points.length - 1]];
  for (let span = spans.pop(); span; span = spans.pop()) {
    const { index, away } = farthest(points, ...span);
    if (index < 0 || away <= tolerance) continue;
    keep[index] = 1;
    spans.push([span[0], index], [index, span[1]]);
  }
  return points.filter((_, index) => keep[index] === 1);
}

/** A closed ring with fewer points that stays within `tolerance` [mm]. */
export function simplifiedRing(ring: readonly Point[], tolerance: number): Point[] {
  const [first] = ring;
  if (!first || ring.length < 4) return [...ring];
  const far = farthestFrom(ring, first);
  const there = simplified(ring.slice(0, far + 1), tolerance);
  const back = simplified([...ring.slice(far), first], tolerance);
  return [...there, ...back.slice(1, -1)];
}

function farthestFrom(ring: readonly Point[], [x, y]: Point): number {
  let best = 0;
  let away = -1;
  ring.forEach(([px, py], index) => {
    const length = Math.hypot(px - x, py - y);
    if (length > away) [best, away] = [index, length];
  });
  return best;
}

/** A number of hundredths, written short: `12.3`, `-.05`. */
function short(hundredths: number): string {
  const size = Math.abs(hundredths);
  const whole = Math.floor(size / 100);
  const rest = size - 100 * whole;
  const sign = hundredths < 0 ? '-' : '';
  if (rest === 0) return `${sign}${whole}`;
  const decimals = rest % 10 === 0 ? `${rest / 10}` : rest < 10 ? `0${rest}` : `${rest}`;
  return `${sign}${whole === 0 ? '' : whole}.${decimals}`;
}

/** A length on the paper to 0.01 mm, written short. */
export const written = (value: number) => short(Math.round(value * 100) || 0);

/** Numbers with no more between them than a reader of path data needs: `.5.25-3 4`. */
function packed(numbers: readonly string[]): string {
  return numbers.reduce((text, next, index) => {
    const before = numbers[index - 1] ?? '';
    const parts = next.startsWith('-') || (next.startsWith('.') && before.includes('.'));
    return index === 0 || parts ? text + next : `${text} ${next}`;
  }, '');
}

/**
 * SVG path data of runs of points, to 0.01 mm, relative to save bytes; rounding does not add up.
 *
 * @param runs - polylines [mm]
 * @param closed - ends each run at its start
 */
export function pathData(runs: readonly (readonly Point[])[], closed: boolean): string {
  return runs
    .map((run) => {
      const rounded = run.map(([x, y]) => [Math.round(x * 100) || 0, Math.round(y * 100) || 0] as const);
      const [start] = rounded;
      if (!start) return '';
      const steps = rounded
        .slice(1)
        .map(([x, y], index) => [x - (rounded[index]?.[0] ?? x), y - (rounded[index]?.[1] ?? y)] as const)
        .filter(([x, y]) => x !== 0 || y !== 0)
        .flat();
      const tail = steps.length > 0 ? `l${packed(steps.map(short))}` : '';
      return `M${packed(start.map(short))}${tail}${closed ? 'z' : ''}`;
    })
    .join('');
}
