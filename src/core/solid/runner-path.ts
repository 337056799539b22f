import type { Vec2 } from '../mesh/mesh.ts';
import type { MoldLayout } from './mold-table.ts';

/** A stretch of runner on the way to a cavity. */
export interface RunnerStretch {
  /** [m]. */
  readonly length: number;
  /** Cavities that are fed through it [1]. */
  readonly shared: number;
}

/** Points closer than this are one [m]. */
const SAME = 1e-5;

const apart = (a: Vec2, b: Vec2): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

interface Edge {
  readonly ends: readonly [number, number];
  readonly length: number;
}

function nodesOf({ runner, sprue, gates }: MoldLayout): Vec2[] {
  const all = [sprue.end, ...gates.map(({ to }) => to), ...runner.flatMap(({ from, to }) => [from, to])];
  return all.reduce<Vec2[]>(
    (kept, point) => (kept.some((other) => apart(other, point) < SAME) ? kept : [...kept, point]),
    [],
  );
}

/** Pieces of a stretch between the nodes that lie on it. */
function pieces(nodes: readonly Vec2[], { from, to }: MoldLayout['runner'][number]): Edge[] {
  const length = apart(from, to);
  const on = nodes
    .map((node, index) => ({
      index,
      s: apart(from, node),
      off: apart(from, node) + apart(node, to) - length,
    }))
    .filter(({ off }) => off < SAME)
    .sort((a, b) => a.s - b.s);
  return on.slice(1).map(({ index, s }, k) => ({ ends: [on[k]!.index, index], length: s - on[k]!.s }));
}

/** Edges from the start to every node, along the tree. */
function ways(edges: readonly Edge[], start: number): Map<number, readonly number[]> {
  const found = new Map<number, readonly number[]>([[start, []]]);
  const open = [start];
  for (let node = open.shift(); node !== undefined; node = open.shift()) {
    edges.forEach(({ ends }, edge) => {
      const other = ends[0] === node ? ends[1] : ends[1] === node ? ends[0] : undefined;
      if (other === undefined || found.has(other)) return;
      found.set(other, [...found.get(node)!, edge]);
      open.push(other);
    });
  }
  return found;
}

/**
 * Stretches of runner between the sprue and each cavity's gate.
 *
 * @param layout - where runner, gates and sprue lie [m]
 * @returns for each cavity its stretches from the sprue on [m]; none where the sprue ends at the gate
 *
 * Valid: runners that form a tree.
 * Cost: stretches squared.
 * Source: definition.
 */
export function runnerPaths(layout: MoldLayout): RunnerStretch[][] {
  const nodes = nodesOf(layout);
  const at = (point: Vec2) => nodes.findIndex((node) => apart(node, point) < SAME);
  const edges = layout.runner.flatMap((stretch) => pieces(nodes, stretch));
  const tree = ways(edges, at(layout.sprue.end));
  const paths = layout.gates.map(({ to }) => tree.get(at(to)) ?? []);
  return paths.map((path) =>
    path.map((edge) => ({
      length: edges[edge]!.length,
      shared: paths.filter((other) => other.includes(edge)).length,
    })),
  );
}
