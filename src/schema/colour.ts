/** Plastic colours of a rendered picture: plain words of the trade. */
export const COLOURS = [
  'white',
  'pearl',
  'smoke',
  'black',
  'chartreuse',
  'pumpkin',
  'green pumpkin',
  'watermelon',
  'amber',
  'cinnamon',
  'red',
  'pink',
  'purple',
  'blue',
] as const;

/** Name of a plastic colour. */
export type Colour = (typeof COLOURS)[number];
