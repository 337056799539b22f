import type { Mesh } from './mesh.ts';

/**
 * Whether every edge of a mesh belongs to exactly two triangles that run along it in opposite directions.
 *
 * @param mesh - indices must be in range; positions are not looked at
 * @returns true for a closed surface of consistent winding; false when a triangle uses a vertex twice [-]
 *
 * Cost: linear in the triangles for any mesh that can be drawn: an edge is kept at its end of lower valence, so the lists
 * searched stay shorter than √(6·triangles).
 * Source: own derivation; bound on the lists after Chiba and Nishizeki, SIAM J. Comput. 14(1), 1985, 210-223 (from memory).
 */
export function isClosedSurface({ positions, triangles }: Mesh): boolean {
  const valence = vertexValences(positions.length / 3, triangles);
  const head = new Int32Array(valence.length).fill(-1);
  const next = new Int32Array(triangles.length);
  // The far end times four, and which directions were seen.
  const far = new Int32Array(triangles.length);
  let edges = 0;
  let unpaired = 0;
  for (let triangle = 0; triangle < triangles.length; triangle += 3) {
    let from = triangles[triangle + 2]!;
    for (let corner = 0; corner < 3; corner++) {
      const to = triangles[triangle + corner]!;
      const keptAtFrom = valence[from]! < valence[to]! || (valence[from] === valence[to] && from < to);
      const near = keptAtFrom ? from : to;
      const other = keptAtFrom ? to : from;
      const seen = keptAtFrom ? 1 : 2;
      let edge = head[near]!;
      while (edge >= 0 && far[edge]! >> 2 !== other) edge = next[edge]!;
      if (edge >= 0) {
        if ((far[edge]! & 3) + seen !== 3) return false;
        far[edge] = far[edge]! | 3;
        unpaired--;
      } else {
        far[edges] = (other << 2) | seen;
        next[edges] = head[near]!;
        head[near] = edges++;
        unpaired++;
      }
      from = to;
    }
  }
  return unpaired === 0;
}

/** How many triangle corners lie at each vertex. */
function vertexValences(vertices: number, triangles: Uint32Array): Int32Array {
  const valence = new Int32Array(vertices);
  for (let corner = 0; corner < triangles.length; corner++) {
    const vertex = triangles[corner]!;
    valence[vertex] = valence[vertex]! + 1;
  }
  return valence;
}

/** What is wrong with the edges of a surface that is not closed. */
export interface EdgeTrouble {
  /** Edges of one triangle only. */
  readonly open: EdgeGroup;
  /** Edges of three triangles or more. */
  readonly crowded: EdgeGroup;
  /** Edges that two triangles run along in the same direction. */
  readonly opposed: EdgeGroup;
}

/** How many edges, and the two vertices of the first. */
export interface EdgeGroup {
  readonly count: number;
  readonly first: readonly [number, number];
}

/**
 * The edges that keep a surface from being closed, by kind.
 *
 * @param mesh - indices must be in range, no triangle may use a vertex twice; positions are not looked at
 * @returns counts [-] and, for each kind, the edge of the lowest vertex numbers
 *
 * Cost: one sort of three numbers a triangle.
 * Source: own derivation.
 */
export function edgeTrouble({ positions, triangles }: Mesh): EdgeTrouble {
  const vertices = positions.length / 3;
  const keys = sortedEdgeKeys(vertices, triangles);
  const groups = {
    open: { count: 0, first: [0, 0] as [number, number] },
    crowded: { count: 0, first: [0, 0] as [number, number] },
    opposed: { count: 0, first: [0, 0] as [number, number] },
  };
  let start = 0;
  while (start < keys.length) {
    const edge = Math.floor(keys[start]! / 2);
    let end = start;
    let forward = 0;
    for (; end < keys.length && Math.floor(keys[end]! / 2) === edge; end++) forward += keys[end]! % 2;
    const kind = edgeKind(end - start, forward);
    if (kind) {
      if (groups[kind].count++ === 0) groups[kind].first = [Math.floor(edge / vertices), edge % vertices];
    }
    start = end;
  }
  return groups;
}

function edgeKind(uses: number, forward: number): keyof EdgeTrouble | undefined {
  if (uses === 1) return 'open';
  if (uses > 2) return 'crowded';
  return forward === 1 ? undefined : 'opposed';
}

/** Both ends of each edge, lower first, and the direction, in one number; sorted. */
function sortedEdgeKeys(vertices: number, triangles: Uint32Array): Float64Array {
  const keys = new Float64Array(triangles.length);
  for (let triangle = 0; triangle < triangles.length; triangle += 3) {
    let from = triangles[triangle + 2]!;
    for (let corner = 0; corner < 3; corner++) {
      const to = triangles[triangle + corner]!;
      keys[triangle + corner] = from < to ? 2 * (from * vertices + to) + 1 : 2 * (to * vertices + from);
      from = to;
    }
  }
  return keys.sort();
}
