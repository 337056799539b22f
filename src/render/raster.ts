/** Nearness and face of every sample of a picture, row by row from the top. */
export interface Samples {
  readonly width: number;
  readonly height: number;
  /** Larger is nearer; 0 or less where nothing is. */
  readonly near: Float32Array;
  /** Index of the nearest face, −1 where nothing is. */
  readonly face: Int32Array;
}

/** An empty picture. */
export function samples(width: number, height: number): Samples {
  const count = width * height;
  return { width, height, near: new Float32Array(count), face: new Int32Array(count).fill(-1) };
}

/** Which faces are drawn: those whose corners run clockwise or counter-clockwise with y upwards. */
export type Turn = 'clockwise' | 'counter-clockwise';

/** First sample whose middle is at or beyond a place, kept inside 0 … count. */
function firstAt(place: number, count: number): number {
  const first = Math.ceil(place - 0.5);
  return first < 0 ? 0 : first > count ? count : first;
}

/**
 * Draws triangles into samples, the nearest face wins. The kernel of every picture: one pass over rows between the
 * left and the right edge, nearness linear along them. A sample belongs to a triangle when its middle lies inside,
 * left and top edges included, so that triangles with a common edge share no sample and leave none out.
 *
 * @param into - changed in place
 * @param points - shape (V, 3): x, y [samples], nearness
 * @param triangles - shape (T, 3), rows of `points`
 * @param firstFace - index of the first triangle in the whole scene
 *
 * @param turn - which way round a face is seen that turns towards the eye; the others are left out
 *
 * Valid: triangles partly or wholly outside the picture; of closed solids, whose far faces are hidden in any case.
 * Cost: about 60 ns a triangle and 1 ns a sample.
 * Source: scan conversion with a depth buffer, E. Catmull (1974).
 */
export function drawTriangles(
  into: Samples,
  points: Float64Array,
  triangles: Uint32Array,
  firstFace: number,
  turn: Turn,
): void {
  const { width, height, near, face } = into;
  const sign = turn === 'clockwise' ? -1 : 1;
  for (let corner = 0; corner < triangles.length; corner += 3) {
    let a = 3 * triangles[corner]!;
    let b = 3 * triangles[corner + 1]!;
    let c = 3 * triangles[corner + 2]!;
    const x = points[a]!;
    const y = points[a + 1]!;
    const facing = (points[b]! - x) * (points[c + 1]! - y) - (points[c]! - x) * (points[b + 1]! - y);
    if (facing * sign <= 0) continue;
    // From top to bottom.
    if (points[b + 1]! < points[a + 1]!) [a, b] = [b, a];
    if (points[c + 1]! < points[a + 1]!) [a, c] = [c, a];
    if (points[c + 1]! < points[b + 1]!) [b, c] = [c, b];
    const ax = points[a]!;
    const ay = points[a + 1]!;
    const by = points[b + 1]!;
    const cy = points[c + 1]!;
    const last = firstAt(cy, height);
    let row = firstAt(ay, height);
    if (row >= last) continue;
    const bx = points[b]!;
    const cx = points[c]!;
    const area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
    const nb = points[b + 2]! - points[a + 2]!;
    const nc = points[c + 2]! - points[a + 2]!;
    const perX = (nb * (cy - ay) - nc * (by - ay)) / area;
    const perY = (nc * (bx - ax) - nb * (cx - ax)) / area;
    const long = (cx - ax) / (cy - ay);
    const upper = (bx - ax) / (by - ay);
    const lower = (cx - bx) / (cy - by);
    for (; row < last; row++) {
      const at = row + 0.5;
      const one = ax + (at - ay) * long;
      const other = at < by ? ax + (at - ay) * upper : bx + (at - by) * lower;
      const first = firstAt(one < other ? one : other, width);
      const end = row * width + firstAt(one < other ? other : one, width);
      let value = points[a + 2]! + (first + 0.5 - ax) * perX + (at - ay) * perY;
      for (let sample = row * width + first; sample < end; sample++) {
        if (value > near[sample]!) {
          near[sample] = value;
          face[sample] = firstFace + corner / 3;
        }
        value += perX;
      }
    }
  }
}
