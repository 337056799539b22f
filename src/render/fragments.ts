import { projected } from './camera.ts';
import { faceNormals } from './normals.ts';
import { drawTriangles, samples, type Samples } from './raster.ts';
import type { Scene } from './scene.ts';

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

/** Samples of a whole scene, and what is needed to tell its faces. */
interface Seen {
  readonly scene: Scene;
  readonly samples: Samples;
  /** Of each part: corners in samples, face normals, index of the first face. */
  readonly parts: readonly {
    readonly corners: Float64Array;
    readonly faces: Float32Array;
    readonly first: number;
  }[];
}

function seen(scene: Scene): Seen {
  const { camera, size } = scene;
  const fine = {
    ...camera,
    focal: camera.focal * OVERSAMPLING,
    centre: [camera.centre[0] * OVERSAMPLING, camera.centre[1] * OVERSAMPLING] as const,
  };
  const drawn = samples(size.width * OVERSAMPLING, size.height * OVERSAMPLING);
  let first = 0;
  const parts = scene.parts.map(({ mesh }) => {
    const corners = projected(mesh.positions, fine);
    const part = { corners, faces: faceNormals(mesh), first };
    // Rows run downwards: a face that turns to the eye is seen clockwise.
    drawTriangles(drawn, corners, mesh.triangles, first, 'clockwise');
    first += mesh.triangles.length / 3;
    return part;
  });
  return { scene, samples: drawn, parts };
}

/** Arrays that grow. */
class Store {
  count = 0;
  pixel = new Uint32Array(1 << 16);
  share = new Float32Array(1 << 16);
  part = new Uint8Array(1 << 16);
  position = new Float32Array(3 << 16);
  normal = new Float32Array(3 << 16);

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

const partOfFace = ({ parts }: Seen, face: number): number => {
  let part = parts.length - 1;
  while (parts[part]!.first > face) part--;
  return part;
};

function alike(all: Seen, one: number, other: number): boolean {
  const { face, near } = all.samples;
  const [a, b] = [face[one]!, face[other]!];
  if (a === b) return true;
  const part = partOfFace(all, a);
  if (part !== partOfFace(all, b)) return false;
  if (Math.abs(near[one]! - near[other]!) > ONE_DEPTH * near[one]!) return false;
  const { faces, first } = all.parts[part]!;
  const [i, j] = [3 * (a - first), 3 * (b - first)];
  return faces[i]! * faces[j]! + faces[i + 1]! * faces[j + 1]! + faces[i + 2]! * faces[j + 2]! > ALIKE;
}

/** Adds the surface at a place of one face [samples]. */
function addSurface(all: Seen, store: Store, face: number, x: number, y: number): number {
  const index = partOfFace(all, face);
  const { corners, first } = all.parts[index]!;
  const { mesh, normals } = all.scene.parts[index]!;
  const corner = 3 * (face - first);
  const a = 3 * mesh.triangles[corner]!;
  const b = 3 * mesh.triangles[corner + 1]!;
  const c = 3 * mesh.triangles[corner + 2]!;
  const ux = corners[b]! - corners[a]!;
  const uy = corners[b + 1]! - corners[a + 1]!;
  const vx = corners[c]! - corners[a]!;
  const vy = corners[c + 1]! - corners[a + 1]!;
  const px = x - corners[a]!;
  const py = y - corners[a + 1]!;
  const area = ux * vy - uy * vx;
  // Shares in the picture become shares on the face when each counts by its nearness.
  const ofB = ((px * vy - py * vx) / area) * corners[b + 2]!;
  const ofC = ((py * ux - px * uy) / area) * corners[c + 2]!;
  const ofA = (1 - (px * (vy - uy) - py * (vx - ux)) / area) * corners[a + 2]!;
  const sum = ofA + ofB + ofC;
  const at = store.add();
  store.part[at] = index;
  let square = 0;
  for (let axis = 0; axis < 3; axis++) {
    const p = mesh.positions;
    store.position[3 * at + axis] = (ofA * p[a + axis]! + ofB * p[b + axis]! + ofC * p[c + axis]!) / sum;
    const from = 3 * corner + axis;
    const turn = ofA * normals[from]! + ofB * normals[from + 3]! + ofC * normals[from + 6]!;
    store.normal[3 * at + axis] = turn;
    square += turn * turn;
  }
  const length = Math.sqrt(square) || 1;
  for (let axis = 0; axis < 3; axis++) store.normal[3 * at + axis]! /= length;
  return at;
}

/** Fragments of one pixel: its samples sorted into surfaces. */
function addPixel(all: Seen, store: Store, pixel: number): void {
  const { width } = all.scene.size;
  const { face, width: stride } = all.samples;
  const [column, row] = [(pixel % width) * OVERSAMPLING, Math.floor(pixel / width) * OVERSAMPLING];
  let left = (1 << PER_PIXEL) - 1;
  for (let first = 0; first < PER_PIXEL; first++) {
    const one = (row + (first >> 1)) * stride + column + (first & 1);
    if (!(left & (1 << first)) || face[one]! < 0) continue;
    let [x, y, own, covered] = [0, 0, 0, 0];
    for (let k = first; k < PER_PIXEL; k++) {
      const other = (row + (k >> 1)) * stride + column + (k & 1);
      if (!(left & (1 << k)) || face[other]! < 0 || !alike(all, one, other)) continue;
      left &= ~(1 << k);
      covered++;
      if (face[other] !== face[one]) continue;
      own++;
      x += column + (k & 1) + 0.5;
      y += row + (k >> 1) + 0.5;
    }
    const at = addSurface(all, store, face[one]!, x / own, y / own);
    store.pixel[at] = pixel;
    store.share[at] = covered / PER_PIXEL;
  }
}

/** All surface that the camera of a scene sees. */
export function fragments(scene: Scene): Fragments {
  const all = seen(scene);
  const store = new Store();
  const { face, width } = all.samples;
  for (let pixel = 0; pixel < scene.size.width * scene.size.height; pixel++) {
    const column = (pixel % scene.size.width) * OVERSAMPLING;
    const top = Math.floor(pixel / scene.size.width) * OVERSAMPLING * width + column;
    const empty = (face[top]! & face[top + 1]! & face[top + width]! & face[top + width + 1]!) === -1;
    if (!empty) addPixel(all, store, pixel);
  }
  return store;
}
