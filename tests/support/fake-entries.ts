import { baitSchema } from '../../src/schema/bait.ts';
import { hookSchema } from '../../src/schema/hook.ts';
import { injectorSchema } from '../../src/schema/injector.ts';
import { moldSchema } from '../../src/schema/mold.ts';
import { plastisolSchema } from '../../src/schema/plastisol.ts';
import { shopSchema } from '../../src/schema/shop.ts';

// Entries of the fake sheet, written as people write them and read by the real schemas.

const source = { title: 'Invented for a test', kind: 'invented for the demo' };
const stated = (nominal: string, low?: string, high?: string) => ({ nominal, low, high, source });

export const shop = shopSchema.parse({
  name: 'Test Tooling',
  tagline: 'Molds that exist only in tests',
  site: 'https://molds.example.com/',
  contact: { email: 'bench@example.com' },
  units: 'us',
  invented: true,
});

export const bait = {
  id: 'capsule',
  ...baitSchema.parse({
    name: 'Capsule 4',
    family: 'curl-tail grub',
    summary: 'A capsule with a tail, for tests.',
    lies: 'on its belly',
    rigs: ['Texas', 'jig head'],
    plastisol: 'medium',
    revisions: ['a', 'b'].map((id) => ({
      id,
      date: id === 'a' ? '2026-01-10' : '2026-03-14',
      note:
        id === 'a' ? 'First cut.' : 'Tail thinned by ten thousandths so that it moves at a slow retrieve.',
      sections: {
        stations: ['0 mm', '50 mm', '100 mm'].map((at) => ({
          at,
          width: '10 mm',
          above: '5 mm',
          below: '5 mm',
        })),
      },
    })),
  }),
};

export const mold = {
  id: 'capsule-4',
  ...moldSchema.parse({
    name: 'Capsule 4, four cavities',
    stock: 'TT-CAP-4',
    status: 'final',
    released: '2026-04-01',
    bait: 'capsule',
    cavities: Array.from({ length: 4 }, () => ({ revision: 'b' })),
    block: { length: '150 mm', width: '110 mm', thickness: '40 mm', alloy: '6061-T6' },
    sprue: { mouth: '10 mm', end: '6 mm', length: '20 mm' },
    runner: { diameter: '6 mm', length: '90 mm' },
    gate: { width: '4 mm', depth: '2 mm', length: '3 mm' },
    vents: [
      { tier: 'edge', depth: '0.0015 in', width: '6 mm', land: '3 mm', count: 4 },
      { tier: 'outlet', depth: '0.02 in', width: '6 mm', land: '12 mm', count: 2 },
    ],
    pins: { count: 2, diameter: '6 mm' },
    clamping: 'Two toggle clamps, one over each pair of cavities.',
    listing: {
      price: { amount: 89.5, currency: 'USD' },
      buy: 'https://molds.example.com/order',
      leadTime: '3 wk',
      inTheBox: ['Both halves, deburred', 'Two alignment pins'],
    },
    prose: 'Four capsules from one sprue in the middle. Open it at the end with the pins.',
  }),
};

export const plastisol = {
  id: 'medium',
  ...plastisolSchema.parse({
    name: 'Medium compound',
    summary: 'The everyday compound for tails that swim.',
    recipe: { plasticiser: 'DINP', phr: 400, source },
    density: stated('1.02 g/cm3', '1.00 g/cm3', '1.04 g/cm3'),
    hardness: stated('32 00', '28 00', '36 00'),
    conductivity: stated('0.14 W/(m·K)'),
    specificHeat: stated('2000 J/(kg·K)'),
    diffusivity: stated('7.5e-8 m2/s'),
    expansion: stated('7e-4 1/K'),
    viscosity: stated('3 Pa·s'),
    activation: stated('35 kJ/mol'),
    noFlow: stated('100 °C'),
    fusion: stated('165 °C'),
    degradation: stated('190 °C'),
    flashPoint: stated('213 °C'),
    demold: stated('60 °C'),
    upperLimit: '185 °C',
    safetyDataSheet: 'Ask the compound supplier for the sheet of the lot on the bottle.',
  }),
};

export const hook = {
  id: 'wide',
  ...hookSchema.parse({
    name: 'Extra wide gap hook',
    pattern: 'extra wide gap',
    rigs: ['Texas'],
    source,
    sizes: ['2/0', '3/0', '4/0'].map((size, step) => ({
      size,
      gape: `${11 + 2 * step} mm`,
      length: `${45 + 5 * step} mm`,
      bite: '10 mm',
      wire: '1.1 mm',
      mass: '1.4 g',
    })),
  }),
};

export const injector = {
  id: 'four-ounce',
  ...injectorSchema.parse({ name: '4 fl oz hand injector', capacity: '4 fl oz', piston: '38 mm', source }),
};
