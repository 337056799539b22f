/**
 * Stops of cividis from its dark to its bright end: lightness rises evenly, and people with and without a colour
 * vision deficiency see nearly the same order.
 * Source: J. Nuñez, C. Anderton, R. Renslow, PLoS ONE 13 (2018) e0199239; stops from memory, checked for evenly
 * rising lightness in the tests.
 */
const STOPS = [
  '#00224e',
  '#123570',
  '#3b496c',
  '#575d6d',
  '#707173',
  '#8a8678',
  '#a59c74',
  '#c3b369',
  '#e1cc55',
  '#fee838',
];

const channels = (hex: string) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));

/**
 * Colour of a share of the scale.
 *
 * @param share - from 0 (dark) to 1 (bright)
 * @returns `#rrggbb`
 */
export function scaleColour(share: number): string {
  const place = Math.min(1, Math.max(0, share)) * (STOPS.length - 1);
  const low = Math.min(STOPS.length - 2, Math.floor(place));
  const [from, to] = [channels(STOPS[low] ?? '#000000'), channels(STOPS[low + 1] ?? '#000000')];
  const mixed = from.map((value, index) =>
    Math.round(value + ((to[index] ?? value) - value) * (place - low)),
  );
  return `#${mixed.map((value) => value.toString(16).padStart(2, '0')).join('')}`;
}
