import { analysisTools } from '../../src/io/analysis-tools.ts';
import { readCatalogue, type GoodReading } from '../../src/io/catalogue.ts';
import { problemLine } from '../../src/io/problem-text.ts';
import { sheets, type Analysed } from '../../src/sheet/analyse.ts';
import type { Sheet } from '../../src/sheet/sheet.ts';

/** The demo catalogue, read and worked out once a test file. */
export async function demo(folder = 'content'): Promise<Analysed & { readonly reading: GoodReading }> {
  const reading = await readCatalogue(folder);
  if ('problems' in reading) throw new Error(reading.problems.map(problemLine).join('\n'));
  return { ...(await sheets(reading.catalogue, analysisTools(folder))), reading };
}

/** One sheet of an analysis. */
export function sheetNamed({ sheets }: Pick<Analysed, 'sheets'>, id: string): Sheet {
  const found = sheets.find((sheet) => sheet.id === id);
  if (!found) throw new Error(`no sheet "${id}", only ${sheets.map((sheet) => sheet.id).join(', ')}`);
  return found;
}
