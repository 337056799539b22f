import { bounds, projected, type Size } from './camera.ts';
import { drawTriangles, samples, type Samples } from './raster.ts';
import type { Part, Scene } from './scene.ts';

/** Samples along each side of a pixel. */
export const OVERSAMPLING = 2;
const PER_PIXEL = OVERSAMPLING * OVERSAMPLING;

/** Surface that is seen: one fragment for each surface in each pixel. */
export interface Fragments {
  readonly count: number;
  /** Index of the pixel, and the share of it that is covered. */
  readonly pixel: Uint32Array;
  readonly share: Float32Array;
  /** Index of the part. */
  readonly part: Uint8Array;
  /** Shape (count, 3) [mm]. */
  readonly position: Float32Array;
  /** Shape (count, 3), length one. */
  readonly normal: Float32Array;
}

/** A part in the samples of a picture: its corners there, and the index of its first face. */
interface Drawn {
  readonly part: Part;
  readonly corners: Float64Array;
  readonly first: number;
}

/** Samples of a whole scene, and what is needed to tell its faces. */
interface Seen {
  readonly samples: Samples;
  readonly parts: readonly Drawn[];
}

let room: Samples | undefined;

/** Empty samples, in the room of those before: pictures are drawn one after another. */
function emptied(width: number, height: number): Samples {
  if (room?.width === width && room.height === height) {
    room.near.fill(0);
    room.face.fill(-1);
  } else {
    room = samples(width, height);
  }
  return room;
}

function seen({ camera, size, parts }: Scene): Seen {
  const fine = {
    ...camera,
    focal: camera.focal * OVERSAMPLING,
    centre: [camera.centre[0] * OVERSAMPLING, camera.centre[1] * OVERSAMPLING] as const,
  };
  const drawn = emptied(size.width * OVERSAMPLING, size.height * OVERSAMPLING);
  let first = 0;
  const all = parts.map((part): Drawn => {
    const { positions, triangles } = part.mesh;
    const one = { part, corners: projected(positions, fine), first };
    // Rows run downwards: a face that turns to the eye is seen clockwise.
    drawTriangles(drawn, one.corners, triangles, first, 'clockwise');
    first += triangles.length / 3;
    return one;
  });
  return { samples: drawn, parts: all };
}

/** Pixels that parts may cover: first and last column and row. */
function window({ parts }: Seen, { width, height }: Size) {
  const boxes = parts.map(({ corners }) => bounds(corners));
  const first = (axis: 0 | 1): number =>
    Math.max(0, Math.floor(Math.min(...boxes.map(({ min }) => min[axis])) / OVERSAMPLING));
  const last = (axis: 0 | 1, count: number): number =>
    Math.min(count - 1, Math.floor(Math.max(...boxes.map(({ max }) => max[axis])) / OVERSAMPLING));
  return { left: first(0), top: first(1), right: last(0, width), bottom: last(1, height) };
}

/** Arrays that grow. */
class Store {
  count = 0;
  pixel = new Uint32Array(1 << 18);
  share = new Float32Array(1 << 18);
  part = new Uint8Array(1 << 18);
  position = new Float32Array(3 << 18);
  normal = new Float32Array(3 << 18);

  add(): number {
    if (this.count === this.pixel.length) this.#grow();
    return this.count++;
  }

  #grow(): void {
    const longer = <A extends Uint32Array | Uint8Array | Float32Array>(old: A): A => {
      const fresh = new (old.constructor as new (length: number) => A)(2 * old.length);
      fresh.set(old);
      return fresh;
    };
    this.pixel = longer(this.pixel);
    this.share = longer(this.share);
    this.part = longer(this.part);
    this.position = longer(this.position);
    this.normal = longer(this.normal);
  }
}

/** Two faces in one pixel are one surface when they turn alike (cosine) and lie at one depth (relative). */
const ALIKE = 0.94;
const ONE_DEPTH = 0.003;

function partOfFace({ parts }: Seen, face: number): number {
  let part = parts.length - 1;
  while (parts[part]!.first > face) part--;
  return part;
}

/** Whether two samples of one part belong to one surface. */
function alike(
  { samples: { face, near } }: Seen,
  { part, first }: Drawn,
  one: number,
  other: number,
): boolean {
  const a = face[one]!;
  const b = face[other]!;
  if (a === b) return true;
  if (Math.abs(near[one]! - near[other]!) > ONE_DEPTH * near[one]!) return false;
  const { faces } = part.normals;
  const i = 3 * (a - first);
  const j = 3 * (b - first);
  return faces[i]! * faces[j]! + faces[i + 1]! * faces[j + 1]! + faces[i + 2]! * faces[j + 2]! > ALIKE;
}

/** Adds the surface at a place of one face of a part [samples]. */
function addSurface(
  store: Store,
  { part, corners, first }: Drawn,
  face: number,
  x: number,
  y: number,
): number {
  const { mesh, normals } = part;
  const { positions: p, triangles } = mesh;
  const { rows, corners: rowOf } = normals;
  const corner = 3 * (face - first);
  const a = 3 * triangles[corner]!;
  const b = 3 * triangles[corner + 1]!;
  const c = 3 * triangles[corner + 2]!;
  const ux = corners[b]! - corners[a]!;
  const uy = corners[b + 1]! - corners[a + 1]!;
  const vx = corners[c]! - corners[a]!;
  const vy = corners[c + 1]! - corners[a + 1]!;
  const px = x - corners[a]!;
  const py = y - corners[a + 1]!;
  const area = ux * vy - uy * vx;
  // Shares in the picture become shares on the face when each counts by its nearness.
  const nearB = ((px * vy - py * vx) / area) * corners[b + 2]!;
  const nearC = ((py * ux - px * uy) / area) * corners[c + 2]!;
  const nearA = (1 - (px * (vy - uy) - py * (vx - ux)) / area) * corners[a + 2]!;
  const sum = nearA + nearB + nearC;
  const ofA = nearA / sum;
  const ofB = nearB / sum;
  const ofC = nearC / sum;
  const at = store.add();
  const { position, normal } = store;
  position[3 * at] = ofA * p[a]! + ofB * p[b]! + ofC * p[c]!;
  position[3 * at + 1] = ofA * p[a + 1]! + ofB * p[b + 1]! + ofC * p[c + 1]!;
  position[3 * at + 2] = ofA * p[a + 2]! + ofB * p[b + 2]! + ofC * p[c + 2]!;
  const i = 3 * rowOf[corner]!;
  const j = 3 * rowOf[corner + 1]!;
  const k = 3 * rowOf[corner + 2]!;
  const nx = ofA * rows[i]! + ofB * rows[j]! + ofC * rows[k]!;
  const ny = ofA * rows[i + 1]! + ofB * rows[j + 1]! + ofC * rows[k + 1]!;
  const nz = ofA * rows[i + 2]! + ofB * rows[j + 2]! + ofC * rows[k + 2]!;
  const length = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1;
  normal[3 * at] = nx / length;
  normal[3 * at + 1] = ny / length;
  normal[3 * at + 2] = nz / length;
  return at;
}

/** Fragments of one pixel: its samples sorted into surfaces. */
function addPixel(all: Seen, store: Store, column: number, row: number, pixel: number): void {
  const { face, width } = all.samples;
  const x0 = column * OVERSAMPLING;
  const y0 = row * OVERSAMPLING;
  let left = (1 << PER_PIXEL) - 1;
  for (let first = 0; first < PER_PIXEL; first++) {
    const one = (y0 + (first >> 1)) * width + x0 + (first & 1);
    const own = face[one]!;
    if (!(left & (1 << first)) || own < 0) continue;
    const index = partOfFace(all, own);
    const drawn = all.parts[index]!;
    // Samples of this surface, and of them those of the same face, with the sums of their places.
    let covered = 0;
    let same = 0;
    let x = 0;
    let y = 0;
    for (let k = first; k < PER_PIXEL; k++) {
      const other = (y0 + (k >> 1)) * width + x0 + (k & 1);
      const its = face[other]!;
      if (!(left & (1 << k)) || its < 0 || partOfFace(all, its) !== index) continue;
      if (!alike(all, drawn, one, other)) continue;
      left &= ~(1 << k);
      covered++;
      if (its !== own) continue;
      same++;
      x += x0 + (k & 1) + 0.5;
      y += y0 + (k >> 1) + 0.5;
    }
    const at = addSurface(store, drawn, own, x / same, y / same);
    store.part[at] = index;
    store.pixel[at] = pixel;
    store.share[at] = covered / PER_PIXEL;
  }
}

/** The fragment of a pixel that one face fills. */
function addFull(all: Seen, store: Store, column: number, row: number, pixel: number, face: number): void {
  const index = partOfFace(all, face);
  const x = (column + 0.5) * OVERSAMPLING;
  const y = (row + 0.5) * OVERSAMPLING;
  const at = addSurface(store, all.parts[index]!, face, x, y);
  store.part[at] = index;
  store.pixel[at] = pixel;
  store.share[at] = 1;
}

/** All surface that the camera of a scene sees. */
export function fragments(scene: Scene): Fragments {
  const { size } = scene;
  const all = seen(scene);
  const store = new Store();
  const { face, width } = all.samples;
  const { left, top, right, bottom } = window(all, size);
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) {
      const at = (row * width + column) * OVERSAMPLING;
      const a = face[at]!;
      const b = face[at + 1]!;
      const c = face[at + width]!;
      const d = face[at + width + 1]!;
      if ((a & b & c & d) === -1) continue;
      const pixel = row * size.width + column;
      if (a === b && a === c && a === d) addFull(all, store, column, row, pixel, a);
      else addPixel(all, store, column, row, pixel);
    }
  }
  return store;
}
