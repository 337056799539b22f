import vent from '../../published/vent.json' with { type: 'json' };
import { walkPublished, type Evaluator, type PublishedCheck } from '../../published/published.ts';
import { slipGain, sutherlandViscosity, GAS_CONSTANT_AIR } from '../../../src/core/vent/air.ts';
import { flashLength, similarDepthRatio, ventFreezeTime } from '../../../src/core/vent/flash.ts';
import {
  airResistance,
  chokedMassFlow,
  CRITICAL_RATIO,
  isothermalMassFlow,
  ventWidthNeeded,
} from '../../../src/core/vent/slot-flow.ts';
import { parallelResistance } from '../../../src/core/vent/tiers.ts';
import { freezeConstant, freezeReach } from '../../../src/core/fill/freeze-constant.ts';

const K = 273.15;

const incompressible: Evaluator = (n) => {
  const resistance = airResistance({ width: n('w'), depth: n('d'), land: n('L') }, n('T_C') + K);
  return { resistance, Q: n('dP') / resistance };
};

const isothermal: Evaluator = (n) => {
  const slot = { width: n('w'), depth: n('d'), land: n('L') };
  const mdot = isothermalMassFlow(slot, { inside: n('P1'), outside: n('P2'), temperature: n('T_K') });
  return { mdot, Q_at_outlet: (mdot * GAS_CONSTANT_AIR * n('T_K')) / n('P2') };
};

const choked: Evaluator = (n) => {
  const mass = chokedMassFlow(n('area'), n('P0'), n('T0'));
  return { p_crit_ratio: CRITICAL_RATIO, G: mass / n('area'), mdot_max: mass };
};

const parallel: Evaluator = (n) => {
  const each = airResistance({ width: n('w'), depth: n('d'), land: n('L') }, n('T_C') + K);
  const total = parallelResistance(Array.from({ length: n('n') }, () => each));
  return { R_each: each, R_total: total, backpressure: (total * n('V')) / n('t_fill') };
};

const series: Evaluator = (n) => {
  const land = airResistance({ width: 6e-3, depth: 50e-6, land: 1.5e-3 }, n('T_C') + K);
  const relief = airResistance({ width: 6e-3, depth: 0.5e-3, land: 20e-3 }, n('T_C') + K);
  return { R_land: land, R_relief: relief, R_total: land + relief };
};

const size: Evaluator = (n) => ({
  total_width: ventWidthNeeded(
    n('V') / n('t_fill'),
    n('dP_allow'),
    { depth: n('d'), land: n('L') },
    n('T_C') + K,
  ),
});

const flash: Evaluator = (n) => {
  const melt = {
    pressure: n('P'),
    viscosity: n('mu'),
    diffusivity: n('alpha'),
    theta: n('theta_nf'),
    contact: n('h_c'),
    heatCapacity: n('rho') * n('c'),
  };
  const { conduction, contact } = ventFreezeTime(n('d'), melt);
  return {
    t_freeze_conduction: conduction,
    t_freeze_contact: contact,
    x_conduction: freezeReach(freezeConstant('fresh core', melt.theta), n('d'), melt),
    x_with_contact: flashLength(n('d'), melt),
  };
};

const similarity: Evaluator = (n) => ({
  depth_ratio: similarDepthRatio(
    { pressure: n('P1'), viscosity: n('mu1') },
    { pressure: n('P2'), viscosity: n('mu2') },
  ),
});

walkPublished('published vent values', vent.checks as unknown as PublishedCheck[], {
  'air.mu': (n) => ({ mu: sutherlandViscosity(n('T_C') + K) }),
  'vent.slot_incompressible': incompressible,
  'vent.slot_isothermal': isothermal,
  'vent.choked': choked,
  'vent.parallel': parallel,
  'vent.series': series,
  'vent.size': size,
  'vent.flash': flash,
  'vent.similarity': similarity,
  'vent.knudsen': (n) => ({ Kn: n('mfp') / n('d'), flow_factor: slipGain(n('d'), n('mfp')) }),
});
