import { monotoneCurve } from './pchip.ts';

/** One section of a body: a superellipse of one width and two heights [m]. */
export interface BodyStation {
  /** Distance from the nose. */
  readonly at: number;
  readonly width: number;
  readonly above: number;
  readonly below: number;
  /** Exponent of the outline [1]: 2 is an ellipse. */
  readonly roundness: number;
}

/** A ring that stands out all round the body [m]. */
export interface BodyRing {
  readonly at: number;
  /** How far it stands out. */
  readonly proud: number;
  /** Its thickness along the bait at the body and at its crown. */
  readonly root: number;
  readonly crown: number;
}

/** What a body is described by [m]. */
export interface BodyTable {
  readonly stations: readonly BodyStation[];
  /** Length over which each end is rounded off; left out, half the smaller size of the end section. */
  readonly noseRounding?: number | undefined;
  readonly tailRounding?: number | undefined;
  readonly rings?: readonly BodyRing[];
}

/** One section as it is lofted [m]. */
export interface Section {
  readonly halfWidth: number;
  readonly above: number;
  readonly below: number;
  readonly roundness: number;
}

/** A body as a function of the distance from the nose. */
export interface Body {
  readonly from: number;
  readonly to: number;
  readonly noseRounding: number;
  readonly tailRounding: number;
  /** Places where its curves change their law, in order. */
  readonly breaks: readonly number[];
  readonly sectionAt: (x: number) => Section;
}

const mm = (metres: number): string => `${Number((metres * 1e3).toFixed(3))} mm`;

/**
 * The smooth body that a table of sections describes: monotone curves through the stations, rings added, both
 * ends rounded off by a quarter ellipse inside the stated length.
 *
 * @param table - stations in order, roundings and rings [m]
 * @returns the body [m]
 * @throws {RangeError} when stations are out of order, the first is not at 0, a section is impossible or the
 * roundings do not fit into the length
 *
 * Valid: roundness 1 and more.
 * Cost: linear in the stations.
 * Source: G. Lamé's superellipse; interpolation as in `monotoneCurve`; rounding is own derivation.
 */
export function bodyOf(table: BodyTable): Body {
  const { stations } = table;
  checkStations(stations);
  const xs = stations.map(({ at }) => at);
  const curve = (pick: (station: BodyStation) => number) => monotoneCurve(xs, stations.map(pick));
  const halfWidth = curve(({ width }) => width / 2);
  const above = curve((station) => station.above);
  const below = curve((station) => station.below);
  const roundness = curve((station) => station.roundness);
  const [from, to] = [xs[0]!, xs.at(-1)!];
  const noseRounding = table.noseRounding ?? smallerHalf(stations[0]!);
  const tailRounding = table.tailRounding ?? smallerHalf(stations.at(-1)!);
  if (noseRounding < 0 || tailRounding < 0 || noseRounding + tailRounding > (to - from) * (1 + 1e-9)) {
    throw new RangeError(
      `roundings: wants both ends' together within the body's ${mm(to - from)}, got ${mm(noseRounding)} and ${mm(tailRounding)}`,
    );
  }
  const rings = table.rings ?? [];
  checkRings(rings, from, to);
  return {
    from,
    to,
    noseRounding,
    tailRounding,
    breaks: breaksOf(xs, rings, noseRounding, tailRounding),
    sectionAt: (x) => {
      const scale = quarter((x - from) / noseRounding) * quarter((to - x) / tailRounding);
      const extra = rings.reduce((sum, ring) => sum + standOut(ring, x), 0);
      const grown = (size: number) => (size > 0 ? (size + extra) * scale : 0);
      return {
        halfWidth: grown(halfWidth(x)),
        above: grown(above(x)),
        below: grown(below(x)),
        roundness: roundness(x),
      };
    },
  };
}

const smallerHalf = ({ width, above, below }: BodyStation): number => Math.min(width, above + below) / 2;

/** Height of a quarter ellipse that rises from 0 at t = 0 to 1 at t = 1; without rounding t is not finite or NaN. */
function quarter(t: number): number {
  return t < 1 ? Math.sqrt(Math.max(0, t * (2 - t))) : 1;
}

/** How far a ring stands out at x: flat crown, flanks half a cosine. */
function standOut(ring: BodyRing, x: number): number {
  const off = Math.abs(x - ring.at);
  const [foot, crown] = [ring.root / 2, ring.crown / 2];
  const angle = Math.min(Math.PI, Math.max(0, (Math.PI * (off - crown)) / (foot - crown)));
  return (ring.proud * (1 + Math.cos(angle))) / 2;
}

function breaksOf(xs: readonly number[], rings: readonly BodyRing[], nose: number, tail: number): number[] {
  const [from, to] = [xs[0]!, xs.at(-1)!];
  const [start, end] = [from + nose, to - tail];
  const edges = rings.flatMap(({ at, root, crown }) =>
    [root / 2, crown / 2].flatMap((half) => [at - half, at + half]),
  );
  const inner = [...xs, ...edges].filter((x) => x > start && x < end);
  const sorted = [from, start, ...inner, end, to].sort((a, b) => a - b);
  const apart = (to - from) * 1e-6;
  return sorted.filter((x, i) => i === 0 || x - sorted[i - 1]! > apart || x === to);
}

function checkStations(stations: readonly BodyStation[]): void {
  if (stations.length < 2) throw new RangeError(`stations: wants at least 2, got ${stations.length}`);
  if (stations[0]!.at !== 0)
    throw new RangeError(`stations: wants the first at 0 mm, the nose, got ${mm(stations[0]!.at)}`);
  stations.forEach((station, i) => {
    const { at, width, above, below, roundness } = station;
    if (![at, width, above, below, roundness].every(Number.isFinite)) {
      throw new RangeError(`stations: wants finite numbers, got others in station ${i + 1}`);
    }
    const before = stations[i - 1];
    if (before && !(at > before.at)) {
      throw new RangeError(
        `stations: wants each further from the nose than the one before, got ${mm(at)} after ${mm(before.at)} in station ${i + 1}`,
      );
    }
    const pointed = width === 0 && above + below === 0 && (i === 0 || i === stations.length - 1);
    if (!pointed && !(width > 0 && above >= 0 && below >= 0 && above + below > 0 && roundness >= 1)) {
      throw new RangeError(
        `stations: wants a width and a height above 0 and a roundness of 1 or more, got ${mm(width)} × ${mm(above + below)}, ${roundness} in station ${i + 1}`,
      );
    }
  });
}

function checkRings(rings: readonly BodyRing[], from: number, to: number): void {
  for (const { at, proud, root, crown } of rings) {
    if (!(proud > 0 && crown > 0 && root > crown)) {
      throw new RangeError(
        `ribs: wants a tip narrower than the root, so that they leave the mold, got ${mm(crown)} on ${mm(root)}`,
      );
    }
    if (at - root / 2 < from || at + root / 2 > to) {
      throw new RangeError(
        `ribs: wants all of them on the body, ${mm(from)} to ${mm(to)}, got one at ${mm(at)}`,
      );
    }
  }
}
