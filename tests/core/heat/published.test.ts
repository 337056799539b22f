import heat from '../../published/heat.json' with { type: 'json' };
import {
  walkPublished,
  type Evaluator,
  type Numbers,
  type PublishedCheck,
} from '../../published/published.ts';
import {
  beforeShotTemperature,
  blockBiot,
  coolDownTime,
  coolingConstant,
  cyclesToShare,
  firstShotRise,
  fixedHeatCycle,
  shotShare,
  steadyCycle,
  type BlockCycle,
} from '../../../src/core/heat/block-warming.ts';
import { centreExcess, meanExcess } from '../../../src/core/heat/conduction-series.ts';
import { contactTemperature, effusivity } from '../../../src/core/heat/contact.ts';
import { contactCoolingTime, firstTerm } from '../../../src/core/heat/contact-coefficient.ts';
import {
  centreCoolingTime,
  coolingConstants,
  ellipseEigenvalue,
  meanCoolingTime,
  rectangleCoolingTime,
} from '../../../src/core/heat/cooling-time.ts';
import { sharedTemperature, standingMeltTemperature } from '../../../src/core/heat/injector-cooling.ts';
import { neumannRoot, noFlowFraction, skinDepth, stefanRoot } from '../../../src/core/heat/solidification.ts';
import { blockLoss, nusseltChurchillChu } from '../../../src/core/heat/surface-loss.ts';
import { metalTouchThreshold, skinBurnThresholds } from '../../../src/core/heat/touch.ts';
import { erfInverse } from '../../../src/core/numeric/error-function.ts';

const K = 273.15;

const closed: Evaluator = (n) => {
  const size = n('thickness_or_diameter_m');
  const cooling = { diffusivity: n('alpha'), melt: n('T_melt'), mold: n('T_mold'), eject: n('T_eject') };
  return {
    slab_centre_s: centreCoolingTime('slab', size, cooling),
    slab_mean_s: meanCoolingTime('slab', size, cooling),
    cyl_centre_s: centreCoolingTime('cylinder', size, cooling),
    cyl_mean_s: meanCoolingTime('cylinder', size, cooling),
    sphere_centre_s: centreCoolingTime('sphere', size, cooling),
  };
};

const constants: Evaluator = () => {
  const [slab, cylinder, sphere] = (['slab', 'cylinder', 'sphere'] as const).map(coolingConstants);
  return {
    slab_centre: slab?.centre ?? NaN,
    slab_mean: slab?.mean ?? NaN,
    cyl_lambda1: Math.sqrt((cylinder?.decay ?? NaN) / 4),
    cyl_4lambda2: cylinder?.decay ?? NaN,
    cyl_centre: cylinder?.centre ?? NaN,
    cyl_mean: cylinder?.mean ?? NaN,
    sphere_centre: sphere?.centre ?? NaN,
    sphere_mean: sphere?.mean ?? NaN,
  };
};

const series: Evaluator = (n) => ({
  slab_centre: centreExcess('slab', n('Fo')),
  slab_mean: meanExcess('slab', n('Fo')),
  cyl_centre: centreExcess('cylinder', n('Fo')),
  cyl_mean: meanExcess('cylinder', n('Fo')),
  sphere_centre: centreExcess('sphere', n('Fo')),
  sphere_mean: meanExcess('sphere', n('Fo')),
});

const biot: Evaluator = (n) => {
  const plane = firstTerm('slab', n('Bi'));
  const cylinder = firstTerm('cylinder', n('Bi'));
  const sphere = firstTerm('sphere', n('Bi'));
  return {
    plane_zeta1: plane.root,
    plane_C1: plane.coefficient,
    cyl_zeta1: cylinder.root,
    cyl_C1: cylinder.coefficient,
    sphere_zeta1: sphere.root,
    sphere_C1: sphere.coefficient,
  };
};

const resistance: Evaluator = (n) => {
  const temperatures = { melt: n('T_melt'), mold: n('T_mold'), eject: n('T_eject') };
  const Bi = (n('h_c') * n('L_half')) / n('k');
  const { root, coefficient } = firstTerm('slab', Bi);
  const time = contactCoolingTime({
    shape: 'slab',
    halfSize: n('L_half'),
    contact: n('h_c'),
    conductivity: n('k'),
    diffusivity: n('alpha'),
    ...temperatures,
  });
  const perfect = centreCoolingTime('slab', 2 * n('L_half'), { diffusivity: n('alpha'), ...temperatures });
  return { Bi, zeta1: root, C1: coefficient, t_s: time, t_perfect_contact_s: perfect, ratio: time / perfect };
};

const rectangle: Evaluator = (n) => {
  const cooling = { diffusivity: n('alpha'), melt: n('theta_ratio'), mold: 0, eject: 1 };
  return { t_s: rectangleCoolingTime(n('a_m'), n('b_m'), cooling) };
};

const ellipse: Evaluator = (n) => {
  const exact = ellipseEigenvalue(n('b') / n('a'));
  const approx = (coolingConstants('cylinder').decay / 8) * (1 / n('a') ** 2 + 1 / n('b') ** 2);
  return { k1_sq: exact, approx, approx_over_exact: approx / exact };
};

const onePhase: Evaluator = (n) => ({ lam: stefanRoot(n('Ste')), lam_small_Ste: Math.sqrt(n('Ste') / 2) });

const noLatent: Evaluator = (n) => {
  const theta = noFlowFraction(n('T_nf'), n('T_cold'), n('T_melt'));
  // The row's scale: both Stefan numbers a million times the temperature steps.
  const lam = neumannRoot(1e6 * (n('T_nf') - n('T_cold')), 1e6 * (n('T_melt') - n('T_nf')), 1);
  return { lam_neumann: lam, lam_erfinv: erfInverse(theta) };
};

const effusivities: Evaluator = (_, row) =>
  Object.fromEntries(
    Object.entries(row.inputs).map(([name, written]) => {
      const [k = NaN, rho = NaN, c = NaN] = String(written).split(',').map(Number);
      return [name, name === 'skin' ? effusivity(15.1e5, 1, 1) : effusivity(k, rho, c)];
    }),
  );

const contact: Evaluator = (n) => ({
  Tc: contactTemperature(
    { effusivity: n('e1'), temperature: n('T1') },
    { effusivity: n('e2'), temperature: n('T2') },
  ),
});

const loss: Evaluator = (n) => {
  const [surface, ambient] = [n('Ts') + K, n('Ta') + K];
  const air = { conductivity: n('k_air'), kinematic: n('nu'), diffusivity: n('alpha_air') };
  const block = blockLoss({ height: n('L'), surface, ambient, emissivity: n('eps'), air });
  const Ra =
    ((n('g') / ((surface + ambient) / 2)) * (surface - ambient) * n('L') ** 3) /
    (air.kinematic * air.diffusivity);
  return { Ra, h_conv: block.convection, h_rad: block.radiation, h_total: block.total };
};

function cycleOf(n: Numbers): BlockCycle {
  return {
    shotMass: n('m'),
    shotHeat: n('c'),
    blockMass: n('M'),
    blockHeat: n('C'),
    melt: n('T_melt'),
    start: n('T0'),
    ambient: n('T_amb'),
    loss: n('h'),
    surface: n('A'),
    pace: n('t_cycle'),
  };
}

const firstShot: Evaluator = (n) => {
  const rise = firstShotRise(cycleOf(n));
  return { r: shotShare(cycleOf(n)), T_eq: n('T0') + rise, rise };
};

const cycle: Evaluator = (n) => {
  const block = cycleOf(n);
  const steady = steadyCycle(block);
  return {
    tau: coolingConstant(block),
    r: shotShare(block),
    q: steady.memory,
    T_steady_before_shot: steady.before,
    T_steady_after_shot: steady.after,
    T_before_shot_10: beforeShotTemperature(block, 10),
    T_before_shot_3: beforeShotTemperature(block, 3),
    cycles_to_90pct: cyclesToShare(block, 0.9),
  };
};

const fixedHeat: Evaluator = (n) => {
  const { peak, valley } = fixedHeatCycle(n('dT'), n('t_cycle'), n('tau'), n('T_amb'));
  return { T_peak: peak, T_valley: valley };
};

const equilibrium: Evaluator = (n, row) => {
  const melt = { mass: n('m'), specificHeat: n('c'), temperature: n('T_melt') };
  const metal = (temperature: number) => ({ mass: n('M'), specificHeat: n('C'), temperature });
  const starts = row.inputs['T0'] as number[];
  return Object.fromEntries(
    starts.map((start) => [`T_from_${start}`, sharedTemperature(melt, metal(start))]),
  );
};

const injector: Evaluator = (n) => {
  const mean = standingMeltTemperature(n('R'), n('alpha'), n('t'), { melt: n('T_melt'), wall: n('T_wall') });
  return { T_mean: mean, theta_mean: (mean - n('T_wall')) / (n('T_melt') - n('T_wall')) };
};

const burns: Evaluator = (n) => {
  const { transepidermal, reversible } = skinBurnThresholds(n('t_s'));
  return { T_A_transepidermal: transepidermal - K, T_B_reversible: reversible - K };
};

const metal: Evaluator = () => ({
  t1s_low: metalTouchThreshold(1) - K,
  t10s_low: metalTouchThreshold(10) - K,
  t1min: metalTouchThreshold(60) - K,
  t10min: metalTouchThreshold(600) - K,
  t8h: metalTouchThreshold(28800) - K,
});

const coolingBand: Evaluator = (n, row) => {
  const at = (diffusivity: number) =>
    centreCoolingTime('slab', n('s'), { diffusivity, melt: n('theta_ratio'), mold: 0, eject: 1 });
  const [fast = NaN, nominal = NaN, slow = NaN] = row.inputs['alpha'] as number[];
  return { t_low: at(fast), t_nominal: at(nominal), t_high: at(slow) };
};

walkPublished('published heat values', heat.checks as unknown as PublishedCheck[], {
  'cool.constants': constants,
  'cool.closed': closed,
  'cool.series': series,
  'cool.bi': biot,
  'cool.contact_resistance': resistance,
  'cool.rect_bar': rectangle,
  'cool.ellipse': ellipse,
  'cool.injector': injector,
  'stefan.one_phase': onePhase,
  'stefan.two_phase': (n) => ({ lam: neumannRoot(n('Ste_S'), n('Ste_L'), n('nu')) }),
  'stefan.no_latent_limit': noLatent,
  'stefan.skin': (n) => ({ depth_mm: 1000 * skinDepth(n('theta_nf'), n('alpha'), n('t')) }),
  'contact.effusivity': effusivities,
  'contact.': contact,
  'conv.churchill': (n) => ({ Nu: nusseltChurchillChu(n('Gr') * n('Pr'), n('Pr')) }),
  'conv.block': loss,
  'block.biot': (n) => ({ Bi: blockBiot(n('h'), n('Lc'), n('k')) }),
  'block.first_shot': firstShot,
  'block.cycle': cycle,
  'block.cycle_fixed_heat': fixedHeat,
  'block.cooldown': (n) => ({ t: coolDownTime(n('T0'), n('T1'), n('Ta'), n('tau')) }),
  'block.injector': equilibrium,
  'band.cooling': coolingBand,
  'burn.c1055': burns,
  'burn.iso_metal': metal,
});
