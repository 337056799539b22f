import type { Brief, BriefFigure } from '../../sheet/brief.ts';

/** One line of the comparison: a figure where the sheet has it, or words, and the anchor that it stands under. */
export interface Row {
  readonly name: string;
  readonly of: (sheet: Brief) => BriefFigure | string;
  readonly anchor: string;
}

const figureRow = (name: string, key: string): Row => ({
  name,
  anchor: key,
  of: ({ figures }) => figures[key] ?? '\u2013',
});

const price = ({ mold }: Brief) => {
  const { price: stated } = mold.listing;
  return stated ? `${stated.amount.toFixed(2)} ${stated.currency}` : '\u2013';
};

/** What is compared, in the order in which buyers ask. */
export const ROWS: readonly Row[] = [
  { name: 'Bait', anchor: 'part-drawings', of: ({ bait }) => bait.family },
  figureRow('Bait length', 'bait.length'),
  figureRow('One bait', 'bait.mass'),
  { name: 'Cavities', anchor: 'how-much-plastic', of: ({ mold }) => String(mold.cavities.length) },
  figureRow('Shot, hot', 'shot.total'),
  {
    name: 'Smallest injector',
    anchor: 'which-injector',
    of: ({ injectors }) => injectors.find(({ holds }) => holds)?.injector.name ?? 'none listed',
  },
  { name: 'Shoot it cold?', anchor: 'shoot-cold', of: ({ verdicts }) => verdicts.cold.code },
  figureRow('Pour at', 'pour.nominal'),
  figureRow('Until you open it', 'heat.demoldTime'),
  figureRow('Thinnest part', 'bait.thinnestFeature'),
  {
    name: 'Hook',
    anchor: 'which-hook',
    of: ({ bestHook }) =>
      bestHook ? `${bestHook.size} ${bestHook.hook.pattern}, ${bestHook.rig}` : 'none listed fits',
  },
  { name: 'Slack line', anchor: 'float-or-sink', of: ({ verdicts }) => verdicts.float.code },
  figureRow('Baits from a quart', 'yield.quart'),
  figureRow('Clamp to', 'mold.clampForce'),
  figureRow('Mold', 'mold.blockMass'),
  { name: 'Price', anchor: 'part-downloads', of: price },
];
