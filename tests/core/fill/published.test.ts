import fill from '../../published/fill.json' with { type: 'json' };
import { walkPublished, type Evaluator, type PublishedCheck } from '../../published/published.ts';
import {
  ellipseSection,
  rectangleFactor,
  rectangleFriction,
  rectangleSection,
  roundSection,
  slotSection,
  type ChannelSection,
} from '../../../src/core/fill/channel-flow.ts';
import {
  freezeConstant,
  freezeConstantUniform,
  freezeReach,
  hotFront,
} from '../../../src/core/fill/freeze-constant.ts';
import { branchHesitation } from '../../../src/core/fill/hesitation.ts';
import { closing } from '../../../src/core/fill/open-fraction.ts';
import { frontReach, type Ageing } from '../../../src/core/fill/reach.ts';
import {
  flowingMeanExcess,
  graetzRoots,
  skinGrowthTime,
  steadySkin,
} from '../../../src/core/fill/thermal-entry.ts';
import { activationEnergy, arrheniusViscosity, freeVolumeRatio } from '../../../src/core/fill/viscosity.ts';
import { contactTemperature } from '../../../src/core/heat/contact.ts';
import { coolingConstants } from '../../../src/core/heat/cooling-time.ts';
import { noFlowFraction } from '../../../src/core/heat/solidification.ts';
import { erfInverse } from '../../../src/core/numeric/error-function.ts';

const K = 273.15;

/** Volume flow through a length of channel [m³/s]. */
const flow = (section: ChannelSection, pressure: number, viscosity: number, length: number) =>
  pressure / (viscosity * section.drag * length);

const slotFlow: Evaluator = (n) => ({ Q: flow(slotSection(n('W'), n('h')), n('P'), n('mu'), n('L')) });
const tubeFlow: Evaluator = (n) => ({ Q: flow(roundSection(n('R')), n('P'), n('mu'), n('L')) });

const ellipseFlow: Evaluator = (n) => ({
  Q: flow(ellipseSection(n('a'), n('b')), n('P'), n('mu'), n('L')),
  // The circle of the row above it: R = 1.5 mm under the same pressure.
  Q_circle_check: flow(ellipseSection(0.0015, 0.0015), n('P'), n('mu'), n('L')),
});

const rectangleFlow: Evaluator = (n) => ({
  Q: flow(rectangleSection(n('W'), n('h')), n('P'), n('mu'), n('L')),
  shape_factor: rectangleFactor(n('h') / n('W')),
});

const limits: Evaluator = () => {
  const tube = roundSection(1);
  // Fanning f·Re = D_h²·(dp/dx)/(2μU) with D_h = 2R.
  return {
    slot: rectangleFriction(1e-12),
    tube: (4 * tube.drag * tube.area) / 2,
    square: rectangleFriction(1),
  };
};

const graetz =
  (shape: 'slot' | 'tube'): Evaluator =>
  () => {
    const roots = graetzRoots(shape);
    const named = roots.flatMap(({ root, weight }, i) => [
      [`lam${i + 1}`, root],
      [`B${i + 1}`, weight],
    ]);
    const first = roots[0]?.root ?? NaN;
    // Far downstream the mean decays as e^(−λ₁²ζ): Nu∞ = 8λ₁²/3 on D_h = 2h for the slot, λ₁²/2 for the tube.
    return { ...Object.fromEntries(named), Nu_inf: shape === 'slot' ? (8 / 3) * first ** 2 : first ** 2 / 2 };
  };

const graetzMean: Evaluator = (n) => ({
  slab: flowingMeanExcess('slot', n('zeta')),
  tube: flowingMeanExcess('tube', n('zeta')),
});

const bulkDrop: Evaluator = (n) => {
  const zeta = (n('alpha') * n('x')) / (1.5 * n('U') * (n('h') / 2) ** 2);
  return {
    zeta,
    theta_m: flowingMeanExcess('slot', zeta),
    Gz: (n('U') * (2 * n('h')) ** 2) / (n('alpha') * n('x')),
  };
};

const arrhenius: Evaluator = (n) => {
  const melt = { reference: n('mu_ref'), at: n('T_ref_C') + K, activation: n('Ea') };
  const at = (celsius: number) => arrheniusViscosity(melt, celsius + K);
  return { mu_150: at(150), mu_190: at(190), mu_120: at(120) };
};

const dinp: Evaluator = (n) => ({
  Ea_kJmol:
    activationEnergy(
      { viscosity: n('nu1_cSt'), temperature: n('T1') + K },
      { viscosity: n('nu2_cSt'), temperature: n('T2') + K },
    ) / 1000,
});

const freeze: Evaluator = (n) => {
  const theta = n('theta_nf');
  return {
    eta: erfInverse(theta),
    Fo_freeze_slab: closing('slot', theta).shut,
    K_slab_uniform_age: freezeConstantUniform('slot', theta),
    K_slab_own_age: freezeConstant('slot', theta),
    K_slab_fresh_core: freezeConstant('fresh core', theta),
    Fo_freeze_cyl: closing('round', theta).shut,
    K_cyl_uniform_age: freezeConstantUniform('round', theta),
    K_cyl_own_age: freezeConstant('round', theta),
  };
};

const freshCore: Evaluator = () => {
  // X = 4η·K at any θ.
  const scale = 4 * erfInverse(0.5);
  return {
    X_uniform_age: scale * freezeConstantUniform('fresh core', 0.5),
    X_own_age: scale * freezeConstant('fresh core', 0.5),
    X_no_freeze: hotFront('slot', 1, { pressure: 1, viscosity: 1 }, 1),
  };
};

const example: Evaluator = (n) => {
  const melt = Number.isNaN(n('e_melt')) ? 529.1502622129182 : n('e_melt');
  const mold = Number.isNaN(n('e_mold')) ? 20099.910447561702 : n('e_mold');
  const reach = (moldCelsius: number, gap: number) => {
    const wall = contactTemperature(
      { effusivity: melt, temperature: n('T_melt') },
      { effusivity: mold, temperature: moldCelsius },
    );
    const theta = noFlowFraction(n('T_nf'), wall, n('T_melt'));
    const drive = { pressure: n('P'), viscosity: n('mu'), diffusivity: n('alpha') };
    return { theta, x: freezeReach(freezeConstant('slot', theta), gap, drive) };
  };
  const { theta, x } = reach(n('T_mold'), n('h'));
  return {
    theta_nf: theta,
    x_max: x,
    ratio_to_25C: x / reach(25, n('h')).x,
    ratio_to_1mm: x / reach(n('T_mold'), 0.001).x,
  };
};

const timeStatic: Evaluator = (n) => {
  const { decay, centre } = coolingConstants('slab');
  const theta = noFlowFraction(n('T_nf'), n('T_cold'), n('T_melt'));
  return { t_f: (n('h') ** 2 / (decay * n('alpha'))) * Math.log(centre / theta) };
};

const skinLimit: Evaluator = (n) => {
  const fed = { noFlow: n('T_nf'), wall: n('T_c'), bulk: n('T_b') };
  const delta = steadySkin(n('h'), fed, n('Nu'));
  return {
    r: (fed.noFlow - fed.wall) / (fed.bulk - fed.noFlow),
    delta_inf: delta,
    open_fraction: 1 - (2 * delta) / n('h'),
  };
};

const skinGrowth: Evaluator = (n) => ({
  t: skinGrowthTime(n('delta'), n('delta_inf'), n('eta'), n('alpha')),
  t_without_feed: skinGrowthTime(n('delta'), Infinity, n('eta'), n('alpha')),
});

const slot = (width: number, thickness: readonly [number, number], length: number) => [
  { s: 0, thickness: thickness[0], width },
  { s: length, thickness: thickness[1], width },
];

/** Melt that keeps its heat: no diffusion to speak of. */
const HOT = { theta: 0.005, diffusivity: 1e-20 };

const isothermal: Evaluator = (n) => {
  const part = { stations: slot(n('w'), [n('h'), n('h')], n('L')), form: 'slot', ageing: 'own age' } as const;
  const feed = { pressure: n('P'), viscosity: n('mu'), diffusivity: HOT.diffusivity };
  const exact = (6 * n('mu') * n('L') ** 2) / (n('P') * n('h') ** 2);
  return { t: frontReach({ ...part, theta: HOT.theta }, feed).time, t_exact: exact };
};

const constantFlow: Evaluator = (n) => {
  const part = { stations: slot(n('w'), [n('h'), n('h')], n('L')), form: 'slot', ageing: 'own age' } as const;
  const feed = { pressure: 1e9, viscosity: n('mu'), diffusivity: HOT.diffusivity, flowLimit: n('Q') };
  const { time, pressure } = frontReach({ ...part, theta: HOT.theta }, feed);
  return { t: time, P_end: pressure };
};

const uniform: Evaluator = (n) => {
  const feed = { pressure: n('P'), viscosity: n('mu'), diffusivity: n('alpha') };
  const stations = slot(n('w'), [n('h'), n('h')], 0.1);
  const far = (ageing: Ageing) =>
    frontReach({ stations, form: 'slot', ageing, theta: n('theta_nf') }, feed, 800).distance;
  return { x_static: far('own age'), x_fresh: far('fresh core') };
};

const taper: Evaluator = (n, row) => {
  const stations = slot(n('w'), [1.2e-3, 0.4e-3], 0.05);
  const [one, two, three] = (row.inputs['P'] as number[]).map((pressure) =>
    frontReach(
      { stations, form: 'slot', ageing: 'own age', theta: n('theta_nf') },
      { pressure, viscosity: n('mu'), diffusivity: n('alpha') },
      500,
    ),
  );
  return {
    x_1bar: one?.distance ?? NaN,
    filled_1bar: Number(one?.filled),
    t_2bar: two?.time ?? NaN,
    filled_2bar: Number(two?.filled),
    t_3bar: three?.time ?? NaN,
  };
};

const hesitation: Evaluator = (n) => {
  const body = roundSection(n('body_R'));
  const result = branchHesitation({
    gap: n('fin_h'),
    bodyDrag: body.drag * n('body_L'),
    bodyVolume: body.area * n('body_L'),
    flow: n('Q'),
    viscosity: n('mu'),
    diffusivity: n('alpha'),
    theta: n('theta_nf'),
  });
  return {
    dP_body: result.pressure,
    fin_reach_while_body_fills: result.creep,
    fin_freeze_time: result.freezeTime,
  };
};

const drives = (n: (name: string) => number) => ({ pressure: n('P'), viscosity: n('mu') });

walkPublished('published filling values', fill.checks as unknown as PublishedCheck[], {
  'flow.slot': slotFlow,
  'flow.tube': tubeFlow,
  'flow.ellipse': ellipseFlow,
  'flow.rect': rectangleFlow,
  'flow.fRe_': (n) => ({ fRe_exact: rectangleFriction(n('aspect')) }),
  'flow.fRe_limits': limits,
  'flow.graetz_slab': graetz('slot'),
  'flow.graetz_tube': graetz('tube'),
  'flow.graetz_mean': graetzMean,
  'flow.bulk_drop': bulkDrop,
  'flow.isothermal_front': (n) => ({ x: hotFront('slot', n('h'), drives(n), n('t')) }),
  'flow.isothermal_front_tube': (n) => ({ x: hotFront('round', n('R'), drives(n), n('t')) }),
  'visc.arrhenius': arrhenius,
  'visc.wlf': (n) => ({
    aT_ratio_150_over_175: freeVolumeRatio(n('Tg_C') + K, n('T1_C') + K, n('T2_C') + K),
  }),
  'visc.dinp': dinp,
  'freeze.K': freeze,
  'freeze.fresh_core': freshCore,
  'freeze.example': example,
  'freeze.time_static': timeStatic,
  'freeze.skin_limit': skinLimit,
  'freeze.skin_growth': skinGrowth,
  'march.L0_isothermal': isothermal,
  'march.L0_constant_flow': constantFlow,
  'march.L1_uniform': uniform,
  'march.L1_taper': taper,
  'march.hesitation': hesitation,
});
