import { band, type Band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure, type FigureInput, type Source } from '../core/quantity/figure.ts';
import type { Case } from './case.ts';
import { FLASH_MARGIN } from './practice.ts';

function limitsOf({ plastisol }: Case): FigureInput[] {
  return [
    figureInput('its own upper limit', band(plastisol.upperLimit), 'Cel'),
    figureInput('may break down from', plastisol.degradation, 'Cel'),
    figureInput('flash point', plastisol.flashPoint, 'Cel'),
    figureInput('margin below the flash point', FLASH_MARGIN, 'K'),
  ];
}

function sourcesOf({ plastisol }: Case): Source[] {
  const { fusion, degradation, flashPoint } = plastisol;
  return [fusion.source, degradation.source, flashPoint.source, FLASH_MARGIN.source];
}

/** The pour's own three temperatures. */
function bandFigures(given: Case): Figure[] {
  const { pour } = given;
  const [inputs, sources] = [limitsOf(given), sourcesOf(given)];
  const setBy = pour.limit === 'break-down' ? 'temperature from which it may break down' : pour.limit;
  const one = (key: string, label: string, si: Band, basis: string, formula = ''): Figure =>
    figure({ key, label, unit: 'Cel', basis, formula, inputs, sources }, si);
  return [
    one(
      'pour.low',
      'Coolest pour',
      band(pour.low),
      'Fully fused: below it a bait comes out cloudy and weak.',
    ),
    one(
      'pour.nominal',
      'Pour at',
      band(pour.nominal, pour.low, pour.high),
      'A third of the way from the coolest to the hottest pour, so that a thermometer may err either way; measured in the cup.',
      'low + (high − low)/3',
    ),
    one(
      'pour.high',
      'Hottest pour',
      band(pour.high),
      `The lowest of its limits, each at its cautious end; set here by the ${setBy}.`,
    ),
  ];
}

/** What lies above the band: break-down and flash point. */
function dangerFigures(given: Case): Figure[] {
  const { plastisol, pour } = given;
  const { degradation, flashPoint } = plastisol;
  const one = (
    key: string,
    label: string,
    unit: Figure['unit'],
    basis: string,
    si: Band,
    sources: Source[],
  ) => figure({ key, label, unit, basis, sources, inputs: limitsOf(given) }, si);
  return [
    one(
      'pour.degradation',
      'May break down from',
      'Cel',
      'Temperature from which the compound may yellow and give off hydrogen chloride; the low end counts.',
      band(degradation.value, degradation.low, degradation.high),
      [degradation.source],
    ),
    one(
      'pour.flashPoint',
      'Flash point of the plasticiser',
      'Cel',
      'Closed cup, from the data sheet of the plasticiser.',
      band(flashPoint.value, flashPoint.low, flashPoint.high),
      [flashPoint.source],
    ),
    one(
      'pour.flashMargin',
      'Hottest pour below the flash point by',
      'K',
      'Flash point less the hottest pour.',
      band(flashPoint.value - pour.high, flashPoint.low - pour.high, flashPoint.high - pour.high),
      sourcesOf(given),
    ),
  ];
}

/** Figures of the pour: its band, and what lies above it. */
export function pourFigures(given: Case): Figure[] {
  return [...bandFigures(given), ...dangerFigures(given)];
}
