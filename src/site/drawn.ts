import { drawnSheets, type DrawnSheets } from '../components/sheet/drawings.ts';
import { diskMemory } from '../io/cache.ts';
import { digestOf } from '../io/digest.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { addressOf } from './analysis/work.ts';

const remember = diskMemory();

/** All drawings of a sheet from the store: drawn once, whether its page or its files ask first. */
export function drawingsOfSheet(sheet: Sheet): Promise<DrawnSheets> {
  return remember('components/sheet/drawings', addressOf(sheet), () => drawnSheets(sheet, digestOf));
}
