// Volumes and surfaces by sums of another kind than those of the site: prisms under each triangle instead of
// tetrahedra, discs instead of a loft, counted squares instead of a union of outlines.
import { readFileSync } from 'node:fs';
import { strFromU8, unzipSync } from 'fflate';

/** Corners of every triangle, nine numbers each. */
export type Soup = readonly number[][];

/** Triangles of a binary STL file [unit of the file]. */
export function stlSoup(path: string): Soup {
  const bytes = readFileSync(path);
  const soup: number[][] = [];
  for (let at = 84; at + 50 <= bytes.length; at += 50) {
    const corners: number[] = [];
    for (let i = 3; i < 12; i++) corners.push(bytes.readFloatLE(at + 4 * i));
    soup.push(corners);
  }
  return soup;
}

/** Triangles of a 3MF file with one object [unit of the file]. */
export function threeMfSoup(path: string): Soup {
  const files = unzipSync(new Uint8Array(readFileSync(path)));
  const [model] = Object.keys(files).filter((name) => name.endsWith('.model'));
  const text = strFromU8(files[model ?? ''] ?? new Uint8Array());
  const number = (tag: string, name: string): number =>
    Number(new RegExp(`\\b${name}="([^"]*)"`, 'u').exec(tag)?.[1]);
  const points = [...text.matchAll(/<vertex [^>]*>/gu)].map(([tag]) =>
    ['x', 'y', 'z'].map((name) => number(tag, name)),
  );
  return [...text.matchAll(/<triangle [^>]*>/gu)].map(([tag]) =>
    ['v1', 'v2', 'v3'].flatMap((name) => points[number(tag, name)] ?? []),
  );
}

/** What the sums over all triangles give; lengths in the unit of the soup. */
export function measure(soup: Soup) {
  let volume = 0;
  let surface = 0;
  let momentX = 0;
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const [ax = 0, ay = 0, az = 0, bx = 0, by = 0, bz = 0, cx = 0, cy = 0, cz = 0] of soup) {
    const ux = bx - ax;
    const uy = by - ay;
    const uz = bz - az;
    const vx = cx - ax;
    const vy = cy - ay;
    const vz = cz - az;
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    surface += Math.sqrt(nx * nx + ny * ny + nz * nz) / 2;
    // The prism between the triangle and the plane z = 0: its shadow times its mean height.
    volume += (nz / 2) * ((az + bz + cz) / 3);
    // Gauss: the volume integral of x is half the surface integral of x² over the faces' shadows along x.
    momentX += (nx / 2) * ((ax * ax + bx * bx + cx * cx + ax * bx + bx * cx + cx * ax) / 12);
    for (const [i, values] of [
      [ax, bx, cx],
      [ay, by, cy],
      [az, bz, cz],
    ].entries()) {
      low[i] = Math.min(low[i] ?? 0, ...values);
      high[i] = Math.max(high[i] ?? 0, ...values);
    }
  }
  return { volume, surface, centreX: momentX / volume - (low[0] ?? 0), low, high };
}

/** Area of the shadow on z = 0, by counting squares of a fine grid whose middle lies under a triangle. */
export function shadow(soup: Soup, low: readonly number[], high: readonly number[], cells: number): number {
  const step = ((high[0] ?? 0) - (low[0] ?? 0)) / cells;
  const rows = Math.ceil(((high[1] ?? 0) - (low[1] ?? 0)) / step);
  const covered = new Uint8Array(cells * rows);
  for (const [ax = 0, ay = 0, , bx = 0, by = 0, , cx = 0, cy = 0] of soup) {
    const turn = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    if (turn === 0) continue;
    const from = Math.max(0, Math.floor((Math.min(ax, bx, cx) - (low[0] ?? 0)) / step - 1));
    const to = Math.min(cells - 1, Math.ceil((Math.max(ax, bx, cx) - (low[0] ?? 0)) / step));
    const under = Math.max(0, Math.floor((Math.min(ay, by, cy) - (low[1] ?? 0)) / step - 1));
    const over = Math.min(rows - 1, Math.ceil((Math.max(ay, by, cy) - (low[1] ?? 0)) / step));
    for (let row = under; row <= over; row++) {
      for (let column = from; column <= to; column++) {
        const x = (low[0] ?? 0) + (column + 0.5) * step;
        const y = (low[1] ?? 0) + (row + 0.5) * step;
        const p = ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / turn;
        const q = ((cx - bx) * (y - by) - (cy - by) * (x - bx)) / turn;
        const r = ((ax - cx) * (y - cy) - (ay - cy) * (x - cx)) / turn;
        if (p >= 0 && q >= 0 && r >= 0) covered[row * cells + column] = 1;
      }
    }
  }
  return covered.reduce((sum, one) => sum + one, 0) * step * step;
}

/**
 * Volume of a round body from its table of stations [mm³]: straight lines between them, ends rounded by a quarter
 * ellipse, rings added as discs; a million thin slices.
 */
export function roundBody(
  stations: readonly (readonly [at: number, diameter: number])[],
  nose: number,
  tail: number,
  rings: readonly (readonly [at: number, proud: number, root: number, crown: number])[],
): number {
  const end = stations.at(-1)?.[0] ?? 0;
  const slices = 200_000;
  let volume = 0;
  for (let i = 0; i < slices; i++) {
    const x = ((i + 0.5) / slices) * end;
    const next = Math.max(
      1,
      stations.findIndex(([at]) => at >= x),
    );
    const [x0, d0] = stations[next - 1] ?? [0, 0];
    const [x1, d1] = stations[next] ?? [1, 0];
    let radius = (d0 + ((d1 - d0) * (x - x0)) / (x1 - x0)) / 2;
    for (const [at, proud, root, crown] of rings) {
      const off = Math.abs(x - at);
      if (off < crown / 2) radius += proud;
      else if (off < root / 2)
        radius += (proud * (1 + Math.cos((Math.PI * (off - crown / 2)) / ((root - crown) / 2)))) / 2;
    }
    if (x < nose) radius *= Math.sqrt(1 - ((nose - x) / nose) ** 2);
    if (end - x < tail) radius *= Math.sqrt(1 - ((tail - end + x) / tail) ** 2);
    volume += Math.PI * radius * radius * (end / slices);
  }
  return volume;
}
