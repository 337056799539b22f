// A thin part in water from what its maker wrote of it: a parabola through root, middle and tip, every integral by
// slices, vibration by Ritz's method, flutter by Galerkin's method instead of waves.

/** Root, middle (or none) and tip [m]. */
export interface Lines {
  readonly root: number;
  readonly middle?: number;
  readonly tip: number;
}

/** A part as written [m]. */
export interface Part {
  readonly length: number;
  readonly width: Lines;
  readonly thickness: Lines;
  /** Share of it that lies inside the body, at its root. */
  readonly buried?: number;
}

const SLICES = 400;

function sizeAt({ root, tip, middle = (root + tip) / 2 }: Lines, share: number): number {
  return (
    root * (1 - share) * (1 - 2 * share) + middle * 4 * share * (1 - share) + tip * share * (2 * share - 1)
  );
}

type Size = 'width' | 'thickness';
const along = (part: Part, size: Size, share: number): number => {
  const { buried = 0 } = part;
  return sizeAt(part[size], buried + (1 - buried) * share);
};

const middles = Array.from({ length: SLICES }, (_, i) => (i + 0.5) / SLICES);

/** Tip deflection over length under an even pressure as large as Young's modulus. */
export function limpness(part: Part): number {
  const { length } = part;
  const step = length / SLICES;
  return (
    middles.reduce((sum, here) => {
      const moment = middles
        .filter((there) => there > here)
        .reduce((all, there) => all + along(part, 'width', there) * (there - here) * length * step, 0);
      const inertia = (along(part, 'width', here) * along(part, 'thickness', here) ** 3) / 12;
      return sum + (moment / inertia) * (1 - here) * length * step;
    }, 0) / length
  );
}

/** Root of the mean square of the width [m]. */
export const swept = (part: Part): number =>
  Math.sqrt(middles.reduce((sum, s) => sum + along(part, 'width', s) ** 2, 0) / SLICES);

type Matrix = number[][];

function solved(matrix: Matrix, right: Matrix): Matrix {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...(right[i] ?? [])]);
  for (let k = 0; k < n; k++) {
    const best = rows
      .slice(k)
      .reduce((at, row, i) => (Math.abs(row[k] ?? 0) > Math.abs(rows[at]?.[k] ?? 0) ? k + i : at), k);
    [rows[k], rows[best]] = [rows[best] ?? [], rows[k] ?? []];
    const pivot = rows[k] ?? [];
    for (let i = 0; i < n; i++) {
      const row = rows[i] ?? [];
      if (i === k) continue;
      const factor = (row[k] ?? 0) / (pivot[k] ?? NaN);
      for (let j = k; j < row.length; j++) row[j] = (row[j] ?? 0) - factor * (pivot[j] ?? 0);
    }
  }
  return rows.map((row, i) => row.slice(n).map((value) => value / (row[i] ?? NaN)));
}

const product = (a: Matrix, b: Matrix): Matrix =>
  a.map((row) =>
    (b[0] ?? []).map((_, j) => row.reduce((sum, value, k) => sum + value * (b[k]?.[j] ?? 0), 0)),
  );

type Along = (s: number) => number;

/** First frequency in water [Hz], by Ritz's method with the powers 2 to 6 of the way along. */
export function beat(part: Part, modulus: number, density: number, water: number): number {
  const { length } = part;
  const [width, thickness] = (['width', 'thickness'] as const).map(
    (size) => (s: number) => along(part, size, s),
  ) as [Along, Along];
  const powers = [2, 3, 4, 5, 6];
  const sum = (f: (s: number) => number): number => middles.reduce((all, s) => all + f(s), 0) / SLICES;
  const rigidity = (s: number): number => (modulus * width(s) * thickness(s) ** 3) / 12;
  const mass = (s: number): number =>
    density * width(s) * thickness(s) + (water * Math.PI * width(s) ** 2) / 4;
  const stiffness = powers.map((p) =>
    powers.map((q) => sum((s) => rigidity(s) * p * (p - 1) * q * (q - 1) * s ** (p + q - 4))),
  );
  const inertia = powers.map((p) => powers.map((q) => sum((s) => mass(s) * s ** (p + q))));
  let shape: Matrix = powers.map((p) => [p === 2 ? 1 : 0]);
  let square = 0;
  for (let round = 0; round < 60; round++) {
    const next = solved(stiffness, product(inertia, shape));
    const size = Math.max(...next.map(([x = 0]) => Math.abs(x)));
    square = 1 / size;
    const old = Math.max(...shape.map(([x = 0]) => Math.abs(x)));
    square *= old;
    shape = next.map(([x = 0]) => [x / size]);
  }
  return Math.sqrt(square) / (2 * Math.PI * length ** 2);
}

const MODES = 14;

/** Shape of a cantilever's mode and its slope and curvature, in a form that does not overflow. */
function mode(k: number, x: number): [number, number, number] {
  const e = Math.exp(-k);
  // (cosh k + cos k)/(sinh k + sin k), and cosh − σ·sinh with the growing part joined.
  const sigma = (1 + e * e + 2 * e * Math.cos(k)) / (1 - e * e + 2 * e * Math.sin(k));
  const grow = ((1 - sigma) / 2) * Math.exp(k * x);
  const fall = ((1 + sigma) / 2) * Math.exp(-k * x);
  const [c, s] = [Math.cos(k * x), Math.sin(k * x)];
  return [
    grow + fall - c + sigma * s,
    k * (grow - fall + s + sigma * c),
    k * k * (grow + fall + c - sigma * s),
  ];
}

/** Whether a strip flutters at a dimensionless speed, by whether a step of the discrete motion grows for ever. */
function grows(beta: number, u: number, [c, d, k4]: readonly [Matrix, Matrix, number[]]): boolean {
  const n = MODES;
  const h = 0.002;
  const a: Matrix = Array.from({ length: 2 * n }, (_, i) =>
    Array.from({ length: 2 * n }, (__, j) => {
      if (i < n) return j === i + n ? 1 : 0;
      if (j >= n) return -2 * Math.sqrt(beta) * u * (c[i - n]?.[j - n] ?? 0);
      return -(i - n === j ? (k4[j] ?? 0) : 0) - u * u * (d[i - n]?.[j] ?? 0);
    }),
  );
  const plus = (sign: number): Matrix =>
    a.map((row, i) => row.map((x, j) => (i === j ? 1 : 0) + sign * h * 0.5 * x));
  let power = solved(plus(-1), plus(1));
  let logs = 0;
  for (let i = 0; i < 24; i++) {
    power = product(power, power);
    const size = Math.max(...power.flat().map(Math.abs));
    logs = 2 * logs + Math.log(size);
    power = power.map((row) => row.map((x) => x / size));
  }
  return logs / 2 ** 24 > 1e-7;
}

/** Least dimensionless speed at which a strip in an axial stream flutters; mass ratio β of Gregory & Païdoussis (1966). */
export function flutterAt(beta: number): number {
  const points = Array.from({ length: 2000 }, (_, i) => (i + 0.5) / 2000);
  const ks = Array.from({ length: MODES }, (_, i) => {
    // cos k·cosh k = −1, over cosh k.
    let [low, high] = [i * Math.PI + 0.5, (i + 1) * Math.PI];
    const f = (k: number): number => Math.cos(k) + 2 / (Math.exp(k) + Math.exp(-k));
    const rising = f(high) > 0;
    for (let step = 0; step < 100; step++) {
      const middle = (low + high) / 2;
      if (f(middle) > 0 === rising) high = middle;
      else low = middle;
    }
    return (low + high) / 2;
  });
  const shapes = ks.map((k) => points.map((x) => mode(k, x)));
  const against = (i: number, j: number, which: 1 | 2): number =>
    points.reduce((sum, _, p) => sum + (shapes[i]?.[p]?.[0] ?? 0) * (shapes[j]?.[p]?.[which] ?? 0), 0) /
    points.length;
  const table = (which: 1 | 2): Matrix => ks.map((_, i) => ks.map((__, j) => against(i, j, which)));
  const parts = [table(1), table(2), ks.map((k) => k ** 4)] as const;
  let high = 3;
  while (!grows(beta, high, parts)) high += 0.5;
  let low = high - 0.5;
  while (high - low > 0.01) {
    const middle = (low + high) / 2;
    if (grows(beta, middle, parts)) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
