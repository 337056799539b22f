import { describe, expect, test } from 'vitest';
import { massProperties } from '../../../src/core/mesh/mass-properties.ts';
import type { Mesh } from '../../../src/core/mesh/mesh.ts';
import {
  capsule,
  ellipsoid,
  ellipticRing,
  frustum,
  spindle,
  superellipsoid,
  torus,
  uvSphere,
} from '../../support/solids.ts';

// Closed forms: D. Zwillinger, CRC Standard Mathematical Tables and Formulae (from memory). Surfaces of general ellipsoids:
// incomplete elliptic integrals, NIST DLMF 19.33, evaluated outside this project to ten digits.
// A mesh whose points lie on the surface has an error of second order in its step.

interface Row {
  readonly name: string;
  /** A mesh with `n` steps to a turn. */
  readonly mesh: (n: number) => Mesh;
  readonly volume: number;
  readonly surface?: number;
}

const { PI } = Math;

const SOLIDS: readonly Row[] = [
  {
    name: 'sphere 5',
    mesh: (n) => uvSphere(5, n / 2, n),
    volume: 523.5987755982989,
    surface: 314.1592653589793,
  },
  {
    name: 'torus 10, 3',
    mesh: (n) => torus(10, 3, n, n),
    volume: 1776.5287921960846,
    surface: 1184.352528130723,
  },
  {
    name: 'capsule 3, 20',
    mesh: (n) => capsule(3, 20, n / 2, n),
    volume: 678.5840131753953,
    surface: 490.0884539600077,
  },
  {
    name: 'frustum 5 to 3, 12 long, with its caps',
    mesh: (n) => frustum(5, 3, 12, n),
    volume: 615.7521601035994,
    surface: PI * 8 * Math.hypot(12, 2) + PI * (25 + 9),
  },
  {
    name: 'ellipsoid 4, 3, 2',
    mesh: (n) => ellipsoid([4, 3, 2], n / 2, n),
    volume: 100.53096491487338,
    surface: 111.54576989401032,
  },
  {
    name: 'slender ellipsoid 30, 5, 4',
    mesh: (n) => ellipsoid([30, 5, 4], n / 2, n),
    volume: 2513.274122871834,
    surface: 1349.53524902751,
  },
  {
    name: 'flat ellipsoid 10, 8, 1',
    mesh: (n) => ellipsoid([10, 8, 1], n / 2, n),
    volume: 335.1032163829112,
    surface: 521.2114819188539,
  },
  {
    name: 'prolate ellipsoid 10, 2, 2',
    mesh: (n) => ellipsoid([10, 2, 2], n / 2, n),
    volume: 167.5516081914556,
    surface: 200.77004073254736,
  },
  {
    name: 'oblate ellipsoid 5, 5, 1',
    mesh: (n) => ellipsoid([5, 5, 1], n / 2, n),
    volume: 104.71975511965977,
    surface: 171.78042192175653,
  },
  {
    name: 'superellipsoid 6, 4, 3, exponent 4',
    mesh: (n) => superellipsoid([6, 4, 3], 4, n / 2, n),
    volume: 466.70308861,
  },
  {
    name: 'sine spindle 5, 100 long',
    mesh: (n) => spindle(100, (share) => 5 * Math.sin(PI * share), n, n),
    volume: 3926.990816987241,
    surface: 2008.194495,
  },
  {
    name: 'parabolic spindle 5, 100 long',
    mesh: (n) => spindle(100, (share) => 20 * share * (1 - share), n, n),
    volume: 4188.790204786391,
  },
  {
    name: 'ring with an elliptic section 2×1 at 15',
    mesh: (n) => ellipticRing(15, [2, 1], n, n),
    volume: 2 * PI * 15 * PI * 2,
    // Girth of the ellipse 4·2·E(√3/2) = 9.68844822, complete elliptic integral of the second kind.
    surface: 2 * PI * 15 * 9.68844822,
  },
];

// Halving the step divides the error by four once the step is small; 128 and 256 steps a turn leave the order within 3 %.
const orderOf = (errors: readonly number[]) => Math.log2(errors[0]! / errors[1]!);

describe.each(SOLIDS)('$name', ({ mesh, volume }) => {
  const measured = [128, 256].map((n) => massProperties(mesh(n)));

  test('volume converges to the closed form at second order', () => {
    const errors = measured.map((one) => Math.abs(one.volume / volume - 1));
    expect(errors[1]).toBeLessThan(1e-3);
    expect(Math.abs(orderOf(errors) - 2)).toBeLessThan(0.06);
  });

  test('its even steps extrapolate to the closed volume', () => {
    const extrapolated = (4 * measured[1]!.volume - measured[0]!.volume) / 3;
    expect(Math.abs(extrapolated / volume - 1)).toBeLessThan(2e-6);
  });
});

test.each(SOLIDS.filter(({ surface }) => surface !== undefined))(
  'surface of $name converges to the closed form at second order',
  ({ mesh, surface }) => {
    const errors = [128, 256].map((n) => Math.abs(massProperties(mesh(n)).surface / surface! - 1));
    expect(errors[1]).toBeLessThan(1e-3);
    expect(Math.abs(orderOf(errors) - 2)).toBeLessThan(0.06);
  },
);

test('second moments of an ellipsoid converge to V·(a², b², c²)/5', () => {
  const { volume, moments } = massProperties(ellipsoid([4, 3, 2], 128, 256));
  const ratios = [moments.xx / (volume * 16), moments.yy / (volume * 9), moments.zz / (volume * 4)].map(
    (share) => 5 * share,
  );
  for (const ratio of ratios) expect(Math.abs(ratio - 1)).toBeLessThan(5e-4);
});
