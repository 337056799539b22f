// Figures worked out again from other figures of the sheet and from what its maker wrote, each with the two ends between
// which it must lie. What only a measurement of the solid can give is held between bounds that the solid cannot leave.
import * as by from './formulas.ts';
import { beat, flutterAt, limpness, swept, type Part } from './action.ts';
import { slotConstant } from './freeze.ts';
import { si } from './units.ts';

/** A figure of the sheet and the ends between which the second calculation puts it. */
export interface Held {
  readonly key: string;
  readonly low: number;
  readonly high: number;
}

/** What is known of a sheet. */
export interface Known {
  readonly keys: readonly string[];
  readonly read: (key: string) => number;
  /** Kind of every thin part that the maker names. */
  readonly kinds: ReadonlyMap<string, string>;
  /** What its maker wrote of a part, where a table gives it [m]. */
  readonly parts: ReadonlyMap<string, Part>;
  /** Water tests of this revision of the bait. */
  readonly trials: readonly {
    readonly plastisol: string;
    readonly retrieve: string;
    readonly features?: readonly { readonly name: string; readonly moved: string }[];
  }[];
  /** Id of the compound of the sheet. */
  readonly plastisol: string;
  /** What the maker tells to warm the block to. */
  readonly warmTo: string | undefined;
  readonly compound: {
    readonly diffusivity: { readonly nominal: string };
    readonly noFlow: { readonly nominal: string };
    readonly viscosity: { readonly nominal: string };
    readonly activation: { readonly nominal: string };
    readonly degradation: { readonly nominal: string };
    readonly flashPoint: { readonly nominal: string };
    readonly demold: { readonly nominal: string };
  };
  /** Hook of every rig of the sheet, as its maker lists it. */
  readonly hooks: ReadonlyMap<
    string,
    { readonly length: string; readonly bite: string; readonly gape: string }
  >;
  /** Mass of the recommended hook [kg]. */
  readonly hookMass: number | undefined;
}

const KELVIN = 273.15;
const ROOM = 22;
const WARM = 55;
const TRANSFER_LOSS = 5;
const TEN_FAHRENHEIT = 10 / 1.8;
const SPEEDS = { slow: 20, medium: 40, fast: 80 } as const;
const ACROSS = new Set(['curl-tail', 'paddle', 'claw']);

/** Everything on a sheet that follows from its other figures. */
export function held(known: Known): Held[] {
  const rows: Held[] = [];
  const has = (key: string): boolean => known.keys.includes(key);
  const between = (key: string, low: number, high: number): void => {
    if (has(key)) rows.push({ key, low, high });
  };
  const near = (key: string, value: number, share: number): void => {
    const room = Math.abs(value) * share + 1e-9;
    between(key, value - room, value + room);
  };
  action(known, near, between);
  filling(known, near, between);
  water(known, near, between);
  hooked(known, near, between);
  body(known, between);
  near('pour.degradation', si(known.compound.degradation.nominal) - KELVIN, 1e-6);
  near('pour.flashPoint', si(known.compound.flashPoint.nominal) - KELVIN, 1e-6);
  return rows;
}

type Near = (key: string, value: number, share: number) => void;
type Between = (key: string, low: number, high: number) => void;

/** Speeds of thin parts: from the Cauchy number, the step of the eddies and the flutter speed of the sheet. */
function action(known: Known, near: Near, between: Between): void {
  const { keys, read, kinds } = known;
  for (const [, part = ''] of keys.flatMap((key) => [/^action\.([^.]+)\.onset$/u.exec(key) ?? []])) {
    if (!part) continue;
    const of = (what: string): number => read(`action.${part}.${what}`);
    // Drag goes with the square of the speed, eddies with the speed.
    near(`action.${part}.cauchy.medium`, 4 * of('cauchy.slow'), 1e-6);
    near(`action.${part}.cauchy.fast`, 16 * of('cauchy.slow'), 1e-6);
    near(`action.${part}.step.medium`, 2 * of('step.slow'), 1e-6);
    near(`action.${part}.step.fast`, 4 * of('step.slow'), 1e-6);
    const folding = SPEEDS.slow * Math.sqrt(8 / of('cauchy.slow'));
    const inStep = SPEEDS.slow / of('step.slow');
    const flutter = of('flutter');
    tested(known, part, near);
    absolute(known, part, near, between);
    const kind = kinds.get(part) ?? '';
    if (ACROSS.has(kind)) {
      const curl = kind === 'curl-tail' ? 0.5 * flutter : 0;
      near(`action.${part}.onset`, Math.max(folding, 0.5 * inStep, curl), 1e-4);
    } else {
      // Strouhal's law on the body in front: what trails is shaken by the eddies of that.
      near(
        `action.${part}.step.slow`,
        (0.2 * 10 * SPEEDS.slow) / read('bait.thickestSection') / of('beat'),
        1e-4,
      );
      near(
        `action.${part}.onset`,
        2 * inStep < SPEEDS.slow ? flutter : Math.min(flutter, 0.5 * inStep),
        1e-4,
      );
    }
  }
}

/** What counts as moving at the speed of a test. */
const MOVES = new Set(['moved', 'stopped below a speed']);

/** An onset put right by the water tests of the same revision. */
function tested({ read, keys, trials, plastisol }: Known, part: string, near: Near): void {
  const ratios = (moving: boolean): number[] =>
    trials.flatMap(({ plastisol: compound, retrieve, features = [] }) => {
      const seen = features.find(({ name }) => name === part);
      const key = `action.${part}.onset${compound === plastisol ? '' : `.${compound}`}`;
      if (!seen || MOVES.has(seen.moved) !== moving || !keys.includes(key)) return [];
      return [(100 * si(retrieve)) / read(key)];
    });
  const [still, moved] = [ratios(false), ratios(true)];
  if (still.length + moved.length === 0) return;
  const [above, below] = [Math.max(0, ...still), Math.min(Infinity, ...moved)];
  const factor = above > below ? Math.sqrt(above * below) : Math.min(below, Math.max(above, 1));
  near(`action.${part}.tested`, read(`action.${part}.onset`) * factor, 1e-3);
}

/**
 * Speeds of a part from its own sizes where a table gives them; else only whether they fit together. The site measures the
 * solid, by the balls that fit into it from where the part leaves the body: within a twentieth of the written thickness, so
 * a sixth of a stiffness.
 */
function absolute({ read, parts, kinds }: Known, name: string, near: Near, between: Between): void {
  const written = parts.get(name);
  const of = (what: string): number => read(`action.${name}.${what}`);
  const length = read(`fill.reach.cold.${name}`) / read(`fill.reserve.cold.${name}`);
  if (!written) {
    // Wave speeds of any strip: 12 to 22 times the root of the mass ratio, half as much again for a taper.
    const pace = (10 * of('flutter')) / (of('beat') * length);
    between(`action.${name}.flutter`, (of('flutter') * 14) / pace, (of('flutter') * 60) / pace);
    between(`action.${name}.beat`, (of('beat') * pace) / 60, (of('beat') * pace) / 14);
    // Cauchy number and flutter speed share their stiffness: Ca·U_f²·b/(U²·L) = 1.24·u², 4.4 < u < 22.
    const one = (SPEEDS.slow / of('flutter')) ** 2 * length * 1.2414;
    between(`action.${name}.cauchy.slow`, (one * 4.4 ** 2) / read('bait.height'), (one * 22 ** 2) / 0.5);
    const size = (2 * SPEEDS.slow) / (of('step.slow') * of('beat'));
    between(
      `action.${name}.step.slow`,
      (of('step.slow') * size) / read('bait.height'),
      (of('step.slow') * size) / 0.5,
    );
    return;
  }
  const free = length / 1000;
  const part = { ...written, length: free, buried: Math.max(0, 1 - free / written.length) };
  const [modulus, density, water] = [
    read('compound.modulus') * 1000,
    read('bait.density') * 1000,
    by.water(20),
  ];
  const soft = limpness(part);
  near(`action.${name}.cauchy.slow`, (4 * water * (SPEEDS.slow / 100) ** 2 * 1.95 * soft) / modulus, 0.17);
  near(`action.${name}.beat`, beat(part, modulus, density, water), 0.09);
  const [wide, thick] = [swept(part), part.length * Math.cbrt(1.5 / soft)];
  const swung = (water * Math.PI * wide ** 2) / 4;
  const beta = Math.min(0.98, swung / (swung + density * wide * thick));
  const stiff = (modulus * wide * thick ** 3) / 12;
  near(`action.${name}.flutter`, (100 * flutterAt(beta) * Math.sqrt(stiff / swung)) / part.length, 0.09);
  if (ACROSS.has(kinds.get(name) ?? ''))
    near(`action.${name}.step.slow`, (0.2 * SPEEDS.slow) / 100 / wide / of('beat'), 0.05);
}

/** Reserves: by parts, and by how the reach of a slot goes with heat and push. */
function filling(
  { keys, read, compound, parts: written, warmTo }: Known,
  near: Near,
  between: Between,
): void {
  const noFlow = si(compound.noFlow.nominal) - KELVIN;
  const gate = read('pour.nominal') - TRANSFER_LOSS;
  const reachOf = (melt: number, mold: number): number =>
    slotConstant((noFlow - mold) / (melt - mold)) /
    Math.sqrt(by.viscosityAt(1, si(compound.activation.nominal), melt + KELVIN));
  const base = reachOf(gate, ROOM);
  const percent = (times: number): number => 100 * (times - 1);
  // Reach ∝ √P; a part of the push that the plunger gives is all that changes.
  near('fill.gain.push', percent(Math.sqrt(1.5)), 1e-6);
  // The law of one slot for a way through many gaps: a quarter of the gain either way.
  near('fill.gain.pour', percent(reachOf(gate + TEN_FAHRENHEIT, ROOM) / base), 0.25);
  near('fill.gain.mold', percent(reachOf(gate, ROOM + TEN_FAHRENHEIT) / base), 0.25);
  // No reach grows faster than with the square of its thinnest gap.
  between('fill.gain.gap', 0, percent((1 + 0.1 / read('bait.thinnestFeature')) ** 2));
  const pressure = read('shot.pressure');
  if (keys.includes('vent.backPressure'))
    between(
      'vent.gain',
      0,
      percent(Math.sqrt(pressure / Math.max(1e-9, pressure - 5 * read('vent.backPressure')))),
    );
  const parts = keys.flatMap((key) => /^fill\.reserve\.cold\.(.+)$/u.exec(key)?.[1] ?? []);
  for (const heat of ['cold', 'warm']) {
    const all = parts.map((part) => read(`fill.reserve.${heat}.${part}`));
    if (all.length > 0) between(`fill.reserve.${heat}`, Math.min(...all) - 1e-9, Math.max(...all) + 1e-9);
    if (all.length === 1) near(`fill.reserve.${heat}`, all[0] ?? NaN, 1e-9);
  }
  const warmer = reachOf(gate, WARM) / base;
  for (const part of parts) {
    const cold = read(`fill.reserve.cold.${part}`);
    near(`fill.reserve.warm.${part}`, cold * warmer, 0.1);
    const length = read(`fill.reach.cold.${part}`) / cold;
    near(`fill.reach.warm.${part}`, length * read(`fill.reserve.warm.${part}`), 1e-6);
    const table = written.get(part);
    if (table) {
      // Alone, from the full push, a slot as deep as the part is on the way would be filled so far; runner, gate and body
      // take their share of the push, and the part is no even slot.
      const { root, tip, middle = (root + tip) / 2 } = table.thickness;
      const gap = (root + 4 * middle + tip) / 6;
      const thick = by.viscosityAt(
        si(compound.viscosity.nominal),
        si(compound.activation.nominal),
        gate + KELVIN,
      );
      const drive = Math.sqrt((pressure * 1000) / (thick * si(compound.diffusivity.nominal)));
      const alone =
        (1000 * slotConstant((noFlow - ROOM) / (gate - ROOM)) * gap ** 2 * drive) / (1000 * table.length);
      between(`fill.reserve.cold.${part}`, 0.3 * alone, 1.1 * alone);
    }
    // The part is no longer than its way round a curl: a turn and a half at most.
    between(`fill.reach.cold.${part}`, 0, 2.5 * read('bait.length') * cold);
  }
  if (warmTo !== undefined) {
    near('fill.mold.first', si(warmTo) - KELVIN, 1e-6);
    near('fill.reserve.first', (read('fill.reserve.cold') * reachOf(gate, si(warmTo) - KELVIN)) / base, 0.1);
  }
  // A steady push takes one to four seconds; a short one stops sooner, a slow mold later.
  between('fill.time', 0.5, 8);
  const least = Math.min(...parts.map((part) => read(`fill.reserve.cold.${part}`)));
  const needed =
    least >= 1 ? ROOM : by.root((mold) => reachOf(gate, mold) / base - 1 / least, ROOM, noFlow - 2);
  between('fill.mold.needed', needed - 6, needed + 6);
  for (const [heat, mold] of [
    ['cold', ROOM],
    ['warm', WARM],
  ] as const) {
    const now = Math.min(...parts.map((part) => read(`fill.reserve.${heat}.${part}`)));
    const enough = (pour: number): number =>
      reachOf(pour - TRANSFER_LOSS, mold) / reachOf(gate, mold) - 1 / now;
    const low = read('pour.low');
    const pour = enough(low) >= 0 ? low : by.root(enough, low, low + 80);
    between(`fill.pour.${heat}`, pour - 4, pour + 4);
  }
}

/** Sinking in salt water and nose first. */
function water({ read, keys, hookMass }: Known, near: Near, between: Between): void {
  if (hookMass === undefined || !keys.includes('float.noseFirst')) return;
  const [fresh, sea] = [by.water(20), 1024.763];
  const [volume, density] = [read('bait.volume') * 1e-6, read('bait.density') * 1000];
  const weightIn = (rho: number): number =>
    9.80665 * ((density - rho) * volume + hookMass * (1 - rho / 7850));
  const [area, length] = [read('bait.projectedArea') * 1e-4, read('bait.length') / 1000];
  if (weightIn(sea) > 0)
    near(
      'float.sinkSpeedSalt',
      100 * by.sinkingSpeed(weightIn(sea), area, length, sea, 1.07 * 1.0016e-3),
      0.03,
    );
  // Nose first on its largest section: at least the ball in it, at most the box around it; drag 0.85 and more, 0.99 at
  // seven diameters, and rising by 0.04 for each further one.
  const drag = (section: number): number => {
    const slender = length / Math.sqrt((4 * section) / Math.PI);
    return Math.max(0.85, 0.99 + 0.04 * (slender - 7));
  };
  const ball = (Math.PI / 4) * (read('bait.thickestSection') / 1000) ** 2;
  const box = (read('bait.width') * read('bait.height')) / 1e6;
  const fastest = Math.sqrt((2 * weightIn(fresh)) / (fresh * 0.85 * ball));
  const slowest = Math.sqrt((2 * weightIn(fresh)) / (fresh * drag(ball) * 1.2 * box));
  between('float.noseFirst', 100 * slowest, 100 * fastest);
  // The same section and drag with a weight more: from 1 to 10 g of lead.
  const lead = (mass: number): number => 9.80665 * mass * (1 - fresh / 11340);
  const times = (mass: number): number => Math.sqrt(1 + lead(mass) / weightIn(fresh));
  between(
    'float.noseFirstWeighted',
    read('float.noseFirst') * times(1e-3),
    read('float.noseFirst') * times(0.01),
  );
  // A hook pulls the centre of mass no further than its share of the mass times the length of the bait.
  const share = hookMass / (hookMass + density * volume);
  between('float.arm', -share * length * 1000, share * length * 1000);
}

/** Stations of the hook on each rig. */
function hooked({ read, keys, hooks }: Known, near: Near, between: Between): void {
  const length = read('bait.length');
  for (const [rig, hook] of hooks) {
    const trim = keys.includes(`rig.${rig}.trim`) ? read(`rig.${rig}.trim`) : 0;
    const [long, bite] = [si(hook.length) * 1000, si(hook.bite) * 1000];
    const nose = rig === 'drop-shot';
    const threaded = /jig-head|jig-trailer|tail-on-a-jig/u.test(rig) && !rig.startsWith('shaky');
    near(`rig.${rig}.entry`, nose ? 0.03 * length : trim, 1e-6);
    near(
      `rig.${rig}.point`,
      read(`rig.${rig}.entry`) + (nose ? 0 : long * (threaded ? 0.94 : 1) - bite),
      1e-6,
    );
    between(`rig.${rig}.trim`, 0.03 * length, length);
    // The wire leaves the body behind the nose and ahead of the bend.
    between(`rig.${rig}.exit`, 0, long);
  }
  for (const key of keys) {
    if (!/^hook\..*\.clearance$/u.test(key)) continue;
    const gape = read(key) / (1 - 1 / read(key.replace('clearance', 'ratio')));
    // What has to be cleared is a squeezed part of the body's height.
    between(key, gape - read('bait.height'), gape);
    between(key.replace('clearance', 'ratio'), gape / read('bait.height'), Infinity);
  }
}

/** Sizes of the body against one another. */
function body({ read, keys }: Known, between: Between): void {
  const [length, width, height] = [read('bait.length'), read('bait.width'), read('bait.height')];
  const ball = read('bait.thickestSection');
  between('bait.width', ball, length);
  between('bait.height', ball, length);
  between('bait.length', ball, Infinity);
  between(
    'bait.thickestSection',
    (3 * 1000 * read('bait.volume')) / (100 * read('bait.surface')) / 1.5,
    Math.min(width, height),
  );
  between('bait.thinnestFeature', 0, ball + 1e-9);
  between('bait.centroid', 0, length);
  between('bait.centroidHeight', 0, height);
  between('bait.volume', (Math.PI / 6 / 1000) * ball ** 3, (length * width * height) / 1000);
  // No solid of a volume has less surface than the ball of that volume, nor less than twice its shadow.
  const least = (36 * Math.PI) ** (1 / 3) * read('bait.volume') ** (2 / 3);
  between('bait.surface', Math.max(least, 2 * read('bait.projectedArea')), Infinity);
  between(
    'bait.projectedArea',
    ((Math.PI / 4) * ball * ball) / 100,
    (length * Math.max(width, height)) / 100,
  );
  // Radii of gyration of anything in a box, and the moments of any three axes: none is more than the other two.
  const [roll, pitch, yaw] = ['Roll', 'Pitch', 'Yaw'].map((name) => read(`bait.gyration${name}`)) as [
    number,
    number,
    number,
  ];
  between('bait.gyrationRoll', Math.sqrt(Math.abs(pitch ** 2 - yaw ** 2)), Math.hypot(width, height) / 2);
  between('bait.gyrationPitch', Math.sqrt(Math.abs(yaw ** 2 - roll ** 2)), Math.hypot(length, height) / 2);
  between('bait.gyrationYaw', Math.sqrt(Math.abs(pitch ** 2 - roll ** 2)), Math.hypot(length, width) / 2);
  between('mold.shotCheck', 0.998, 1.002);
  between('shot.runner', 0, read('shot.total'));
  if (keys.includes('shot.colour-ahead')) {
    between('shot.colour-ahead', 0, read('shot.total'));
    between(
      'shot.colour-behind',
      read('shot.total') - read('shot.colour-ahead') - 1e-6,
      read('shot.total') - read('shot.colour-ahead') + 1e-6,
    );
  }
}
