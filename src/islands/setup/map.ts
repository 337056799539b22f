import type { FillMap } from '../../core/fill/grid/fill-map.ts';
import type { SetupData } from '../../core/fill/setup.ts';

const SVG = 'http://www.w3.org/2000/svg';
/** Shades of the map, first to last. */
const BANDS = 6;

function shape(name: string, attributes: Readonly<Record<string, string>>): SVGElement {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

/** Squares of the cells whose time falls into each band; the last list is what is left short. */
function squares({ nx, time, short, end }: FillMap): string[] {
  const paths = Array.from({ length: BANDS + 1 }, () => '');
  time.forEach((at, place) => {
    const left = short[place] === 1;
    if (!left && Number.isNaN(at)) return;
    const band = left ? BANDS : Math.min(BANDS - 1, Math.floor((at / end) * BANDS));
    paths[band] += `M${place % nx} ${-Math.floor(place / nx)}h1v1h-1z`;
  });
  return paths;
}

function hatch(): SVGElement {
  const pattern = shape('pattern', {
    ...{ id: 'setup-short', width: '2.4', height: '2.4', patternUnits: 'userSpaceOnUse' },
    patternTransform: 'rotate(45)',
  });
  pattern.append(
    shape('rect', { width: '2.4', height: '2.4', class: 'bare' }),
    shape('path', { d: 'M0 0v2.4', class: 'stroke' }),
  );
  return pattern;
}

/** The map as it filled: shades growing with time, what is left short hatched, the outline over all. */
export function mapPicture(map: FillMap, { plan }: Pick<SetupData, 'plan'>): SVGElement {
  const { nx, ny, x0, y0, cell } = map;
  const svg = shape('svg', {
    ...{ viewBox: `-1 ${-ny} ${nx + 2} ${ny + 2}`, role: 'img', class: 'setup-map' },
    'aria-label': map.short.includes(1)
      ? 'Plan of the bait; the part left short is hatched'
      : 'Plan of the bait, filled, shaded more strongly where it fills later',
  });
  const defs = shape('defs', {});
  const clip = shape('clipPath', { id: 'setup-outline' });
  const rings = plan.map((ring) => {
    const points = ring.map(
      ([x, y]) => `${((x - x0) / cell + 0.5).toFixed(2)} ${(-(y - y0) / cell + 0.5).toFixed(2)}`,
    );
    return `M${points.join('L')}z`;
  });
  clip.append(shape('path', { d: rings.join(''), 'clip-rule': 'evenodd' }));
  defs.append(clip, hatch());
  const cells = shape('g', { 'clip-path': 'url(#setup-outline)' });
  cells.append(
    ...squares(map).map((d, band) =>
      shape('path', { d, class: band === BANDS ? 'short' : `band band-${band}` }),
    ),
  );
  svg.append(defs, cells, shape('path', { d: rings.join(''), class: 'outline' }));
  return svg;
}
