import type { Vec2 } from '../mesh/mesh.ts';
import type { Channels } from './channel-layout.ts';
import { LEAST_WALL, type MoldLayout, type MoldTable, type PlacedCavity } from './mold-table.ts';
import { boxDistance, outlineBox, outlineDistance, stretchDistance, type PlanBox } from './plan.ts';

/**
 * Where the alignment pins stand: near the block's edge, clear of cavities and channels, the first nearest the lower
 * left corner, each next one as far from the others as there is room.
 *
 * @param mold - the mold [m]
 * @param cavities - as they lie in the block [m]
 * @param channels - runner and sprue [m]
 * @returns pin places, diameters and the depth of their holes in each half [m]
 * @throws {RangeError} when there is no room for all of them
 *
 * Valid: holes stop short of the outer faces.
 * Cost: block outline × cavity outline points.
 * Source: common practice: pins as far apart as the block allows.
 */
export function pinsOf(
  mold: MoldTable,
  cavities: readonly PlacedCavity[],
  channels: Channels,
): MoldLayout['pins'] {
  const { pins, block } = mold;
  if (!pins) return [];
  const boxes = cavities.map(({ outline }) => outlineBox(outline));
  const free = inset(block, pins.diameter / 2 + LEAST_WALL).filter((point) =>
    isClear(point, mold, { cavities, boxes, channels }),
  );
  const chosen: Vec2[] = [];
  while (chosen.length < pins.count) {
    const room = (point: Vec2): number =>
      chosen.length === 0
        ? -Math.hypot(...point)
        : Math.min(...chosen.map((other) => Math.hypot(point[0] - other[0], point[1] - other[1])));
    const best = free.reduce<Vec2 | undefined>(
      (top, point) => (!top || room(point) > room(top) + 1e-9 ? point : top),
      undefined,
    );
    if (!best || (chosen.length > 0 && room(best) < 2 * pins.diameter)) {
      throw new RangeError(
        `pins: wants room for ${pins.count} along the block's edge, got room for ${chosen.length}; make the block larger or the pins fewer`,
      );
    }
    chosen.push(best);
  }
  const depth = Math.min(2 * pins.diameter, block.thickness / 2 - LEAST_WALL / 2);
  return chosen.map((at) => ({ at, diameter: pins.diameter, depth }));
}

/** Places along a rectangle inside the block, corners first exact, about 2 mm apart. */
function inset({ length, width }: MoldTable['block'], by: number): Vec2[] {
  const [right, top] = [length - by, width - by];
  const line = (from: number, to: number): number[] => {
    const count = Math.max(1, Math.ceil((to - from) / 2e-3));
    return Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
  };
  const rows = line(by, right).flatMap((x): Vec2[] => [
    [x, by],
    [x, top],
  ]);
  const columns = line(by, top).flatMap((y): Vec2[] => [
    [by, y],
    [right, y],
  ]);
  return [...rows, ...columns];
}

/** What the pins have to keep clear of. */
interface Scene {
  readonly cavities: readonly PlacedCavity[];
  readonly boxes: readonly PlanBox[];
  readonly channels: Channels;
}

function isClear(
  point: Vec2,
  { pins, sprue, runner }: MoldTable,
  { cavities, boxes, channels }: Scene,
): boolean {
  const radius = pins!.diameter / 2;
  const fromRunner = radius + (runner?.diameter ?? 0) / 2 + LEAST_WALL;
  return (
    cavities.every(
      ({ outline }, i) =>
        boxDistance(boxes[i]!, point) > radius + LEAST_WALL ||
        outlineDistance(outline, point) > radius + LEAST_WALL,
    ) &&
    channels.runner.every(({ from, to }) => stretchDistance(from, to, point) > fromRunner) &&
    stretchDistance(channels.sprue.mouth, channels.sprue.end, point) > radius + sprue.mouth / 2 + LEAST_WALL
  );
}
