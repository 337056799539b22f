import { headed, named, type Draft, type Wish } from './draft.ts';

/** A compound with published and estimated values, each with its source. */
export function compoundDraft({ id, folder }: Wish): Draft {
  const text = `name: ${named(id)}
summary: ${named(id)}, values to be replaced by those of your supplier.
recipe:
  plasticiser: DINP
  phr: 350
  source: { title: Middle of the range of soft compounds, kind: estimate }
${COMPOUND}`;
  return {
    text: headed('plastisols', folder, text),
    notes: ['replace what your supplier states, and measure the rest when you can'],
  };
}

const COMPOUND = `conductivity:
  low: 0.10 W/(m·K)
  nominal: 0.14 W/(m·K)
  high: 0.17 W/(m·K)
  source: { title: 'Flexible PVC 0.12 and 0.17 W/(m·K), data sheets', kind: published }
specificHeat:
  low: 1600 J/(kg·K)
  nominal: 2000 J/(kg·K)
  high: 2400 J/(kg·K)
  source: { title: 'Between flexible PVC, 1400 J/(kg·K), and PVC-plastisol phantoms, 2650 J/(kg·K)', kind: estimate }
diffusivity:
  low: 5.0e-8 m²/s
  nominal: 7.5e-8 m²/s
  high: 1.05e-7 m²/s
  source: { title: 'Conductivity over density and specific heat of the melt', kind: estimate }
expansion:
  low: 5e-4 1/K
  nominal: 7e-4 1/K
  high: 8e-4 1/K
  source: { title: 'Flexible PVC, linear expansion of 100 to 250·10⁻⁶ 1/K, data sheets', kind: published }
viscosity:
  low: 0.5 Pa·s
  nominal: 3 Pa·s
  high: 15 Pa·s
  source: { title: 'Time a known volume through a heated tube to measure yours', kind: estimate }
activation:
  low: 25 kJ/mol
  nominal: 35 kJ/mol
  high: 60 kJ/mol
  source: { title: 'Above neat DINP between 37.8 and 100 °C, 28.2 kJ/mol from its data sheet', kind: estimate }
noFlow:
  low: 70 °C
  nominal: 100 °C
  high: 125 °C
  source: { title: 'Between the solid bait below 60 °C and gelling temperatures of 72 to 118 °C', kind: estimate }
fusion:
  low: 155 °C
  nominal: 160 °C
  high: 180 °C
  source: { title: 'Soft PVC gels are best cured at 160 to 180 °C', kind: published }
degradation:
  low: 180 °C
  nominal: 190 °C
  high: 200 °C
  source: { title: 'Stabilised PVC is processed at 160 to 210 °C, stabiliser data sheets', kind: published }
flashPoint:
  nominal: 213 °C
  source: { title: 'Producer data sheet, DINP, closed cup', kind: published }
demold:
  low: 50 °C
  nominal: 60 °C
  high: 70 °C
  source: { title: 'Measure how warm yours can be lifted', kind: estimate }
upperLimit: 185 °C
safetyDataSheet: Ask the seller of the compound for its safety data sheet before you heat it.
`;

/** A hook pattern with one size to measure. */
export function hookDraft({ id, folder }: Wish): Draft {
  const text = `name: ${named(id)}
pattern: offset worm # extra wide gap, offset worm, straight shank, jig or drop shot
rigs: [Texas]
source: { title: 'Typical sizes of hooks of this form', kind: estimate }
sizes:
  - { size: '3/0', gape: 10.4 mm, length: 50 mm, bite: 11.5 mm, wire: 1.05 mm, mass: 0.6 g }
`;
  return { text: headed('hooks', folder, text), notes: ['measure yours and change the millimetres'] };
}

/** A hand injector of four fluid ounces. */
export function injectorDraft({ id, folder }: Wish): Draft {
  const text = `name: ${named(id)}
capacity: 4 fl oz
piston: 38 mm
source: { title: 'Typical of hand injectors of this capacity', kind: estimate }
`;
  return { text: headed('injectors', folder, text), notes: ['measure yours and change the numbers'] };
}

/** The shop: who publishes the catalogue. */
export function shopDraft({ id, folder }: Wish): Draft {
  const text = `name: ${named(id)}
site: https://example.com
contact: { email: hello@example.com }
units: us # the units shown first: us or metric
`;
  return {
    text: headed('shop', folder, text),
    notes: ['put in your own address: share cards, feeds and QR codes are built from it'],
  };
}
