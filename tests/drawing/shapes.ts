import type { Vec2 } from '../../src/core/mesh/mesh.ts';
import type { BaitGeometry, FeatureMeasure, Outline } from '../../src/core/section/geometry.ts';
import type { Cut } from '../../src/drawing/bait-facts.ts';

/** A curl-tail grub made of closed forms [m]: an ellipse of revolution, then a strip that curls and thins. */
export const BODY = { length: 0.07, radius: 0.008 };
export const TAIL = { length: 0.075, root: 0.0032, tip: 0.0009, width: 0.011, turn: 4.1 };

const STEPS = 60;

function bodyRadius(x: number): number {
  const t = (2 * x) / BODY.length - 1;
  return BODY.radius * Math.sqrt(Math.max(0, 1 - t * t));
}

/** Middle line of the tail: straight back at first, then turning. */
export function tailLine(): { at: Vec2; heading: number; s: number }[] {
  let at: Vec2 = [BODY.length * 0.93, 0];
  const line = [];
  for (let step = 0; step <= STEPS; step++) {
    const share = step / STEPS;
    const heading = TAIL.turn * share * share;
    line.push({ at, heading, s: share * TAIL.length });
    const ds = TAIL.length / STEPS;
    at = [at[0] + ds * Math.cos(heading), at[1] + ds * Math.sin(heading)];
  }
  return line;
}

const tailThickness = (s: number) => TAIL.root + ((TAIL.tip - TAIL.root) * s) / TAIL.length;
const tailWidth = (s: number) => TAIL.width * Math.sin(Math.PI * (0.25 + (0.68 * s) / TAIL.length));

function plan(): Outline {
  const xs = Array.from(
    { length: STEPS + 1 },
    (_, step) => (BODY.length * 0.93 * (1 - Math.cos((Math.PI * step) / STEPS))) / 2,
  );
  const side = (sign: number): Vec2[] => [
    ...xs.map((x): Vec2 => [x, sign * bodyRadius(x)]),
    ...tailLine().map(({ at, heading, s }): Vec2 => [
      at[0] - (sign * Math.sin(heading) * tailWidth(s)) / 2,
      at[1] + (sign * Math.cos(heading) * tailWidth(s)) / 2,
    ]),
  ];
  return [[...side(-1), ...side(1).slice(1).reverse()]];
}

function across(): Outline {
  const end = Math.max(
    ...plan()
      .flat()
      .map(([x]) => x),
  );
  const height = (x: number) =>
    Math.max(bodyRadius(Math.min(x, BODY.length)), x > 0.06 ? tailThickness(x - 0.06) / 2 : 0);
  const xs = Array.from({ length: 121 }, (_, step) => (end * (1 - Math.cos((Math.PI * step) / 120))) / 2);
  const upper = xs.map((x): Vec2 => [x, height(x)]);
  return [[...xs.map((x): Vec2 => [x, -height(x)]), ...upper.slice(1).reverse()]];
}

function ellipse(a: number, b: number, y = 0): Vec2[] {
  return Array.from({ length: 72 }, (_, step): Vec2 => {
    const angle = (2 * Math.PI * step) / 72;
    return [y + a * Math.cos(angle), b * Math.sin(angle)];
  });
}

function tail(): FeatureMeasure {
  const line = tailLine();
  return {
    name: 'tail',
    kind: 'curl-tail',
    length: TAIL.length,
    stations: line.map(({ at, s }) => ({
      s,
      thickness: tailThickness(s),
      width: tailWidth(s),
      at: [at[0], at[1], 0],
    })),
    rootThickness: TAIL.root,
    tipThickness: TAIL.tip,
    thinnest: { thickness: TAIL.tip, at: [line.at(-1)!.at[0], line.at(-1)!.at[1], 0] },
  };
}

/** The grub as it is measured; its mesh is not needed by drawings. */
export function grub(): Pick<BaitGeometry, 'plan' | 'across' | 'box' | 'features' | 'thickest'> {
  const [flat, upright] = [plan(), across()];
  const ys = flat.flat().map(([, y]) => y);
  const xs = flat.flat().map(([x]) => x);
  return {
    plan: flat,
    across: upright,
    box: { min: [0, Math.min(...ys), -BODY.radius], max: [Math.max(...xs), Math.max(...ys), BODY.radius] },
    features: [tail()],
    thickest: { thickness: 2 * BODY.radius, at: [BODY.length / 2, 0, 0] },
  };
}

/** Cross-sections of the grub: through the middle of the body, and through the tail where it leaves the body. */
export function grubCuts(): Cut[] {
  const behind = 0.08;
  const s = behind - 0.06;
  return [
    { x: BODY.length / 2, outline: [ellipse(BODY.radius, BODY.radius)] },
    { x: behind, outline: [ellipse(tailWidth(s) / 2, tailThickness(s) / 2)] },
  ];
}

/** The grub and its title block, ready to draw. */
export const GRUB_TITLE = {
  owner: 'Thistledown Tooling',
  number: 'TT-GRUB-4',
  revision: 'c',
  date: '2026-03-14',
  title: 'Curl-tail grub, 4 in',
  documentType: 'Bait drawing',
} as const;
