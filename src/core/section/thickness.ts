import type { Box, Vec3 } from '../mesh/mesh.ts';
import type { BoxTree } from './box-tree.ts';
import { isInside } from './inside.ts';
import { nearest, nearestResult, shrunkRadius, type Nearest } from './nearest.ts';

/** A ball inside the solid: its diameter and centre [m]. */
export interface Ball {
  readonly thickness: number;
  readonly at: Vec3;
}

const ROOT3 = Math.sqrt(3);

/** Distances to the surface are searched to this part of a cube's half diagonal. */
const SLACK = 3;

/** A climb ends when its steps are this part of the radius [1]; roughly, to see which hills are worth it, and to the end. */
const ROUGH = 1e-3;
const EXACT = 1e-7;

/** Hills whose rough tops are lower than the best by more than this part are not climbed to the end [1]. */
const RIVAL = 4e-3;

/** Most cubes that one round of the search may hold. */
const CUBES = 40_000;

/** Candidates, at least a radius apart, from which the search goes uphill. */
const CLIMBS = 6;

interface Candidate {
  readonly radius: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/**
 * The largest ball that fits inside a closed mesh: the thickest place of the body.
 *
 * Cubes that tile the body are halved as long as a centre in them could still be better than the best so far: the
 * distance to the surface at their middle plus half their diagonal says how good. From the best places that remain
 * the centre is then moved uphill to the end, so the answer is the top of its hill, and no other hill is higher by
 * more than the resolution.
 *
 * @param tree - boxes over a closed mesh [m]
 * @param resolution - no ball that fits is larger than the answer by more than this part of it [1], above 0
 * @returns diameter and centre [m]; the ball does not cross the surface
 * @throws {RangeError} when the resolution is out of range or nothing lies inside the mesh
 *
 * Valid: closed mesh wound outwards. A sheet of even thickness, wider than about 60 times that, is searched to 40 000
 * cubes and no finer.
 * Cost: about (length / thickness) / resolution searches; 100 000 triangles: some 100 ms.
 * Source: branch and bound on a distance function, as V. Agafonkin's pole of inaccessibility (polylabel, 2016) does
 * in the plane; local thickness after T. Hildebrand and P. Rüegsegger, J. Microscopy 185 (1997), from memory.
 */
export function thickestBall(tree: BoxTree, resolution = 0.02): Ball {
  if (!(resolution > 0 && resolution < 1)) {
    throw new RangeError(`thickestBall: wants a resolution between 0 and 1, got ${resolution}`);
  }
  const { min, max } = treeBox(tree);
  const sides: Vec3 = [max[0] - min[0], max[1] - min[1], max[2] - min[2]];
  const found = nearestResult();
  let hills: Candidate[] = [];
  let climbed = 0;
  let half = Math.min(...sides) / 2;
  let cubes = tiling(min, sides, half);
  while (cubes.length > 0 && cubes.length < 3 * CUBES) {
    const promising = searched(tree, cubes, half, resolution, hills, found);
    hills = highest(hills);
    // The first hill is climbed at once: the sooner the best is known, the more cubes are ruled out.
    if (hills[0] && hills[0].radius > climbed) {
      const top = uphill(tree, hills[0], found, ROUGH);
      climbed = top.thickness / 2;
      hills[0] = { radius: climbed, x: top.at[0], y: top.at[1], z: top.at[2] };
    }
    half /= 2;
    cubes = halved(promising, half, (hills[0]?.radius ?? 0) * (1 + resolution) - 2 * ROOT3 * half);
  }
  if (hills.length === 0)
    throw new RangeError('thickestBall: wants a closed solid, got nothing inside the mesh');
  const rough = hills.map((hill) => uphill(tree, hill, found, ROUGH));
  const most = Math.max(...rough.map(({ thickness }) => thickness));
  // A climb that has come near its top gains no more than a few of its steps.
  const tops = rough
    .filter(({ thickness }) => thickness >= most * (1 - RIVAL))
    .map(({ thickness, at: [x, y, z] }) =>
      uphill(tree, { radius: thickness / 2, x, y, z }, found, EXACT, 2 * ROUGH),
    );
  return tops.reduce((best, top) => (top.thickness > best.thickness ? top : best));
}

/** Looks at the middle of every cube: adds it to the hills if it is inside, and returns those worth halving. */
function searched(
  tree: BoxTree,
  cubes: readonly number[],
  half: number,
  resolution: number,
  hills: Candidate[],
  found: Nearest,
): number[] {
  const kept: number[] = [];
  const diagonal = half * ROOT3;
  let best = hills[0]?.radius ?? 0;
  for (let i = 0; i < cubes.length; i += 3) {
    const [x, y, z] = [cubes[i]!, cubes[i + 1]!, cubes[i + 2]!];
    const enough = best * (1 + resolution) - diagonal;
    // Distances may come out too large by `slack`: harmless where they rule cubes out, taken off where they count.
    const slack = Math.max((best * resolution) / 4, diagonal / SLACK);
    nearest(tree, x, y, z, found, slack, Math.max(0, enough));
    if (found.distance <= enough) continue;
    const within = isInside(tree, x, y, z);
    if (within || diagonal - found.distance + slack > best) kept.push(x, y, z, found.distance);
    if (!within || found.distance <= best * (1 - resolution)) continue;
    const radius = found.distance - slack;
    hills.push({ radius, x, y, z });
    if (radius > best) best = radius;
  }
  return kept;
}

/** The best candidates, best first, none inside the ball of a better one. */
function highest(hills: readonly Candidate[]): Candidate[] {
  const chosen: Candidate[] = [];
  for (const hill of hills.toSorted((a, b) => b.radius - a.radius)) {
    if (chosen.length === CLIMBS) break;
    const apart = (other: Candidate) => Math.hypot(hill.x - other.x, hill.y - other.y, hill.z - other.z);
    if (chosen.every((other) => apart(other) > other.radius)) chosen.push(hill);
  }
  return chosen;
}

/** Middles of the cubes of half edge `half` that cover a box, three numbers each. */
function tiling(min: Vec3, sides: Vec3, half: number): number[] {
  const count = sides.map((side) => Math.max(1, Math.ceil(side / (2 * half) - 1e-9)));
  const middles: number[] = [];
  for (let i = 0; i < count[0]!; i++) {
    for (let j = 0; j < count[1]!; j++) {
      for (let k = 0; k < count[2]!; k++) {
        middles.push(min[0] + (2 * i + 1) * half, min[1] + (2 * j + 1) * half, min[2] + (2 * k + 1) * half);
      }
    }
  }
  return middles;
}

/** Middles of the eight parts of every cube whose distance to the surface (fourth number) still promises enough. */
function halved(cubes: readonly number[], half: number, promising: number): number[] {
  const middles: number[] = [];
  for (let i = 0; i < cubes.length; i += 4) {
    if (cubes[i + 3]! <= promising) continue;
    for (let part = 0; part < 8; part++) {
      for (let axis = 0; axis < 3; axis++)
        middles.push(cubes[i + axis]! + ((part >> axis) & 1 ? half : -half));
    }
  }
  return middles;
}

/** Moves a centre along the axes as long as its ball grows, in steps that double on success and halve on failure. */
function uphill(tree: BoxTree, start: Candidate, found: Nearest, fineness: number, stride = 1 / 16): Ball {
  const centre = [start.x, start.y, start.z] as [number, number, number];
  nearest(tree, ...centre, found);
  let radius = found.distance;
  // Roughly, a distance may come out too large by half a step; to the end it is exact.
  const slack = fineness > EXACT ? fineness / 2 : 0;
  let step = radius * stride;
  for (let round = 0; round < 200 && step > radius * fineness; round++) {
    let better = false;
    for (let side = 0; side < 6; side++) {
      const moved = centre.slice() as typeof centre;
      moved[side >> 1]! += side & 1 ? -step : step;
      nearest(tree, ...moved, found, slack * radius, radius * (1 + 1e-12));
      if (found.distance <= radius * (1 + 1e-12)) continue;
      radius = found.distance;
      centre.splice(0, 3, ...moved);
      better = true;
    }
    // A step shorter than the radius cannot leave the solid.
    step = Math.min(step * (better ? 1.5 : 0.5), radius / 2);
  }
  return { thickness: 2 * radius, at: centre };
}

/** Ball-shrinking stops at this part of the radius [1]. */
const SHRUNK = 4e-3;

/**
 * The largest ball inside the solid that touches the surface where the ball about a given point does: the ball about
 * the point, blown up away from its foot until it meets another side. It holds the point.
 *
 * @param tree - boxes over a closed mesh [m]
 * @param point - inside the solid [m]
 * @returns diameter and centre [m]; the surface reaches 0.4 % of the radius into the ball, 1.5 % beside an edge
 *
 * Valid: points inside. Facets that turn by less than 10° from the one that it touches do not stop the ball; beside a sharper
 * edge both facets stop it early.
 * Cost: two searches.
 * Source: J. Ma, S. W. Bae and S. Choi, 3D medial axis point approximation using nearest neighbors and the normal
 * field, The Visual Computer 28 (2012), from memory.
 */
export function ballAbout(tree: BoxTree, point: Vec3): Ball {
  const found = nearestResult();
  nearest(tree, ...point, found);
  const least = found.distance;
  if (!(least > 0)) return { thickness: 0, at: point };
  const foot: Vec3 = [found.x, found.y, found.z];
  const away: Vec3 = [0, 1, 2].map((axis) => (point[axis]! - foot[axis]!) / least) as [
    number,
    number,
    number,
  ];
  const { min, max } = treeBox(tree);
  // No ball inside is larger than the narrowest side of the box.
  const start = Math.min(max[0] - min[0], max[1] - min[1], max[2] - min[2]) / 2;
  const radius = Math.max(least, shrunkRadius(tree, foot, away, start, SHRUNK));
  const at = [0, 1, 2].map((axis) => foot[axis]! + radius * away[axis]!) as [number, number, number];
  return { thickness: 2 * radius, at };
}

/**
 * Bounding box of a mesh from its tree.
 *
 * @param tree - boxes over a mesh [m]
 * @returns least and greatest corner [m]
 *
 * Cost: constant.
 * Source: definition.
 */
export function treeBox({ boxes }: BoxTree): Box {
  return { min: [boxes[6]!, boxes[7]!, boxes[8]!], max: [boxes[9]!, boxes[10]!, boxes[11]!] };
}
