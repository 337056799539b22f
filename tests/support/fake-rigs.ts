import { band, within } from '../../src/core/quantity/band.ts';
import type { Figure } from '../../src/core/quantity/figure.ts';
import type { Outline } from '../../src/core/section/geometry.ts';
import type { HookFit, Sheet } from '../../src/sheet/sheet.ts';

/** One rig of the fake sheet. */
export const fakeRigs = (best: HookFit, point: Figure, section: Outline): Sheet['rigs'] => [
  {
    rig: 'Texas',
    best,
    from: '2/0',
    to: '4/0',
    below: 'The point hardly clears the squeezed body.',
    above: null,
    steps: ['In at the tip of the nose, out of the belly.', 'Lay the hook along the bait first.'],
    stations: [point],
    section,
    form: {
      lie: 'weedless',
      line: [
        [0, 0.001],
        [0.01, -0.005],
        [0.04, -0.005],
        [0.05, 0.002],
        [0.04, 0.008],
      ],
      eye: { at: [0, 0.001], radius: 0.0018 },
      point: [0.04, 0.008],
      foot: [0.04, -0.005],
      bend: [0.05, 0.002],
      strain: 0,
    },
  },
];

/** What the fake bait does let go. */
export const FLOATING: Sheet['floating'] = [
  {
    name: 'Medium compound',
    density: { value: 1.02, low: 1, high: 1.04, unit: 'g/cm3' },
    cells: [
      { water: 'fresh', load: 'bare', code: 'may float or sink', speed: null },
      {
        water: 'salt',
        load: 'hooked',
        code: 'sinks',
        speed: { value: 12, low: 10, high: 14, unit: 'cm/s' },
      },
    ],
  },
];

/** What the planner knows of the fake mold. */
export const fakePlan = (id: string, name: string): Sheet['plan'] => ({
  id,
  name,
  cavities: 4,
  shot: within(38.2e-6, 0.04),
  channels: 4.2e-6,
  closed: band(104, 74, 157),
  handling: band(60, 30, 120),
  pause: 20,
  warmUps: 2,
  preheat: false,
});
