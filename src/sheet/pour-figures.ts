import { band } from '../core/quantity/band.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import type { Case } from './case.ts';
import { FLASH_MARGIN } from './practice.ts';

/** Figures of the pour: band, flash point and its margin, where the compound breaks down. */
export function pourFigures({ plastisol, pour }: Case): Figure[] {
  const limits = [
    figureInput('its own upper limit', band(plastisol.upperLimit), 'Cel'),
    figureInput('may break down from', plastisol.degradation, 'Cel'),
    figureInput('flash point', plastisol.flashPoint, 'Cel'),
    figureInput('margin below the flash point', FLASH_MARGIN, 'K'),
  ];
  const sources = [
    plastisol.fusion.source,
    plastisol.degradation.source,
    plastisol.flashPoint.source,
    FLASH_MARGIN.source,
  ];
  const one = (key: string, label: string, si: number, basis: string): Figure =>
    figure({ key, label, unit: 'Cel', basis, inputs: limits, sources }, band(si));
  const margin = plastisol.flashPoint.low - pour.high;
  return [
    one('pour.low', 'Coolest pour', pour.low, 'Fully fused: below it a bait comes out cloudy and weak.'),
    figure(
      {
        key: 'pour.nominal',
        label: 'Pour at',
        unit: 'Cel',
        basis:
          'A third of the way from the coolest to the hottest pour, so that a thermometer may err either way; measured in the cup.',
        formula: 'low + (high − low)/3',
        inputs: limits,
        sources,
      },
      band(pour.nominal, pour.low, pour.high),
    ),
    one(
      'pour.high',
      'Hottest pour',
      pour.high,
      `The lowest of its limits, each at its cautious end; set here by the ${pour.limit === 'break-down' ? 'temperature from which it may break down' : pour.limit}.`,
    ),
    figure(
      {
        key: 'pour.degradation',
        label: 'May break down from',
        unit: 'Cel',
        basis:
          'Temperature from which the compound may yellow and give off hydrogen chloride; the low end counts.',
        sources: [plastisol.degradation.source],
      },
      plastisol.degradation,
    ),
    figure(
      {
        key: 'pour.flashPoint',
        label: 'Flash point of the plasticiser',
        unit: 'Cel',
        basis: 'Closed cup, from the data sheet of the plasticiser.',
        sources: [plastisol.flashPoint.source],
      },
      plastisol.flashPoint,
    ),
    figure(
      {
        key: 'pour.flashMargin',
        label: 'Hottest pour below the flash point by',
        unit: 'K',
        basis: 'Flash point less the hottest pour.',
        formula: 'flash point − hottest pour',
        inputs: limits,
        sources,
      },
      band(plastisol.flashPoint.value - pour.high, margin, plastisol.flashPoint.high - pour.high),
    ),
  ];
}
