import type { Vec2 } from '../core/mesh/mesh.ts';

/**
 * The wire as an area: the middle line with its width, drawn out to a tip over the last eighth.
 *
 * @param line - middle line [m or mm]
 * @param width - of the wire, same unit
 */
export function wireRing(line: readonly Vec2[], width: number): Vec2[] {
  const steps = line.map((point, index) => {
    const before = line[index - 1] ?? point;
    return Math.hypot(point[0] - before[0], point[1] - before[1]);
  });
  const total = steps.reduce((sum, step) => sum + step, 0);
  let gone = 0;
  const sides = line.map((point, index): [Vec2, Vec2] => {
    gone += steps[index] ?? 0;
    const [a, b] = [line[index - 1] ?? point, line[index + 1] ?? point];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
    const half = (width / 2) * Math.min(1, (8 * (total - gone)) / total + 0.05);
    const [nx, ny] = [(-(b[1] - a[1]) / length) * half, ((b[0] - a[0]) / length) * half];
    return [
      [point[0] + nx, point[1] + ny],
      [point[0] - nx, point[1] - ny],
    ];
  });
  return [...sides.map(([one]) => one), ...sides.map(([, other]) => other).reverse()];
}
