import type { Band } from '../../core/quantity/band.ts';
import { printed, type Printed, type UnitSystem } from '../../core/quantity/print.ts';
import type { UnitCode } from '../../core/quantity/units.ts';

/** One quantity in both systems, the shop's own first; one entry where both systems share the unit. */
export interface Reading extends Printed {
  readonly system: UnitSystem | 'both';
}

/** A quantity as the page shows it: in US and in metric units, never only in one. */
export function readings(quantity: Band & { readonly unit: UnitCode }, first: UnitSystem): Reading[] {
  const order: readonly UnitSystem[] = first === 'us' ? ['us', 'metric'] : ['metric', 'us'];
  const [lead, other] = order.map((system): Reading => ({ ...printed(quantity, system), system }));
  if (!lead || !other || lead.text === other.text) return lead ? [{ ...lead, system: 'both' }] : [];
  return [lead, other];
}
