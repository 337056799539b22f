import { cutCavity } from '../../src/core/fill/grid/cavity.ts';
import type { PartDrive, ReserveTable } from '../../src/core/fill/grid/reserve-table.ts';
import { shotFill } from '../../src/core/fill/grid/shot-fill.ts';
import { band } from '../../src/core/quantity/band.ts';
import { fillPicture } from '../../src/sheet/fill-grid.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';
import { mapOf } from '../core/fill/grid/maps.ts';

const PART: PartDrive = {
  ...{ name: 'tail', drive: [-21, -21, -21], cooling: 0.2, flow: [-0.1, 0.05], gap: [-0.1, 0.3] },
  ...{ core: 0.1, air: 0.01, easier: 0 },
};

const TABLE: ReserveTable = {
  ...{ thetas: [0.25, 0.5, 0.8], stiffening: 1.5, flow: 60, gaps: [-3e-5, 1e-4], gateAge: -0.2 },
  scale: { thetas: [0.02, 0.5, 0.97], squares: [-2, -5.4, -8] },
  parts: [PART],
};

const SHOT = {
  ...{ pressure: 2e5, diffusivity: 7.5e-8, noFlow: 373, melt: 433, flow: 4e-6, gap: 0, closing: 0 },
  viscosity: { reference: 3, at: 448.15, activation: 35000 },
};

const FEED = { stretches: [{ drag: 2e9, thickness: 6e-3, round: true }], airResistance: 0 };

/** A block that has warmed by so much [K]. */
const warmed = (rise: number) => band(295 + rise, 293 + 0.7 * rise, 298 + 1.4 * rise);

/** Filling of a capsule lying along x, in few and large cells. */
export function fakeFilling(length: number, radius: number): Sheet['filling'] {
  const cell = 1.25e-3;
  const map = mapOf({ nx: Math.round(length / cell), ny: Math.round((2 * radius) / cell), cell }, (_, y) =>
    Math.max(0.5e-3, 2 * Math.sqrt(Math.max(0, radius * radius - y * y))),
  );
  const gate = [map.nx * (map.ny >> 1)];
  const cavity = cutCavity(map, gate);
  const run = (wall: number, reference: number) =>
    fillPicture(shotFill(cavity, FEED, { ...SHOT, wall, viscosity: { ...SHOT.viscosity, reference } }));
  const pours = [420, 430, 440, 450, 460];
  const molds = [290, 310, 330, 350];
  const nominal = molds.flatMap((mold) => pours.map((pour) => (pour - 320) / (360 - mold / 1.2)));
  return {
    model: {
      ...{ grid: { map, gate }, table: TABLE, time: band(1.6, 0.9, 3.2) },
      ...{ cold: run(300, 3), warm: run(332, 3), adverse: run(300, 3000) },
    },
    window: { pours, molds, nominal, adverse: nominal.map((reserve) => reserve / 2.5) },
    warmUp: {
      pace: band(150, 100, 260),
      before: Array.from({ length: 21 }, (_, n) => warmed(40 * (1 - 0.9 ** n))),
      steady: 338,
    },
    setup: {
      ...{ title: 'Fake mold', feed: FEED, volume: 5e-6, moldEffusivity: 20000 },
      compounds: [],
      injectors: [],
      bands: { gap: band(0), push: band(2, 1, 4), loss: band(5, 3, 15) },
      cycle: {
        ...{ shotMass: 0.02, shotHeat: 2000, blockMass: 1.8, blockHeat: 896, melt: 433, start: 295 },
        ...{ ambient: 295, loss: 7, surface: 0.05, pace: 150 },
      },
      own: { compound: 'medium', injector: 'four-ounce' },
    },
    first: { mold: band(295, 288, 300), warmed: false, short: [], shortAtWorst: [], needed: 295 },
    molds: { cold: 295, warm: 328 },
    gains: [],
    widest: [{ name: 'viscosity', share: 0.7 }],
  };
}
