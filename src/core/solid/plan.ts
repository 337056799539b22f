import type { Mesh, Vec2 } from '../mesh/mesh.ts';
import { placedMesh } from '../mesh/placement.ts';
import type { Outline } from '../section/geometry.ts';

/** How a flat shape is set down: mirrored across y = 0 first, then turned, then shifted [m, rad]. */
export interface PlanPlacement {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
  readonly mirrored: boolean;
}

/** Extents of a flat shape [m]. */
export interface PlanBox {
  readonly min: Vec2;
  readonly max: Vec2;
}

/**
 * A direction after mirroring and turning.
 *
 * @param direction - any length [m]
 * @param placement - how the shape is set down [m, rad]
 * @returns the direction in the block's frame [m]
 *
 * Cost: constant.
 * Source: rotation in the plane.
 */
export function turnedDirection([x, y]: Vec2, { turn, mirrored }: Omit<PlanPlacement, 'x' | 'y'>): Vec2 {
  const flipped = mirrored ? -y : y;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return [cos * x - sin * flipped, sin * x + cos * flipped];
}

/**
 * An outline after it is set down; mirrored rings are reversed, so that outer ones stay counter-clockwise.
 *
 * @param outline - in its own frame [m]
 * @param placement - how it is set down [m, rad]
 * @returns the outline in the block's frame [m]
 *
 * Cost: linear in the points.
 * Source: rotation in the plane.
 */
export function placedOutline(outline: Outline, placement: PlanPlacement): Outline {
  return outline.map((ring) => {
    const moved = ring.map((point): Vec2 => {
      const [x, y] = turnedDirection(point, placement);
      return [x + placement.x, y + placement.y];
    });
    return placement.mirrored ? moved.reverse() : moved;
  });
}

/**
 * A bait's mesh where it lies in the block.
 *
 * @param mesh - in its own frame [m]
 * @param placement - how it is set down [m, rad]
 * @returns the mesh in the block's frame, wound outwards [m]
 *
 * Cost: linear in the points.
 * Source: rotation about z.
 */
export function meshInBlock(mesh: Mesh, placement: PlanPlacement): Mesh {
  const along = turnedDirection([1, 0], placement);
  const across = turnedDirection([0, 1], placement);
  const rows = [
    [along[0], across[0], 0],
    [along[1], across[1], 0],
    [0, 0, 1],
  ] as const;
  return placedMesh(mesh, rows, [placement.x, placement.y, 0]);
}

/**
 * A mesh of the block's frame in the frame of a bait that lies in it: undoes `meshInBlock`.
 *
 * @param mesh - in the block's frame [m]
 * @param placement - how the bait is set down [m, rad]
 * @returns the mesh in the bait's own frame, wound outwards [m]
 *
 * Cost: linear in the points.
 * Source: the inverse of a rotation is its transpose.
 */
export function meshFromBlock(mesh: Mesh, placement: PlanPlacement): Mesh {
  const [ax, ay] = turnedDirection([1, 0], placement);
  const [bx, by] = turnedDirection([0, 1], placement);
  const { x, y } = placement;
  const rows = [
    [ax, ay, 0],
    [bx, by, 0],
    [0, 0, 1],
  ] as const;
  return placedMesh(mesh, rows, [-(ax * x + ay * y), -(bx * x + by * y), 0]);
}

/**
 * Extents of an outline.
 *
 * @param outline - closed rings [m]
 * @returns least and greatest x and y [m]
 *
 * Cost: linear in the points.
 * Source: definition.
 */
export function outlineBox(outline: Outline): PlanBox {
  const points = outline.flat();
  const fold = (axis: 0 | 1, pick: (a: number, b: number) => number, start: number): number =>
    points.reduce((sum, point) => pick(sum, point[axis]), start);
  return {
    min: [fold(0, Math.min, Infinity), fold(1, Math.min, Infinity)],
    max: [fold(0, Math.max, -Infinity), fold(1, Math.max, -Infinity)],
  };
}

/**
 * Distance of a point from a box.
 *
 * @param box - [m]
 * @param point - [m]
 * @returns distance, 0 inside [m]
 *
 * Cost: constant.
 * Source: definition.
 */
export function boxDistance({ min, max }: PlanBox, [x, y]: Vec2): number {
  return Math.hypot(Math.max(0, min[0] - x, x - max[0]), Math.max(0, min[1] - y, y - max[1]));
}

/**
 * Distance of a point from an outline, negative inside.
 *
 * @param outline - closed rings [m]
 * @param point - [m]
 * @returns signed distance [m]
 *
 * Cost: linear in the points of the outline.
 * Source: even-odd rule; distance to segments.
 */
export function outlineDistance(outline: Outline, [x, y]: Vec2): number {
  let nearest = Infinity;
  let inside = false;
  for (const ring of outline) {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [ax, ay] = ring[j]!;
      const [bx, by] = ring[i]!;
      nearest = Math.min(nearest, segmentDistance(ax, ay, bx, by, x, y));
      if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
    }
  }
  return inside ? -nearest : nearest;
}

function segmentDistance(ax: number, ay: number, bx: number, by: number, x: number, y: number): number {
  const [dx, dy] = [bx - ax, by - ay];
  const square = dx * dx + dy * dy;
  const t = square > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square)) : 0;
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}

/**
 * Distance of a point from a straight stretch.
 *
 * @param from - one end [m]
 * @param to - the other end [m]
 * @param point - [m]
 * @returns distance [m]
 *
 * Cost: constant.
 * Source: definition.
 */
export function stretchDistance(from: Vec2, to: Vec2, point: Vec2): number {
  return segmentDistance(from[0], from[1], to[0], to[1], point[0], point[1]);
}
