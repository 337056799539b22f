// One sheet worked out a second time from what its maker wrote. What only the site measures (the outline and the inscribed
// ball of a lofted bait, the channels as cut) is taken from the sheet itself; everything else is computed here.
import * as by from './formulas.ts';
import { si } from './units.ts';

interface Banded {
  readonly low?: string;
  readonly nominal: string;
  readonly high?: string;
}

/** The parts of the written entries that are used. */
export interface Written {
  readonly mold: {
    readonly cavities: readonly unknown[];
    readonly warmTo?: string;
    readonly block: Record<'length' | 'width' | 'thickness', string> & { readonly finish?: string };
    readonly sprue: Record<'mouth' | 'end' | 'length', string>;
    readonly runner?: { readonly diameter: string };
    readonly pins?: { readonly count: number; readonly diameter: string };
    readonly gate: Record<'width' | 'depth' | 'length', string>;
    readonly vents?: readonly (Record<'depth' | 'width' | 'land', string> & {
      readonly tier: string;
      readonly count: number;
    })[];
  };
  readonly compound: Record<
    | 'conductivity'
    | 'specificHeat'
    | 'diffusivity'
    | 'expansion'
    | 'viscosity'
    | 'activation'
    | 'noFlow'
    | 'fusion'
    | 'degradation'
    | 'flashPoint'
    | 'demold',
    Banded
  > & {
    readonly recipe: { plasticiser: string; phr: number; salt?: number; microballoons?: number };
    readonly density?: Banded;
    readonly hardness?: Banded;
    readonly measured?: unknown;
    readonly upperLimit: string;
  };
  readonly injectors: readonly { readonly capacity: string; readonly piston: string; readonly id: string }[];
  /** Mass of the recommended hook [kg], when the sheet names one. */
  readonly hookMass: number | undefined;
}

/** A figure worked out again, in the unit of the sheet, and how far the two may lie apart. */
export interface Again {
  readonly key: string;
  readonly value: number;
  /** Share of the value. */
  readonly within: number;
}

/** Common practice and published values that the sheet states as its assumptions. */
const ROOM = 22;
const WORKING_BLOCK = 38;
const HOTTEST_WORKING = 45;
const TRANSFER_LOSS = 5;
const PUSH = 110;
const HOT_SHARE = 0.9;
const CLINGS = 1.1;

const EXACT = 1e-6;
const KELVIN = 273.15;

/** Works a sheet out again; `read` gives a figure of the sheet in its own unit. */
export function again(
  { mold, compound, injectors, hookMass }: Written,
  read: (key: string) => number,
): Again[] {
  const rows: Again[] = [];
  const put = (key: string, value: number, within = EXACT): void => void rows.push({ key, value, within });
  const nominal = ({ nominal: text }: Banded): number => si(text);
  const n = mold.cavities.length;
  const volume = read('bait.volume') * 1e-6;
  const body = read('bait.thickestSection') / 1000;

  // Pour band: fused at the low end; the lowest of three limits at the high end; a third of the way up to aim at.
  const low = nominal(compound.fusion);
  const flash = si(compound.flashPoint.low ?? compound.flashPoint.nominal);
  const high = Math.min(
    si(compound.upperLimit),
    si(compound.degradation.low ?? compound.degradation.nominal),
    flash - 15,
  );
  const pour = low + (high - low) / 3;
  put('pour.low', low - KELVIN);
  put('pour.high', high - KELVIN);
  put('pour.nominal', pour - KELVIN);
  put('pour.flashMargin', nominal(compound.flashPoint) - high);
  const gate = pour - TRANSFER_LOSS;

  // Compound.
  const { plasticiser, phr, salt = 0, microballoons = 0 } = compound.recipe;
  const density = compound.density
    ? nominal(compound.density)
    : by.compoundDensity(plasticiser, phr, salt, microballoons);
  put('bait.density', density / 1000, 1e-4);
  if (!compound.hardness) {
    const modulus = by.recipeModulus(plasticiser, phr);
    put('compound.modulus', modulus / 1000, 0.005);
    put('compound.hardness', by.shore00(modulus), 0.01);
  }

  // Shot. The channels are the sheet's, measured on the solid mold.
  const channels = read('shot.runner') * 1e-6;
  const noFlow = nominal(compound.noFlow);
  const fall = by.topOffFall(pour, noFlow, ROOM + KELVIN, si(mold.gate.width), si(mold.gate.depth), body);
  const share = nominal(compound.expansion) * fall;
  const total = n * volume * (1 + share) + channels;
  const shotMass = total * density * HOT_SHARE;
  put('shot.perCavity', volume * 1e6);
  put('shot.topOff', n * volume * share * 1e6, 1e-4);
  put('shot.total', total * 1e6, 1e-4);
  put('shot.mass', shotMass * 1000, 2e-4);
  put('shot.sprueShare', (100 * channels) / total, 1e-4);
  put('bait.mass', volume * (1 + share) * density * HOT_SHARE * 1000, 2e-4);
  for (const baits of [10, 25, 50, 100, 250])
    put(`batch.${baits}`, ((Math.ceil(baits / n) * shotMass * CLINGS) / density) * 1e6, 2e-4);
  for (const [name, litres] of [
    ['pint', 0.473176473],
    ['quart', 0.946352946],
    ['gallon', 3.785411784],
    ['litre', 1],
  ] as const)
    put(`yield.${name}`, n * Math.floor((litres * 1e-3 * density) / (CLINGS * shotMass)));

  // Pressure and clamp.
  for (const { id, piston } of injectors)
    put(`injector.${id}.pressure`, PUSH / (Math.PI * (si(piston) / 2) ** 2) / 1000);
  const most = read('shot.total') * 1e-6;
  const fitting = injectors
    .filter(({ capacity }) => si(capacity) >= most * CLINGS)
    .sort((a, b) => si(a.capacity) - si(b.capacity));
  const pushed = fitting[0] ?? [...injectors].sort((a, b) => si(b.capacity) - si(a.capacity))[0];
  const pressure = PUSH / (Math.PI * (si(pushed?.piston) / 2) ** 2);
  put('shot.pressure', pressure / 1000);
  const { sprue, runner } = mold;
  const [mouth, end, length] = [si(sprue.mouth), si(sprue.end), si(sprue.length)];
  const frustum = (Math.PI * length * (mouth ** 2 + mouth * end + end ** 2)) / 12;
  const gates = n * si(mold.gate.width) * si(mold.gate.depth) * si(mold.gate.length);
  const d = runner ? si(runner.diameter) : 0;
  const runnerLength = runner ? (channels - frustum - gates) / ((Math.PI * d * d) / 4) : 0;
  const plan =
    n * read('bait.projectedArea') * 1e-4 + d * runnerLength + n * si(mold.gate.width) * si(mold.gate.length);
  put('mold.partingForce', pressure * plan, 0.1);
  put('mold.clampForce', 1.5 * read('mold.partingForce'));

  // Block: what is cut out of it. Pin holes are twice as deep as wide in each half; vents are a few parts in ten thousand.
  const [long, wide, thick] = [si(mold.block.length), si(mold.block.width), si(mold.block.thickness)];
  const pin = mold.pins ? si(mold.pins.diameter) : 0;
  const holes = (mold.pins?.count ?? 0) * (Math.PI / 4) * pin ** 2 * (4 * pin);
  const block = 2700 * (long * wide * thick - n * volume - channels - holes);
  put('mold.blockMass', block, 0.002);
  put('mold.shippingMass', 1.05 * read('mold.blockMass') + 0.12);

  // Heat.
  const eject = nominal(compound.demold);
  const spread = nominal(compound.diffusivity);
  for (const [key, wall] of [
    ['heat.demoldTime', WORKING_BLOCK],
    ['heat.demoldTimeCold', ROOM],
  ] as const) {
    const round = by.cylinderTime(body, spread, pour, wall + KELVIN, eject);
    const flat = by.slabTime(body, spread, pour, wall + KELVIN, eject);
    // A section is longer than the ball in it and shorter than a slab: the time lies between, whatever its shape.
    put(key, Math.min(Math.max(read(key), round), flat), 0.002);
  }
  const heat = nominal(compound.specificHeat);
  const mass = read('mold.blockMass');
  const r = (shotMass * heat) / (shotMass * heat + mass * 896);
  put('heat.riseFirstShot', r * (gate - ROOM - KELVIN), 3e-4);
  const emissivity = mold.block.finish === 'anodised' ? 0.8 : 0.09;
  const loss = by.faceLoss(wide, ROOM + KELVIN + 30, ROOM + KELVIN, emissivity);
  const skin = 2 * (long * wide + wide * thick + thick * long);
  const tau = (mass * 896) / (loss * skin);
  const kept = Math.exp(-(read('heat.demoldTime') + 60) / tau);
  let before = ROOM + KELVIN;
  let after = before;
  for (let shot = 0; shot < 5000; shot++) {
    after = before + r * (gate - before);
    before = ROOM + KELVIN + (after - ROOM - KELVIN) * kept;
  }
  put('heat.blockSteady', after - KELVIN, 0.02);
  const limit = Math.min(51, by.touchLimit(60));
  const hot = read('heat.blockSteady');
  put('heat.safeToTouch', hot > limit ? (tau * Math.log((hot - ROOM) / (limit - ROOM))) / 60 : 0, 0.03);
  // Rest until a shot into the block takes it no higher than a working block.
  const rested = (HOTTEST_WORKING + KELVIN - r * gate) / (1 - r) - ROOM - KELVIN;
  const pace = read('heat.demoldTime') + 60;
  const rest = rested > 0 ? tau * Math.log((HOTTEST_WORKING - ROOM) / rested) - pace : Infinity;
  // Within two hundredths of the whole time from shot to shot, as the block's own time is.
  put('heat.pause', Math.min(1800, Math.max(0, rest)), rest > 0 ? 0.02 * (1 + pace / rest) : EXACT);
  let [warm, shots] = [ROOM + KELVIN, 0];
  const told = mold.warmTo === undefined ? read('fill.mold.needed') + KELVIN : si(mold.warmTo);
  while (warm < told - 1e-9 && shots < 1000) {
    warm = ROOM + KELVIN + (warm + r * (gate - warm) - ROOM - KELVIN) * kept;
    shots += 1;
  }
  put('fill.warmUpShots', shots);
  put('burn.touchLimit', by.touchLimit(1));
  put('burn.minuteLimit', Math.min(51, by.touchLimit(60)));
  const melt = Math.sqrt(nominal(compound.conductivity) * density * heat);
  put('burn.skinContact', (melt * (high - KELVIN) + 1229 * 33) / (melt + 1229), 1e-3);

  // Water.
  if (hookMass !== undefined) {
    const fresh = by.water(20);
    const weight = 9.80665 * ((density - fresh) * volume + hookMass * (1 - fresh / 7850));
    if (weight > 0)
      put(
        'float.sinkSpeed',
        100 *
          by.sinkingSpeed(
            weight,
            read('bait.projectedArea') * 1e-4,
            read('bait.length') / 1000,
            fresh,
            1.0016e-3,
          ),
        0.03,
      );
  }

  // Vents.
  const edge = mold.vents?.find(({ tier }) => tier === 'edge');
  if (edge && !compound.measured) {
    const theta = (noFlow - ROOM - KELVIN) / (gate - ROOM - KELVIN);
    const eta = by.root((x) => by.erf(x) - theta, 0, 3);
    const depth = si(edge.depth);
    const volumeHeat = density * HOT_SHARE * heat;
    const viscosity = by.viscosityAt(nominal(compound.viscosity), nominal(compound.activation), gate);
    const flows = (d: number): number => {
      const shut = d ** 2 / (16 * eta ** 2 * spread) + ((volumeHeat * d) / (2 * 2500)) * Math.log(1 / theta);
      return d * Math.sqrt((pressure * shut) / (60 * viscosity));
    };
    put('vent.flash.edge', 1000 * flows(depth), 0.01);
    put('vent.flashThrough.edge', 1e6 * by.root((d) => flows(d) - si(edge.land), 1e-6, 1e-3), 0.01);
  }
  if (mold.vents?.length) {
    const air = by.airViscosity((gate + ROOM + KELVIN) / 2);
    const resistance = mold.vents.reduce(
      (sum, { depth, width, land, count }) =>
        sum + (12 * air * si(land)) / (count * si(width) * si(depth) ** 3),
      0,
    );
    put('vent.backPressure', (resistance * volume) / 2 / 1000, 0.01);
  }
  return rows;
}
