import { readCatalogue, type GoodReading } from '../io/catalogue.ts';
import { problemLine } from '../io/problem-text.ts';
import { complain, counted } from './progress.ts';

/** A sound catalogue, or nothing after its mistakes have been printed. */
export async function checked(folder: string): Promise<GoodReading | undefined> {
  const reading = await readCatalogue(folder);
  return 'problems' in reading ? refused(reading.problems.map(problemLine)) : reading;
}

function refused(lines: readonly string[]): undefined {
  for (const line of lines) complain(line);
  complain(`${counted(lines.length, 'mistake')} in the catalogue`);
}
