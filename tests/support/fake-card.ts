import type { CardFacts } from '../../src/card/facts.ts';
import { grub } from '../drawing/shapes.ts';

/** Facts of a share card, from no sheet. */
export const fakeCard = (change: Partial<CardFacts> = {}): CardFacts => ({
  shop: 'Thistledown Tooling',
  name: 'Curl-tail grub, four cavities',
  stock: 'TT-GRUB-4',
  detail: '4 cavities · rev. C',
  plan: grub().plan,
  across: grub().across,
  units: 'us',
  figures: [
    { label: 'Bait length', value: '4.20 in', note: '106.7 mm' },
    { label: 'Shot, hot', value: '1.62 fl oz', note: '1.51 to 1.74 fl oz' },
    { label: 'Pour', value: '318 to 345 °F', note: '159 to 174 °C' },
    { label: 'Cold mold', value: 'Likely fills cold', note: 'computed from the shape' },
  ],
  invented: true,
  ...change,
});
