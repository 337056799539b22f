import { band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import { baitMass } from '../core/shot/shot-volume.ts';
import { DENSITY_SOURCES, HOT_RATIO, HOT_RATIO_SOURCE } from '../core/shot/compound-density.ts';
import { balanceFigures } from './balance-figures.ts';
import type { Case } from './case.ts';
import { GAP_TOLERANCE } from './practice.ts';
import { SOURCES } from './sources.ts';
import { featureLabel } from './words.ts';

const CUT = 'Measured on the solid that the cavity is cut from; a cured bait is a little smaller.';

/** Sizes of the bait as swum: a bait that lies on its side in the mold has its height in the parting plane. */
export function swumSizes({ bait, geometry: { box } }: Pick<Case, 'bait' | 'geometry'>) {
  const [length, across, out] = [0, 1, 2].map((axis) => (box.max[axis] ?? 0) - (box.min[axis] ?? 0)) as [
    number,
    number,
    number,
  ];
  return bait.lies === 'on its side'
    ? { length, width: out, height: across }
    : { length, width: across, height: out };
}

function measured(key: string, label: string, unit: Figure['unit'], si: number, basis: string): Figure {
  return figure({ key, label, unit, basis: `${basis} ${CUT}`, sources: [SOURCES.mesh] }, band(si));
}

function thinnest({ geometry }: Case): Figure {
  const [feature, ...others] = [...geometry.features].sort(
    (a, b) => a.thinnest.thickness - b.thinnest.thickness,
  );
  const si = feature ? feature.thinnest.thickness : geometry.thickest.thickness;
  const where = feature
    ? `Smallest inscribed thickness along the ${featureLabel(feature)}, the thinnest of ${others.length + 1} named features.`
    : 'The bait has no named thin feature: its thickest section stands here.';
  return figure(
    {
      key: 'bait.thinnestFeature',
      label: feature ? `Thinnest part: ${featureLabel(feature)}` : 'Thinnest part',
      unit: 'mm',
      basis: `${where} ${CUT} Band: cutting tolerance of the two halves.`,
      formula: 'd = diameter of the largest sphere that fits there',
      inputs: [figureInput('cutting tolerance on the gap', GAP_TOLERANCE, 'mm')],
      sources: [SOURCES.ball, GAP_TOLERANCE.source],
    },
    band(si, si + GAP_TOLERANCE.low, si + GAP_TOLERANCE.high),
  );
}

function thickest({ geometry }: Case): Figure {
  return figure(
    {
      key: 'bait.thickestSection',
      label: 'Thickest section',
      unit: 'mm',
      basis: `Diameter of the largest sphere that fits into the bait. ${CUT}`,
      formula: 'd = diameter of the largest inscribed sphere',
      sources: [SOURCES.ball],
    },
    band(geometry.thickest.thickness),
  );
}

function density({ density: cured, plastisol }: Case): Figure {
  const stated = plastisol.density;
  return figure(
    {
      key: 'bait.density',
      label: 'Density of the cured bait',
      unit: 'g/cm3',
      basis: stated
        ? `Stated for ${plastisol.name.toLowerCase()}.`
        : `Rule of mixtures over the recipe of ${plastisol.name.toLowerCase()}; band for air and for contraction on mixing.`,
      formula: stated ? '' : '1/ρ = Σ wᵢ/ρᵢ',
      sources: stated ? [stated.source] : [...DENSITY_SOURCES, plastisol.recipe.source],
    },
    cured,
  );
}

function mass(given: Case): Figure {
  const { geometry, density: cured, topOffShare } = given;
  return figure(
    {
      key: 'bait.mass',
      label: 'One bait',
      unit: 'g',
      basis:
        'The cavity holds hot plastisol, which is lighter than cured. Low: nothing is drawn in while it cools. High: the gate stays open until it is cold.',
      formula: 'm = ρ·V·(hot/cold density)·(1 + top-off)',
      inputs: [
        figureInput('cavity volume V', band(geometry.volume), 'cm3'),
        figureInput('cured density ρ', cured, 'g/cm3'),
        figureInput('hot over cold density', HOT_RATIO, '1'),
        figureInput('top-off, share of the cavity', topOffShare, '%'),
      ],
      sources: [SOURCES.mesh, ...DENSITY_SOURCES, HOT_RATIO_SOURCE],
    },
    baitMass(geometry.volume, cured, topOffShare),
  );
}

/** Figures of the bait itself. */
export function baitFigures(given: Case): Figure[] {
  const { geometry } = given;
  const size = swumSizes(given);
  return [
    measured(
      'bait.length',
      'Length',
      'mm',
      size.length,
      'Nose to the end of the tail, as it lies in the mold.',
    ),
    measured('bait.width', 'Width', 'mm', size.width, 'Side to side as it swims, appendages included.'),
    measured('bait.height', 'Height', 'mm', size.height, 'Belly to back as it swims, appendages included.'),
    measured(
      'bait.volume',
      'Volume',
      'cm3',
      geometry.volume,
      'Sum of signed tetrahedra over the closed surface.',
    ),
    measured(
      'bait.surface',
      'Surface',
      'cm2',
      geometry.surface,
      'Sum of the triangles of the closed surface.',
    ),
    figure(
      {
        key: 'bait.projectedArea',
        label: 'Area on the parting plane',
        unit: 'cm2',
        basis: `Outline of the bait seen square to the parting plane. ${CUT}`,
        sources: [SOURCES.silhouette],
      },
      band(geometry.projectedArea),
    ),
    thickest(given),
    thinnest(given),
    density(given),
    mass(given),
    ...balanceFigures(given),
  ];
}
