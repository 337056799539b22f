import type { Mesh, Vec3 } from '../core/mesh/mesh.ts';
import { bounds } from './camera.ts';
import { coarse } from './coarse.ts';
import type { Light } from './lights.ts';
import { drawTriangles, type Samples } from './raster.ts';
import type { Part } from './scene.ts';
import { cross, unit } from './vector.ts';

/** Places on surfaces, and the light that reaches them. */
export interface Lit {
  readonly count: number;
  /** Shape (count, 3) [mm]. */
  readonly position: Float32Array;
  /** Shape (count, 3). */
  readonly normal: Float32Array;
  /** Light of the sky and of the key on the surface, and light that came through the solid whatever its direction. */
  readonly sky: Float32Array;
  readonly key: Float32Array;
  readonly through: Float32Array;
}

/** Path in the solid over which the light that goes through falls to a quarter [mm]. */
export type Reach = number;

/** How far a light sees: the nearest surface along its direction, on a grid across it. */
interface DepthMap {
  readonly samples: Samples;
  /** A point's column is across·point·scale + shift. */
  readonly across: Vec3;
  readonly down: Vec3;
  readonly scale: number;
  readonly shift: readonly [number, number];
}

/** Cells of a depth map, whatever its shape. */
const CELLS = 40_000;
/** Cells left free around it. */
const BORDER = 2;
const NOTHING = -1e9;
/** How far off the surface lookups start, in cells, or it would shade itself cell by cell. */
const OFF = 1.2;
/** Edge of the cells in which points of a caster become one, in cells of a map: they move by less than `OFF`. */
const EDGE = 1;

/** Room that the maps of all lights take in turn; it grows when one of them needs more. */
interface Room {
  near: Float32Array;
  face: Int32Array;
  /** Corners of each caster. */
  readonly points: readonly Float64Array[];
}

const roomFor = (casters: readonly Mesh[]): Room => ({
  near: new Float32Array(CELLS),
  face: new Int32Array(CELLS),
  points: casters.map(({ positions }) => new Float64Array(positions.length)),
});

/** Meshes that cast the shadows of parts, as fine as a map seen from above. */
function castersOf(parts: readonly Part[]): Mesh[] {
  const boxes = parts.map(({ mesh }) => bounds(mesh.positions));
  const side = (axis: 0 | 1): number =>
    Math.max(...boxes.map(({ max }) => max[axis])) - Math.min(...boxes.map(({ min }) => min[axis]));
  const cell = Math.sqrt((side(0) * side(1)) / CELLS);
  return parts.map(({ mesh, normals }) => coarse(mesh, normals.rows, EDGE * cell));
}

/** An empty map of a size. */
function cleared(room: Room, width: number, height: number): Samples {
  const cells = width * height;
  if (room.near.length < cells) {
    room.near = new Float32Array(cells);
    room.face = new Int32Array(cells);
  }
  room.near.fill(NOTHING, 0, cells);
  return { width, height, near: room.near, face: room.face };
}

/** Least and greatest of each of three coordinates. */
type Span = readonly [low: Float64Array, high: Float64Array];

/** Points along three axes [mm], and a span that grows by them. */
function turned(
  { positions }: Mesh,
  axes: readonly [Vec3, Vec3, Vec3],
  out: Float64Array,
  [low, high]: Span,
): void {
  for (let axis = 0; axis < 3; axis++) {
    const [ax, ay, az] = axes[axis]!;
    let least = low[axis]!;
    let most = high[axis]!;
    for (let i = 0; i < out.length; i += 3) {
      const value = positions[i]! * ax + positions[i + 1]! * ay + positions[i + 2]! * az;
      out[i + axis] = value;
      if (value < least) least = value;
      if (value > most) most = value;
    }
    low[axis] = least;
    high[axis] = most;
  }
}

/** What a light sees of the casters. Its columns run along x, so that long thin scenes fill the map. */
function depthMap(casters: readonly Mesh[], towards: Vec3, room: Room): DepthMap {
  const { points } = room;
  const down = unit(cross(towards, Math.abs(towards[0]) > 0.99 ? [0, 1, 0] : [1, 0, 0]));
  const across = cross(down, towards);
  const low = new Float64Array(3).fill(Infinity);
  const high = new Float64Array(3).fill(-Infinity);
  casters.forEach((mesh, index) => turned(mesh, [across, down, towards], points[index]!, [low, high]));
  const [wide, tall] = [high[0]! - low[0]!, high[1]! - low[1]!];
  const scale = Math.sqrt(CELLS / (wide * tall));
  const shift = [BORDER - low[0]! * scale, BORDER - low[1]! * scale] as const;
  const drawn = cleared(room, Math.ceil(wide * scale) + 2 * BORDER, Math.ceil(tall * scale) + 2 * BORDER);
  casters.forEach(({ triangles }, index) => {
    const some = points[index]!;
    for (let i = 0; i < some.length; i += 3) {
      some[i] = some[i]! * scale + shift[0];
      some[i + 1] = some[i + 1]! * scale + shift[1];
    }
    drawTriangles(drawn, some, triangles, 0, 'counter-clockwise');
  });
  return { samples: drawn, across, down, scale, shift };
}

/**
 * Adds the light of one direction to all places: how much of it is not held up by a surface nearer to the light, over
 * the four cells around, and how much of the rest finds its way through. The second kernel of a picture.
 */
function addLight(lit: Lit, map: DepthMap, light: Light, reach: Reach): void {
  const { position, normal, count, through } = lit;
  const into = light.kind === 'key' ? lit.key : lit.sky;
  const strength = light.kind === 'paper' ? 0 : light.strength;
  const { near, width, height } = map.samples;
  const { across, down, scale, shift } = map;
  const [lx, ly, lz] = light.towards;
  const [ux, uy, uz] = [across[0] * scale, across[1] * scale, across[2] * scale];
  const [vx, vy, vz] = [down[0] * scale, down[1] * scale, down[2] * scale];
  const left = shift[0] - 0.5;
  const top = shift[1] - 0.5;
  const off = OFF / scale;
  const soft = scale / 1.5;
  const fall = reach > 0 ? 1 / reach : 0;
  for (let i = 0, j = 0; i < count; i++, j += 3) {
    const nx = normal[j]!;
    const ny = normal[j + 1]!;
    const nz = normal[j + 2]!;
    const facing = nx * lx + ny * ly + nz * lz;
    if ((facing <= 0 || strength === 0) && fall === 0) continue;
    const side = facing > 0 ? off : -off;
    const x = position[j]! + nx * side;
    const y = position[j + 1]! + ny * side;
    const z = position[j + 2]! + nz * side;
    const column = ux * x + uy * y + uz * z + left;
    const row = vx * x + vy * y + vz * z + top;
    let open = 1;
    let path = 0;
    if (column >= 0 && row >= 0 && column < width - 1 && row < height - 1) {
      const depth = lx * x + ly * y + lz * z;
      const c = column | 0;
      const r = row | 0;
      const at = r * width + c;
      // What lies above, in the four cells around: to the left and right, then below.
      const a = near[at]! - depth;
      const b = near[at + 1]! - depth;
      const d = near[at + width]! - depth;
      const e = near[at + width + 1]! - depth;
      if (a > 0 || b > 0 || d > 0 || e > 0) {
        const s = column - c;
        const t = row - r;
        const ofA = (1 - s) * (1 - t);
        const ofB = s * (1 - t);
        const ofD = (1 - s) * t;
        const ofE = s * t;
        path = (a > 0 ? ofA * a : 0) + (b > 0 ? ofB * b : 0) + (d > 0 ? ofD * d : 0) + (e > 0 ? ofE * e : 0);
        open = ofA * clear(a * soft) + ofB * clear(b * soft) + ofD * clear(d * soft) + ofE * clear(e * soft);
      }
    }
    if (facing > 0) into[i]! += facing * open * strength;
    if (fall === 0) continue;
    // Of the way through a solid, what lies before the start of the lookup.
    if (facing < 0 && path > 0) path -= facing * off;
    const rest = 1 + path * fall;
    through[i]! += light.strength / (rest * rest);
  }
}

/** Share of light that passes something so far above. */
const clear = (above: number): number => (above <= 0 ? 1 : above >= 1 ? 0 : 1 - above);

/** Places that no light has reached yet. */
export function unlit({ count, position, normal }: Pick<Lit, 'count' | 'position' | 'normal'>): Lit {
  const dark = () => new Float32Array(count);
  return { count, position, normal, sky: dark(), key: dark(), through: dark() };
}

/** Adds all lights to several sets of places; each set has its own reach, 0 where nothing goes through. */
export function lightUp(
  parts: readonly Part[],
  lights: readonly Light[],
  places: readonly { readonly lit: Lit; readonly reach: Reach }[],
): void {
  const casters = castersOf(parts);
  const room = roomFor(casters);
  for (const light of lights) {
    const map = depthMap(casters, light.towards, room);
    for (const { lit, reach } of places) addLight(lit, map, light, reach);
  }
}
