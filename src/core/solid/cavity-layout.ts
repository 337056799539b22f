import type { Vec2 } from '../mesh/mesh.ts';
import type { Outline } from '../section/geometry.ts';
import { LEAST_WALL, type CavityTable, type MoldTable, type PlacedCavity } from './mold-table.ts';
import { outlineBox, placedOutline, turnedDirection, type PlanPlacement } from './plan.ts';

const mm = (metres: number): string => `${Number((metres * 1e3).toFixed(1))} mm`;

/** Where the gate enters a bait and the way out of it, in the bait's own frame [m]. */
function gateOf(plan: Outline, at: MoldTable['gate']['at']): { at: Vec2; out: Vec2 } {
  const { min, max } = outlineBox(plan);
  if (at === 'nose') return { at: [min[0], middleAt(plan, 0, min[0])], out: [-1, 0] };
  if (at === 'tail') return { at: [max[0], middleAt(plan, 0, max[0])], out: [1, 0] };
  const x = (min[0] + max[0]) / 2;
  return { at: [x, lowestAt(plan, x)], out: [0, -1] };
}

/** The other coordinate where an extreme is reached; of a flat end its middle, of several tips the first. */
function middleAt(plan: Outline, axis: 0 | 1, extreme: number): number {
  const near = plan.flat().filter((point) => Math.abs(point[axis] - extreme) < 1e-4);
  const first = near[0]![1 - axis]!;
  const tip = near.map((point) => point[1 - axis]!).filter((place) => Math.abs(place - first) < 3e-3);
  return (Math.min(...tip) + Math.max(...tip)) / 2;
}

/** Least y of an outline over x. */
function lowestAt(plan: Outline, x: number): number {
  const crossings = plan.flatMap((ring) =>
    ring.flatMap(([bx, by], i) => {
      const [ax, ay] = ring.at(i - 1)!;
      return ax > x === bx > x ? [] : [ay + ((by - ay) * (x - ax)) / (bx - ax)];
    }),
  );
  return Math.min(...crossings);
}

function placedCavity(
  cavity: CavityTable,
  at: MoldTable['gate']['at'],
  placement: PlanPlacement,
): PlacedCavity {
  const gate = gateOf(cavity.plan, at);
  const [x, y] = turnedDirection(gate.at, placement);
  return {
    ...placement,
    outline: placedOutline(cavity.plan, placement),
    gate: { at: [x + placement.x, y + placement.y], out: turnedDirection(gate.out, placement) },
  };
}

/** A cavity turned so that its gate faces a way, and how far it reaches beside and beyond its gate [m]. */
interface Facing {
  readonly turn: number;
  readonly mirrored: boolean;
  readonly gate: Vec2;
  readonly low: number;
  readonly high: number;
  readonly deep: number;
}

function facing(cavity: CavityTable, at: MoldTable['gate']['at'], way: number): Facing {
  const mirrored = cavity.mirrored ?? false;
  const gate = gateOf(cavity.plan, at);
  const own = turnedDirection(gate.out, { turn: 0, mirrored });
  const turn = way - Math.atan2(own[1], own[0]);
  const { min, max } = outlineBox(placedOutline(cavity.plan, { x: 0, y: 0, turn, mirrored }));
  const point = turnedDirection(gate.at, { turn, mirrored });
  const deep = Math.max(point[0] - min[0], max[0] - point[0]);
  return { turn, mirrored, gate: point, low: point[1] - min[1], high: max[1] - point[1], deep };
}

/**
 * Where the cavities lie: as stated, or in rows side by side with their gates towards one runner; in one row where
 * the block is wide enough, else in two rows that face each other across the middle.
 *
 * @param mold - the mold [m, rad]
 * @returns cavities in the block's frame [m]
 * @throws {RangeError} when some cavities state a place and others do not, or the block has no room
 *
 * Valid: baits with one outline.
 * Cost: linear in the outlines' points.
 * Source: own derivation.
 */
export function placedCavities(mold: MoldTable): PlacedCavity[] {
  const { cavities, gate } = mold;
  const stated = cavities.filter(({ x, y }) => x !== undefined && y !== undefined).length;
  if (stated === cavities.length) {
    return cavities.map((cavity) =>
      placedCavity(cavity, gate.at, {
        x: cavity.x ?? 0,
        y: cavity.y ?? 0,
        turn: cavity.turn ?? 0,
        mirrored: cavity.mirrored ?? false,
      }),
    );
  }
  if (cavities.some(({ x, y }) => x !== undefined || y !== undefined)) {
    throw new RangeError(
      'cavities: wants x and y of every cavity or of none, got some; fill in the rest or leave all out',
    );
  }
  return oneRow(mold) ?? twoRows(mold) ?? noRoom(mold);
}

/** Distance from the runner's middle line to a gate's inner end. */
const reach = ({ runner, gate }: MoldTable): number => (runner ? runner.diameter / 2 : 0) + gate.length;

/** All gates face the left edge, where the sprue comes in. */
function oneRow(mold: MoldTable): PlacedCavity[] | undefined {
  const faces = mold.cavities.map((cavity) => facing(cavity, mold.gate.at, Math.PI));
  const x = Math.max(LEAST_WALL, mold.sprue.length) + reach(mold);
  if (x + Math.max(...faces.map(({ deep }) => deep)) + LEAST_WALL > mold.block.length) return undefined;
  const ys = stacked(faces, 0, mold.block.width);
  return ys && mold.cavities.map((cavity, i) => setDown(mold, cavity, faces[i]!, [x, ys[i]!]));
}

/** Two rows face each other across a runner in the middle of the block; the sprue comes in at the lower edge. */
function twoRows(mold: MoldTable): PlacedCavity[] | undefined {
  const { block, cavities, gate } = mold;
  const middle = block.length / 2;
  const faces = cavities.map((cavity, i) => facing(cavity, gate.at, i % 2 === 0 ? Math.PI : 0));
  const room = middle - reach(mold) - LEAST_WALL;
  if (cavities.length < 2 || faces.some(({ deep }) => deep > room)) return undefined;
  const rows = [0, 1].map((side) =>
    stacked(
      faces.filter((_, i) => i % 2 === side),
      mold.sprue.length,
      block.width,
    ),
  );
  if (!rows[0] || !rows[1]) return undefined;
  return cavities.map((cavity, i) => {
    const away = i % 2 === 0 ? 1 : -1;
    return setDown(mold, cavity, faces[i]!, [middle + away * reach(mold), rows[i % 2]![i >> 1]!]);
  });
}

/** Heights of the gates in a row: walls spread evenly, the first gate no lower than `floor`; undefined without room. */
function stacked(faces: readonly Facing[], floor: number, width: number): number[] | undefined {
  const start = Math.max(0, floor - LEAST_WALL - faces[0]!.low);
  const solid = faces.reduce((sum, { low, high }) => sum + low + high, 0);
  const wall = (width - start - solid) / (faces.length + 1);
  if (wall < LEAST_WALL) return undefined;
  let y = start;
  return faces.map(({ low, high }) => {
    const at = y + wall + low;
    y = at + high;
    return at;
  });
}

function setDown(mold: MoldTable, cavity: CavityTable, face: Facing, gateAt: Vec2): PlacedCavity {
  const { turn, mirrored, gate } = face;
  return placedCavity(cavity, mold.gate.at, {
    turn,
    mirrored,
    x: gateAt[0] - gate[0],
    y: gateAt[1] - gate[1],
  });
}

function noRoom(mold: MoldTable): never {
  const { block, cavities, sprue } = mold;
  const faces = cavities.map((cavity) => facing(cavity, mold.gate.at, Math.PI));
  const length = sprue.length + reach(mold) + Math.max(...faces.map(({ deep }) => deep)) + LEAST_WALL;
  const width = faces.reduce((sum, { low, high }) => sum + low + high + LEAST_WALL, LEAST_WALL);
  throw new RangeError(
    `block: wants ${mm(length)} × ${mm(width)} for ${cavities.length} cavities in a row, got ${mm(block.length)} × ${mm(block.width)}; make the block larger, or state x and y of every cavity`,
  );
}
