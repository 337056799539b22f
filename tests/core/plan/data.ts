import { band } from '../../../src/core/quantity/band.ts';
import { toSI } from '../../../src/core/quantity/units.ts';
import type { PlanData } from '../../../src/core/plan/plan-state.ts';
import type { PlanMold } from '../../../src/core/plan/session-parts.ts';

/** Four cavities of 6 mL and channels of 4.5 mL: 28.5 mL a shot with no top-off at nominal. */
export const FOUR: PlanMold = {
  id: 'four',
  name: 'Four',
  cavities: 4,
  shot: band(28.5e-6, 28e-6, 30e-6),
  channels: 4.5e-6,
  closed: band(90, 60, 150),
  handling: band(60, 30, 120),
  pause: 30,
  warmUps: 0,
  preheat: false,
};

export const TWO: PlanMold = {
  ...FOUR,
  id: 'two',
  name: 'Two',
  cavities: 2,
  shot: band(40e-6, 39e-6, 42e-6),
  channels: 6e-6,
  closed: band(180, 120, 300),
  pause: 0,
  warmUps: 2,
  split: 0.25,
  gate: 'nose',
};

export const DATA: PlanData = {
  molds: [FOUR, TWO],
  compounds: [
    {
      id: 'medium',
      name: 'Medium',
      density: band(1040, 1020, 1060),
      shore00: band(40, 30, 50),
      pour: { low: 433, nominal: 440, high: 453 },
    },
    {
      id: 'firm',
      name: 'Firm',
      density: band(1070, 1050, 1090),
      shore00: band(60, 50, 70),
      pour: { low: 433, nominal: 440, high: 453 },
    },
  ],
  injectors: [
    { id: 'big', name: 'Big', capacity: toSI(4, '[foz_us]') },
    { id: 'small', name: 'Small', capacity: toSI(1, '[foz_us]') },
  ],
  start: { compound: 'medium', injector: 'big' },
};
