import type { Vec2 } from '../mesh/mesh.ts';

/** A straight piece of a line [m]; an end that is a vertex of the mesh has its number, one in between has none. */
export interface Piece {
  readonly from: number | null;
  readonly to: number | null;
  readonly ends: readonly [Vec2, Vec2];
}

/**
 * Pieces joined at the vertices they share into lines as long as they go; where more than two meet, lines end.
 *
 * @param pieces - in any order [m]
 * @param least - lines shorter than this are left out [m]
 * @returns lines [m], the longest first
 *
 * Cost: linear in the pieces, and a sort.
 * Source: own derivation.
 */
export function chained(pieces: readonly Piece[], least: number): Vec2[][] {
  const meeting = new Map<number, number[]>();
  pieces.forEach(({ from, to }, index) => {
    for (const vertex of [from, to]) {
      if (vertex !== null) meeting.set(vertex, [...(meeting.get(vertex) ?? []), index]);
    }
  });
  const used = new Uint8Array(pieces.length);
  /** Points beyond the end of a piece at `vertex`, until the line ends or forks. */
  const onward = (vertex: number | null): Vec2[] => {
    const points: Vec2[] = [];
    let here = vertex;
    while (here !== null) {
      const there = meeting.get(here) ?? [];
      const index = there.length === 2 ? there.find((one) => used[one] === 0) : undefined;
      if (index === undefined) break;
      used[index] = 1;
      const { from, to, ends }: Piece = pieces[index]!;
      points.push(from === here ? ends[1] : ends[0]);
      here = from === here ? to : from;
    }
    return points;
  };
  const lines = pieces.flatMap((piece, index) => {
    if (used[index]) return [];
    used[index] = 1;
    const after = onward(piece.to);
    return [[...onward(piece.from).reverse(), ...piece.ends, ...after]];
  });
  return lines
    .map((line) => ({ line, length: lengthOf(line) }))
    .filter(({ length }) => length >= least)
    .sort((a, b) => b.length - a.length)
    .map(({ line }) => line);
}

function lengthOf(line: readonly Vec2[]): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    sum += Math.hypot(b[0] - a[0], b[1] - a[1]);
  }
  return sum;
}
