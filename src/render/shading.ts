import type { Vec3 } from '../core/mesh/mesh.ts';
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
const CELLS = 150_000;
/** Cells left free around it. */
const BORDER = 2;
const NOTHING = -1e9;

/** Room that the maps of all lights take in turn; it grows when one of them needs more. */
interface Room {
  near: Float32Array;
  face: Int32Array;
  /** Corners of each part. */
  readonly points: readonly Float64Array[];
}

const roomFor = (parts: readonly Part[]): Room => ({
  near: new Float32Array(CELLS),
  face: new Int32Array(CELLS),
  points: parts.map(({ mesh }) => new Float64Array(mesh.positions.length)),
});

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

/** Corners of a part along three axes [mm]. */
function turned({ mesh }: Part, [u, v, w]: readonly [Vec3, Vec3, Vec3], out: Float64Array): void {
  const { positions } = mesh;
  for (let i = 0; i < out.length; i += 3) {
    const [x, y, z] = [positions[i]!, positions[i + 1]!, positions[i + 2]!];
    out[i] = x * u[0] + y * u[1] + z * u[2];
    out[i + 1] = x * v[0] + y * v[1] + z * v[2];
    out[i + 2] = x * w[0] + y * w[1] + z * w[2];
  }
}

function spanOf(points: readonly Float64Array[], axis: number): [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (const some of points) {
    for (let i = axis; i < some.length; i += 3) {
      const value = some[i]!;
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  return [low, high];
}

/** What a light sees of the parts. Its columns run along x, so that long thin scenes fill the map. */
function depthMap(parts: readonly Part[], towards: Vec3, room: Room): DepthMap {
  const { points } = room;
  const down = unit(cross(towards, Math.abs(towards[0]) > 0.99 ? [0, 1, 0] : [1, 0, 0]));
  const across = cross(down, towards);
  parts.forEach((part, index) => turned(part, [across, down, towards], points[index]!));
  const [[left, right], [top, bottom]] = [spanOf(points, 0), spanOf(points, 1)];
  const scale = Math.sqrt(CELLS / ((right - left) * (bottom - top)));
  const shift = [BORDER - left * scale, BORDER - top * scale] as const;
  const width = Math.ceil((right - left) * scale) + 2 * BORDER;
  const height = Math.ceil((bottom - top) * scale) + 2 * BORDER;
  const drawn = cleared(room, width, height);
  parts.forEach(({ mesh }, index) => {
    const some = points[index]!;
    for (let i = 0; i < some.length; i += 3) {
      some[i] = some[i]! * scale + shift[0];
      some[i + 1] = some[i + 1]! * scale + shift[1];
    }
    drawTriangles(drawn, some, mesh.triangles, 0, 'counter-clockwise');
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
  const [lx, ly, lz] = light.towards;
  const cell = 1 / map.scale;
  const left = map.shift[0] - 0.5;
  const top = map.shift[1] - 0.5;
  const [ux, uy, uz] = map.across.map((part) => part * map.scale) as [number, number, number];
  const [vx, vy, vz] = map.down.map((part) => part * map.scale) as [number, number, number];
  // Lookups start off the surface, or it would shade itself cell by cell.
  const off = 1.2 * cell;
  const soft = 1 / (1.5 * cell);
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
      const s = column - c;
      const t = row - r;
      // What lies above, of the four cells around: to the left and right, then below.
      const a = Math.max(0, near[at]! - depth);
      const b = Math.max(0, near[at + 1]! - depth);
      const d = Math.max(0, near[at + width]! - depth);
      const e = Math.max(0, near[at + width + 1]! - depth);
      path = ((1 - s) * a + s * b) * (1 - t) + ((1 - s) * d + s * e) * t;
      open =
        ((1 - s) * Math.max(0, 1 - a * soft) + s * Math.max(0, 1 - b * soft)) * (1 - t) +
        ((1 - s) * Math.max(0, 1 - d * soft) + s * Math.max(0, 1 - e * soft)) * t;
    }
    if (facing > 0) into[i]! += facing * open * strength;
    if (fall === 0) continue;
    const rest = 1 + path * fall;
    through[i]! += light.strength / (rest * rest);
  }
}

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
  const room = roomFor(parts);
  for (const light of lights) {
    const map = depthMap(parts, light.towards, room);
    for (const { lit, reach } of places) addLight(lit, map, light, reach);
  }
}
