// Every number that a function does not take is refused by name, and nothing is worked out from it. Each row states a call
// that is right; its numbers are then put out of order one by one.
import {
  beforeShotTemperature,
  coolDownTime,
  cyclesToShare,
  firstShotRise,
  paceForPeak,
  steadyCycle,
} from '../../../src/core/heat/block-warming.ts';
import { cauchyNumber, bendingSpeed } from '../../../src/core/action/bending.ts';
import { addedMass, forcingFrequency } from '../../../src/core/action/beat.ts';
import { neutralState } from '../../../src/core/action/flutter.ts';
import { plasticisedModulus, equivalentPhr } from '../../../src/core/hardness/compound-hardness.ts';
import {
  shore00Modulus,
  shore00ModulusHertz,
  shoreAModulusGent,
  shoreAModulusRuess,
} from '../../../src/core/hardness/shore-modulus.ts';
import { centreExcess, meanExcess } from '../../../src/core/heat/conduction-series.ts';
import { firstTerm } from '../../../src/core/heat/contact-coefficient.ts';
import {
  centreCoolingTime,
  ellipseCoolingTime,
  ellipseEigenvalue,
  meanCoolingTime,
  rectangleCoolingTime,
  sectionCoolingTime,
} from '../../../src/core/heat/cooling-time.ts';
import { neumannRoot, skinDepth, stefanRoot } from '../../../src/core/heat/solidification.ts';
import { nusseltChurchillChu, radiationCoefficient } from '../../../src/core/heat/surface-loss.ts';
import { logRuleModulus, powerRuleModulus } from '../../../src/core/plan/blend.ts';
import { rotation } from '../../../src/core/plan/rotation.ts';
import { freshWaterDensity, seaWaterDensity, waterViscosity } from '../../../src/core/rigging/water.ts';
import { effusivity } from '../../../src/core/heat/contact.ts';
import { metalTouchThreshold, skinBurnThresholds } from '../../../src/core/heat/touch.ts';
import { blockMass, blockSurface, metalVolume, shippingMass } from '../../../src/core/mold/block.ts';
import {
  clampForce,
  fillingForce,
  plungerPressure,
  powerScrewForce,
  screwForce,
  toggleMultiplier,
} from '../../../src/core/mold/clamp.ts';
import { band } from '../../../src/core/quantity/band.ts';
import {
  axialCylinderDrag,
  broadsideCylinderDrag,
  cylinderDragSuckerBrauer,
  noseFirstDrag,
  sphereDragClift,
  sphereDragSchillerNaumann,
} from '../../../src/core/rigging/drag.ts';
import {
  noseFirstSpeed,
  settlingSpeed,
  sinkSpeed,
  submergedWeight,
  terminalSpeed,
} from '../../../src/core/rigging/sink.ts';
import { batchFor, sprueShare, yieldOf } from '../../../src/core/shot/batch.ts';
import { channelVolume, gateVolume, runnerVolume, sprueVolume } from '../../../src/core/shot/channels.ts';
import {
  compoundDensity,
  fillerMassFraction,
  filledDensity,
  mixtureDensity,
  resinMassFraction,
  resinVolumeFraction,
} from '../../../src/core/shot/compound-density.ts';
import { gateShutDrop, topOffShare, volumetricContraction } from '../../../src/core/shot/contraction.ts';
import { wholeShots } from '../../../src/core/shot/injector-fit.ts';
import { baitMass, shotVolume } from '../../../src/core/shot/shot-volume.ts';
import { sutherlandViscosity } from '../../../src/core/vent/air.ts';
import { flashThroughDepth, ventFreezeTime } from '../../../src/core/vent/flash.ts';
import { airResistance, chokedMassFlow, isothermalMassFlow } from '../../../src/core/vent/slot-flow.ts';
import { backPressure } from '../../../src/core/vent/tiers.ts';
import { refusesNumbers, type Places, type Row } from '../../support/refusals.ts';

const slot = { depth: 4e-5, width: 5e-3, land: 2e-3 };
const air = { inside: 110_000, outside: 101_325, temperature: 400 };
const block = { length: 0.15, width: 0.08, thickness: 0.03 };
const sizes: Places = { '0.length': 'positive', '0.width': 'positive', '0.thickness': 'positive' };
const gate = { width: 4e-3, depth: 3e-3, length: 4e-3 };
const sprue = { mouth: 0.01, end: 0.006, length: 0.03 };
const runner = { diameter: 0.006, length: 0.05 };
const melt = {
  pressure: 2e5,
  viscosity: 3,
  diffusivity: 7.5e-8,
  theta: 0.5,
  contact: 2500,
  heatCapacity: 1.9e6,
};
const sinking = { volume: 4e-6, length: 0.08, area: 8e-4, section: 1e-4, density: band(1040), ballast: [] };
const share = { cavities: 2, shotMass: band(0.02), baitMass: band(0.007) };
const cycle = {
  shotMass: 0.02,
  shotHeat: 2000,
  blockMass: 1.2,
  blockHeat: 896,
  melt: 448,
  start: 295,
  ambient: 295,
  loss: 8,
  surface: 0.04,
  pace: 240,
};
const cycles: Places = Object.fromEntries(
  ['shotMass', 'shotHeat', 'blockMass', 'blockHeat'].map((key) => [`0.${key}`, 'positive']),
);
const fall = { weight: 0.01, area: 1e-3, diameter: 0.01, water: 998, viscosity: 1e-3 };
const falls: Places = Object.fromEntries(Object.keys(fall).map((key) => [`0.${key}`, 'positive']));
const temperatures = { pour: 448, noFlow: 373, mold: 313 };
const sections = { gateWidth: 4e-3, gateDepth: 3e-3, bodyDiameter: 0.01 };
const thread = { meanDiameter: 9e-3, lead: 1.5e-3, friction: 0.15 };
const cooling = { melt: 448, mold: 313, eject: 333, diffusivity: 7.5e-8 };
const cools: Places = { '1.diffusivity': 'positive', '1.eject': [313.001, 447.999] };
const shifted = (places: Places, from: number, to: number): Places =>
  Object.fromEntries(
    Object.entries(places).map(([place, one]) => [place.replace(String(from), String(to)), one]),
  );
const bent = { limpness: 5e5, modulus: 2e5, water: 998 };
const bends: Places = { '0.limpness': 'positive', '0.modulus': 'positive', '0.water': 'positive' };
const dinp = { plasticiser: 'DINP', phr: 300, salt: 0.1, microballoons: 0.01 };

const ROWS: readonly Row[] = [
  ['effusivity', effusivity, [0.14, 1000, 2000], { 0: 'positive', 1: 'positive', 2: 'positive' }],
  ['metalTouchThreshold', metalTouchThreshold, [60], { 0: [1, 28_800] }],
  ['skinBurnThresholds', skinBurnThresholds, [60], { 0: [1, 600] }],
  ['firstShotRise', firstShotRise, [cycle], cycles],
  [
    'steadyCycle',
    steadyCycle,
    [cycle],
    { ...cycles, '0.pace': 'positive', '0.loss': 'positive', '0.surface': 'positive' },
  ],
  ['beforeShotTemperature', beforeShotTemperature, [cycle, 3], { 1: [0, 1e6] }],
  ['cyclesToShare', cyclesToShare, [cycle, 0.9], { 1: [0, 1 - 1e-12] }],
  ['paceForPeak', paceForPeak, [cycle, 340], { ...cycles, '0.loss': 'positive' }],
  ['coolDownTime', coolDownTime, [350, 320, 295, 2000], { 3: 'positive' }],
  ['metalVolume', metalVolume, [block, 1e-5], { ...sizes, 1: 'not negative' }],
  ['blockMass', blockMass, [block, 1e-5, 2700], { ...sizes, 2: 'positive' }],
  ['blockSurface', blockSurface, [block], sizes],
  ['shippingMass', shippingMass, [1.2], { 0: 'positive' }],
  ['plungerPressure', plungerPressure, [110, 0.038], { 0: 'positive', 1: 'positive' }],
  [
    'clampForce',
    clampForce,
    [2e5, 2e-3, 1.5],
    { 0: 'not negative', 1: 'not negative', 2: [1, Number.MAX_VALUE] },
  ],
  ['fillingForce', fillingForce, [2e5, 2e-3], { 0: 'not negative', 1: 'not negative' }],
  ['screwForce', screwForce, [5, 0.01, 0.2], { 0: 'positive', 1: 'positive', 2: 'positive' }],
  [
    'powerScrewForce',
    powerScrewForce,
    [5, thread],
    { 0: 'positive', '1.meanDiameter': 'positive', '1.lead': 'positive', '1.friction': 'positive' },
  ],
  ['toggleMultiplier', toggleMultiplier, [0.1], { 0: [Number.MIN_VALUE, Math.PI / 2 - 1e-15] }],
  ['sphereDragSchillerNaumann', sphereDragSchillerNaumann, [100], { 0: [Number.MIN_VALUE, 1000] }],
  ['sphereDragClift', sphereDragClift, [100], { 0: [Number.MIN_VALUE, 3.38e5] }],
  ['cylinderDragSuckerBrauer', cylinderDragSuckerBrauer, [100], { 0: [1e-4, 2e5] }],
  ['broadsideCylinderDrag', broadsideCylinderDrag, [5], { 0: [1, Number.MAX_VALUE] }],
  ['axialCylinderDrag', axialCylinderDrag, [5], { 0: [1, 7] }],
  ['noseFirstDrag', noseFirstDrag, [5], { 0: [1, Number.MAX_VALUE] }],
  [
    'submergedWeight',
    submergedWeight,
    [{ volume: 4e-6, density: 1040, ballast: [{ mass: 1e-3, density: 7850 }] }, 998],
    {
      1: 'positive',
      '0.volume': 'positive',
      '0.density': 'positive',
      '0.ballast.0.mass': 'not negative',
      '0.ballast.0.density': 'positive',
    },
  ],
  [
    'terminalSpeed',
    terminalSpeed,
    [0.01, 1e-3, 998, 1],
    { 0: 'not negative', 1: 'positive', 2: 'positive', 3: 'positive' },
  ],
  ['settlingSpeed', settlingSpeed, [fall, () => 1], falls],
  [
    'sinkSpeed',
    sinkSpeed,
    [sinking, { density: 998, viscosity: 1e-3 }],
    { '0.length': 'positive', '0.area': 'positive' },
  ],
  [
    'noseFirstSpeed',
    noseFirstSpeed,
    [sinking, { density: 998 }],
    { '0.length': 'positive', '0.section': 'positive' },
  ],
  ['sprueShare', sprueShare, [1e-6, band(2e-5)], { 0: [0, 2e-5 * (1 - 1e-12)] }],
  [
    'batchFor',
    batchFor,
    [100, share, band(1040), 0.1],
    { 0: 'whole', '1.cavities': 'whole', 3: 'not negative' },
  ],
  [
    'yieldOf',
    yieldOf,
    [1e-3, share, band(1040), 0.1],
    { 0: 'positive', '1.cavities': 'whole', 3: 'not negative' },
  ],
  [
    'sprueVolume',
    sprueVolume,
    [sprue],
    { '0.mouth': 'positive', '0.end': 'positive', '0.length': 'positive' },
  ],
  ['runnerVolume', runnerVolume, [runner], { '0.diameter': 'positive', '0.length': 'positive' }],
  [
    'gateVolume',
    gateVolume,
    [gate],
    { '0.width': 'positive', '0.depth': 'positive', '0.length': 'positive' },
  ],
  ['channelVolume', channelVolume, [{ sprue, runner, gate, cavities: 2 }], { '0.cavities': 'whole' }],
  ['mixtureDensity', mixtureDensity, [[{ fraction: 1, density: 1000 }]], { '0.0.density': 'positive' }],
  ['resinMassFraction', resinMassFraction, [300], { 0: 'not negative' }],
  ['resinVolumeFraction', resinVolumeFraction, [300, 972], { 0: 'not negative', 1: 'positive' }],
  [
    'compoundDensity',
    compoundDensity,
    [dinp],
    { '0.salt': [0, 0.9899999], '0.microballoons': [0, 0.8999999] },
  ],
  [
    'fillerMassFraction',
    fillerMassFraction,
    [1030, 2165, 1100],
    { 0: 'positive', 1: 'positive', 2: [1030, 2165] },
  ],
  ['filledDensity', filledDensity, [band(1030), band(2165), 0.2], { 2: [0, 1 - 1e-12] }],
  ['volumetricContraction', volumetricContraction, [7e-4, 70], { 0: 'not negative', 1: 'not negative' }],
  [
    'gateShutDrop',
    gateShutDrop,
    [temperatures, sections],
    {
      '1.gateWidth': 'positive',
      '1.gateDepth': 'positive',
      '1.bodyDiameter': 'positive',
      '0.noFlow': [313.001, 447.999],
    },
  ],
  ['topOffShare', topOffShare, [band(7e-4), 48, 75], { 1: [0, 75] }],
  ['wholeShots', wholeShots, [band(2e-5), 6e-5, 0.1], { 1: 'positive', 2: 'not negative' }],
  [
    'shotVolume',
    shotVolume,
    [{ cavity: 7e-6, cavities: 2, runner: 3e-6, topOffShare: band(0.03) }],
    {
      '0.cavity': 'positive',
      '0.cavities': 'whole',
      '0.runner': 'not negative',
    },
  ],
  ['baitMass', baitMass, [7e-6, band(1040), band(0.03)], { 0: 'positive' }],
  ['sutherlandViscosity', sutherlandViscosity, [400], { 0: 'positive' }],
  [
    'ventFreezeTime',
    ventFreezeTime,
    [4e-5, melt],
    {
      0: 'positive',
      '1.theta': [1e-9, 1 - 1e-9],
      '1.diffusivity': 'positive',
      '1.heatCapacity': 'positive',
      '1.contact': 'positive',
    },
  ],
  ['flashThroughDepth', flashThroughDepth, [2e-3, melt], { 0: 'positive' }],
  [
    'airResistance',
    airResistance,
    [slot, 400],
    { '0.depth': 'positive', '0.width': 'positive', '0.land': 'positive' },
  ],
  [
    'isothermalMassFlow',
    isothermalMassFlow,
    [slot, air],
    { '0.depth': 'positive', '1.inside': 'positive', '1.outside': 'positive' },
  ],
  ['chokedMassFlow', chokedMassFlow, [1e-6, 1e5, 300], { 0: 'positive', 1: 'positive', 2: 'positive' }],
  [
    'centreCoolingTime',
    centreCoolingTime,
    ['slab', 0.01, cooling],
    { 1: 'positive', ...shifted(cools, 1, 2) },
  ],
  [
    'meanCoolingTime',
    meanCoolingTime,
    ['slab', 0.01, cooling],
    { 1: 'positive', '2.diffusivity': 'positive' },
  ],
  [
    'rectangleCoolingTime',
    rectangleCoolingTime,
    [0.01, 0.02, cooling],
    { 0: 'positive', 1: 'positive', ...shifted(cools, 1, 2) },
  ],
  ['ellipseEigenvalue', ellipseEigenvalue, [0.5], { 0: 'positive' }],
  [
    'ellipseCoolingTime',
    ellipseCoolingTime,
    [0.01, 0.02, cooling],
    { 0: 'positive', 1: 'positive', ...shifted(cools, 1, 2) },
  ],
  ['sectionCoolingTime', sectionCoolingTime, [0.01, 2e-4, cooling], { 0: 'positive', 1: 'positive' }],
  ['centreExcess', centreExcess, ['cylinder', 0.1], { 1: 'positive' }],
  ['meanExcess', meanExcess, ['cylinder', 0.1], { 1: 'positive' }],
  ['firstTerm', firstTerm, ['slab', 2], { 1: 'positive' }],
  ['stefanRoot', stefanRoot, [1], { 0: 'positive' }],
  ['neumannRoot', neumannRoot, [1, 0.5, 1], { 0: 'positive', 1: 'not negative', 2: 'positive' }],
  ['skinDepth', skinDepth, [0.5, 7.5e-8, 2], { 0: [0, 1 - 1e-12], 1: 'positive', 2: 'positive' }],
  ['nusseltChurchillChu', nusseltChurchillChu, [1e6, 0.707], { 0: 'positive', 1: 'positive' }],
  ['radiationCoefficient', radiationCoefficient, [320, 295, 0.8], { 0: 'positive', 1: 'positive' }],
  ['plasticisedModulus', plasticisedModulus, [100], { 0: [45, 700] }],
  ['equivalentPhr', equivalentPhr, ['DINP', 100], { 1: 'positive' }],
  ['shoreAModulusGent', shoreAModulusGent, [40], { 0: [0, 80] }],
  ['shoreAModulusRuess', shoreAModulusRuess, [40], { 0: [0, 80] }],
  ['shore00ModulusHertz', shore00ModulusHertz, [40], { 0: [0, 70] }],
  ['shore00Modulus', shore00Modulus, [40], { 0: [0, 98] }],
  [
    'powerRuleModulus',
    powerRuleModulus,
    [0.5, 1e5, 2e5, 3],
    { 0: [0, 1], 1: 'not negative', 2: 'not negative', 3: 'positive' },
  ],
  ['logRuleModulus', logRuleModulus, [0.5, 1e5, 2e5], { 0: [0, 1], 1: 'positive', 2: 'positive' }],
  [
    'rotation',
    rotation,
    [[{ id: 'a', shots: 3, handling: 40, rest: 90 }]],
    { '0.0.shots': [0, 20_000], '0.0.handling': 'positive', '0.0.rest': 'not negative' },
  ],
  ['freshWaterDensity', freshWaterDensity, [293.15], { 0: [273.15, 423.15] }],
  ['seaWaterDensity', seaWaterDensity, [293.15, 35], { 0: [273.15, 313.15], 1: [0, 42] }],
  ['waterViscosity', waterViscosity, [293.15], { 0: [273.15, 373.15] }],
  ['addedMass', addedMass, [0.006, 998], { 0: 'positive', 1: 'positive' }],
  ['forcingFrequency', forcingFrequency, [0.4, 0.01], { 0: 'not negative', 1: 'positive' }],
  ['cauchyNumber', cauchyNumber, [bent, 0.4], { ...bends, 1: 'not negative' }],
  ['bendingSpeed', bendingSpeed, [bent, 8], { ...bends, 1: 'positive' }],
  ['neutralState', neutralState, [0.5], { 0: [0.05, 0.98] }],
  ['backPressure', backPressure, [1e8, 1e-5], { 0: 'not negative', 1: 'not negative' }],
];

refusesNumbers(ROWS);
