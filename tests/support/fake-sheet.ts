import type { Mesh, Vec2 } from '../../src/core/mesh/mesh.ts';
import { band, within, type Band } from '../../src/core/quantity/band.ts';
import { figure, figureInput, type Figure, type Source } from '../../src/core/quantity/figure.ts';
import { toSI, type UnitCode } from '../../src/core/quantity/units.ts';
import type { BaitGeometry, FeatureMeasure } from '../../src/core/section/geometry.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';
import { trialStudy } from '../../src/sheet/trial-study.ts';
import { bait, hook, injector, mold, plastisol, shop } from './fake-entries.ts';
import { fakeFilling } from './fake-filling.ts';
import { fakeHalves, fakeWalls } from './fake-halves.ts';
import { FLOATING, fakePlan, fakeRigs } from './fake-rigs.ts';
import { capsule, mapped } from './solids.ts';

// A Sheet whose numbers are closed forms or plain inventions: it tests how sheets are printed, not what is computed.

const INVENTED: Source = { title: 'Invented for a test', kind: 'invented for the demo' };
const RADIUS = 0.005;
const LENGTH = 0.1;

/** A figure of the fake sheet from a band in its own unit. */
export function fakeFigure(key: string, label: string, unit: UnitCode, bounds: Band): Figure {
  const si = band(toSI(bounds.value, unit), toSI(bounds.low, unit), toSI(bounds.high, unit));
  return figure(
    {
      key,
      label,
      unit,
      basis: `${label} of the test capsule; the diameter dominates its band.`,
      formula: 'V = πr²·(L − 2r) + 4/3·πr³',
      inputs: [
        figureInput('diameter', within(2 * RADIUS, 0.01), 'mm'),
        figureInput('pour temperature', band(446, 440, 452), 'Cel'),
      ],
      sources: [{ ...INVENTED, note: 'not checked' }],
    },
    si,
  );
}

const VOLUME = Math.PI * RADIUS ** 2 * (LENGTH - 2 * RADIUS) + (4 / 3) * Math.PI * RADIUS ** 3;

const FIGURES: readonly (readonly [string, string, UnitCode, Band])[] = [
  ['bait.length', 'Bait length', 'mm', band(LENGTH * 1e3)],
  ['bait.width', 'Bait width', 'mm', band(2 * RADIUS * 1e3)],
  ['bait.height', 'Bait height', 'mm', band(2 * RADIUS * 1e3)],
  ['bait.volume', 'Bait volume', 'cm3', within(VOLUME * 1e6, 0.01)],
  ['bait.surface', 'Bait surface', 'cm2', within(31.4, 0.01)],
  ['bait.projectedArea', 'Shadow on the parting plane', 'cm2', within(9.79, 0.01)],
  ['bait.thickestSection', 'Thickest section', 'mm', band(10)],
  ['bait.thinnestFeature', 'Thinnest feature', 'mm', within(0.9, 0.03)],
  ['bait.density', 'Cured density', 'g/cm3', within(1.02, 0.02)],
  ['bait.mass', 'One bait weighs', 'g', within(7.8, 0.03)],
  ['shot.perCavity', 'Hot shot, each cavity', 'mL', within(8.5, 0.04)],
  ['shot.runner', 'Runner and sprue', 'mL', within(4.2, 0.02)],
  ['shot.total', 'Whole shot, hot', 'mL', within(38.2, 0.04)],
  ['shot.topOff', 'Top-off drawn in', 'mL', band(2.1, 1.4, 2.6)],
  ['shot.mass', 'Whole shot weighs', 'g', within(35, 0.04)],
  ['heat.demoldTime', 'Time to open', 's', band(104, 74, 157)],
  ['heat.riseFirstShot', 'Block warms by, first shot', 'K', band(9, 7, 11)],
  ['heat.contactSkin', 'Skin under a splash', 'Cel', band(95, 88, 104)],
  ['pour.low', 'Pour no cooler than', 'Cel', band(165, 155, 180)],
  ['pour.nominal', 'Pour at', 'Cel', band(174, 168, 180)],
  ['pour.high', 'Pour no hotter than', 'Cel', band(182, 180, 185)],
  ['mold.clampForce', 'Clamping force', 'N', band(890, 400, 2100)],
  ['mold.blockMass', 'Block', 'kg', band(1.9)],
];

const ring = (across: number): Vec2[] =>
  Array.from({ length: 64 }, (_, step): Vec2 => {
    const angle = (2 * Math.PI * step) / 64;
    const centre = Math.cos(angle) < 0 ? RADIUS : LENGTH - RADIUS;
    return [centre + RADIUS * Math.cos(angle), across * Math.sin(angle)];
  });

const circleRing = (): Vec2[] =>
  Array.from({ length: 64 }, (_, step): Vec2 => {
    const angle = (2 * Math.PI * step) / 64;
    return [RADIUS * Math.cos(angle), RADIUS * Math.sin(angle)];
  });

const TAIL: FeatureMeasure = {
  name: 'tail',
  kind: 'curl-tail',
  length: 0.04,
  stations: Array.from({ length: 9 }, (_, step) => ({
    s: 0.005 * step,
    thickness: 0.0016 - 0.00009 * step,
    width: 0.008,
    at: [LENGTH - 0.04 + 0.005 * step, 0, 0] as const,
  })),
  rootThickness: 0.0016,
  tipThickness: 0.0009,
  thinnest: { thickness: 0.0009, at: [LENGTH, 0, 0] },
};

function geometry(): BaitGeometry {
  const mesh: Mesh = mapped(capsule(RADIUS, LENGTH - 2 * RADIUS, 24, 48), ([x, y, z]) => [
    x + LENGTH / 2,
    y,
    z,
  ]);
  return {
    mesh,
    box: { min: [0, -RADIUS, -RADIUS], max: [LENGTH, RADIUS, RADIUS] },
    volume: VOLUME,
    surface: 2 * Math.PI * RADIUS * LENGTH,
    centroid: [LENGTH / 2, 0, 0],
    projectedArea: 2 * RADIUS * (LENGTH - 2 * RADIUS) + Math.PI * RADIUS ** 2,
    plan: [ring(RADIUS)],
    across: [ring(RADIUS)],
    areaCurve: [
      { x: 0, area: 0 },
      { x: LENGTH / 2, area: Math.PI * RADIUS ** 2 },
      { x: LENGTH, area: 0 },
    ],
    thickest: { thickness: 2 * RADIUS, at: [LENGTH / 2, 0, 0] },
    features: [TAIL],
    repairs: [],
  };
}

const hookFit = (size: string, verdict: 'best' | 'fits' | 'tight', gape: number): Sheet['hooks'][number] => ({
  hook,
  size,
  rig: 'Texas',
  verdict,
  clearance: fakeFigure(
    `hook.${size.replace('/', '-')}-clearance`,
    'Clearance',
    'mm',
    within(gape - 10, 0.1),
  ),
  ratio: fakeFigure(`hook.${size.replace('/', '-')}-ratio`, 'Gape over body', '1', within(gape / 10, 0.02)),
  reason: `The gape is ${gape / 10} times the body it must clear.`,
  fit: {
    trim: 0,
    entry: 0.005,
    point: 0.04,
    reach: 0.05,
    height: 0.01,
    squeezed: band(0.005, 0.004, 0.006),
    clearance: band(0.005),
    ratio: band(1.5),
    lengthShare: 0.5,
    wireShare: 0.11,
    verdict: 'fits',
    reason: 'comfortable',
  },
});

const CAUTIONS: Sheet['cautions'] = [
  {
    key: 'hot-liquid',
    type: 'hot liquid',
    signal: 'DANGER',
    hazard: 'Liquid at 330 °F (166 °C) sticks to skin and keeps burning.',
    consequence: 'A splash takes skin to 203 °F (95 °C) at once: deep burns, scars, lost sight.',
    avoid: [
      'Wear a face shield over safety glasses, heat-proof gloves to the elbow, long sleeves and closed shoes.',
      'Burned? Cool it under running water for 20 minutes. Do not peel the plastic off.',
    ],
    figures: ['pour.nominal', 'heat.contactSkin'],
    before: 'everything',
  },
  {
    key: 'fumes',
    type: 'toxic gas',
    signal: 'WARNING',
    hazard: 'Overheated compound gives off hydrogen chloride.',
    consequence: 'It attacks eyes and lungs at a few parts in a million.',
    avoid: ['Never pour hotter than 365 °F (185 °C).', 'Heat only where a fan draws the fumes outside.'],
    figures: ['pour.high'],
    before: 'heating',
  },
  {
    key: 'water',
    type: 'steam',
    signal: 'DANGER',
    hazard: 'Water in hot compound turns to steam and throws it out.',
    consequence: 'Two drops become a fifth of a litre of steam.',
    avoid: ['Dry the mold, the injector and the hooks before every session.'],
    figures: [],
    before: 'shooting',
  },
  {
    key: 'hot-block',
    type: 'hot surface',
    signal: 'CAUTION',
    hazard: 'The block stays hot after you open it.',
    consequence: 'Bare skin on it burns within seconds.',
    avoid: ['Open it with gloves.'],
    figures: ['heat.riseFirstShot'],
    before: 'opening',
  },
  {
    key: 'solvents',
    type: 'damage to the mold',
    signal: 'NOTICE',
    hazard: 'Steel tools scratch the parting face.',
    consequence: 'A scratch across a land lets flash through.',
    avoid: ['Lift baits with fingers or brass.'],
    figures: [],
    before: 'afterwards',
  },
];

const ANSWERS: Sheet['answers'] = [
  {
    key: 'cold',
    question: 'Can I shoot it cold?',
    short:
      'Shoot two warm-up shots first. The tail reaches 1.6 in (41 mm) in a cold block and needs 1.6 in (40 mm).',
    long: ['A thin tail closes before the plastic reaches its end when the aluminium is cold.'],
    figures: ['feature.tail-reserveCold'],
    words: ['cold', 'first shots'],
    guide: 'first-shots/#shooting-cold',
  },
  {
    key: 'how-much',
    question: 'How much plastic does one shot take?',
    short: 'Draw 1.29 fl oz (38 mL) for four baits, sprue and runner included.',
    long: ['Keep pushing while it sets: the top-off fills the dent that shrinkage would leave.'],
    figures: ['shot.total', 'shot.topOff'],
    words: ['ounces'],
    guide: 'compounds/#how-much-to-heat',
  },
];

const FAULTS: Sheet['faults'] = [
  {
    key: 'fault-short-shot',
    name: 'Short shot',
    looks: 'The tail ends early.',
    words: ['tail missing'],
    causes: [
      { cause: 'The mold is cold', why: 'The tail is filled 0.8 times.', cure: 'Warm it.' },
      { cause: 'Too little plastic', why: 'It takes 1.29 fl oz (38 mL).', cure: 'Draw more.' },
    ],
    figures: ['shot.total'],
    guide: 'faults/#short-shot',
  },
];

const FILLING = fakeFilling(LENGTH, RADIUS);

const NO_EDGES = { contours: [], ridges: [], grooves: [] };

/** A complete sheet; `changes` replace whole fields. */
export function fakeSheet(changes: Partial<Sheet> = {}): Sheet {
  return {
    id: mold.id,
    title: mold.name,
    shop,
    mold,
    makes: 'whole bait',
    bait,
    revision: bait.revisions[1] ?? bait.revisions[0]!,
    plastisol,
    geometry: geometry(),
    cuts: [{ x: LENGTH / 2, outline: [circleRing()] }],
    halves: fakeHalves([ring(RADIUS)], VOLUME),
    edges: { plan: NO_EDGES, across: NO_EDGES },
    walls: fakeWalls(LENGTH, RADIUS),
    figures: Object.fromEntries(FIGURES.map((row) => [row[0], fakeFigure(...row)])),
    verdicts: {
      cold: {
        code: 'warm it first',
        sentence: 'First shots come out short in a cold block: warm it with two shots.',
      },
      float: {
        code: 'may float or sink',
        sentence: 'Its density straddles that of water: it may float or sink.',
      },
      injector: { code: 'one push', sentence: 'A 4 fl oz hand injector fills it in one push.' },
    },
    action: { features: [], least: [], compound: null },
    features: [
      {
        name: 'tail',
        label: 'Tail',
        reachCold: fakeFigure('feature.tail-reachCold', 'Tail reaches, cold block', 'mm', band(41, 26, 65)),
        reachWarm: fakeFigure('feature.tail-reachWarm', 'Tail reaches, warm block', 'mm', band(52, 33, 83)),
        reserveCold: fakeFigure(
          'feature.tail-reserveCold',
          'Tail reserve, cold block',
          '1',
          band(1.02, 0.65, 1.6),
        ),
        reserveWarm: fakeFigure(
          'feature.tail-reserveWarm',
          'Tail reserve, warm block',
          '1',
          band(1.3, 0.83, 2.1),
        ),
      },
    ],
    filling: FILLING,
    injectors: [
      {
        injector,
        holds: true,
        shots: 3,
        pressure: fakeFigure('injector.four-ounce-pressure', 'Hand pressure', 'kPa', band(97, 53, 220)),
      },
    ],
    hooks: [hookFit('2/0', 'tight', 11), hookFit('3/0', 'best', 13), hookFit('4/0', 'fits', 15)],
    bestHook: hookFit('3/0', 'best', 13),
    rigNames: ['Texas', 'weightless'],
    rigs: fakeRigs(hookFit('3/0', 'best', 13), fakeFigure('rig.texas.point', 'Point lies', 'mm', band(40)), [
      ring(RADIUS),
    ]),
    plan: fakePlan(mold.id, mold.name),
    floating: FLOATING,
    postures: ['Rigged on a 3/0 it sinks level.'],
    batches: [
      {
        label: 'A dozen baits',
        baits: 12,
        shots: 3,
        compound: fakeFigure('batch.dozen', 'Compound for a dozen', 'mL', within(115, 0.05)),
      },
      {
        label: 'A hundred baits',
        baits: 100,
        shots: 25,
        compound: fakeFigure('batch.hundred', 'Compound for a hundred', 'mL', within(955, 0.05)),
      },
    ],
    cautions: CAUTIONS,
    answers: ANSWERS,
    faults: FAULTS,
    family: bait.revisions.map((revision) => ({ revision, readings: [] })),
    ledger: null,
    trials: trialStudy(
      bait,
      [
        {
          id: 'first-swim',
          date: '2026-03-20',
          bait: 'capsule',
          revision: 'b',
          plastisol: 'medium',
          colour: 'green pumpkin',
          clarity: 'stained',
          rig: 'Texas',
          retrieve: 0.3,
          features: [{ name: 'tail', moved: 'moved' }],
          passed: true,
          fish: false,
          note: 'Kicked all the way down to a crawl.',
        },
      ],
      [plastisol],
      bait.revisions.map((revision) => ({ revision, geometry: geometry(), readings: [] })),
    ),
    siblings: [],
    warnings: [],
    ...changes,
  };
}
