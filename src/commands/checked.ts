import { placed, readCatalogue, type GoodReading } from '../io/catalogue.ts';
import { analysisTools } from '../io/analysis-tools.ts';
import { problemLine, sortedProblems } from '../io/problem-text.ts';
import { sheets, type Step } from '../sheet/analyse.ts';
import { complain, counted, progress } from './progress.ts';

/**
 * A sound catalogue, or nothing after its mistakes have been printed: first those of the files, then those that
 * only the geometry shows. Warnings are printed and stop nothing.
 */
export async function checked(folder: string): Promise<GoodReading | undefined> {
  const reading = await readCatalogue(folder);
  if ('problems' in reading) return refused(reading.problems.map(problemLine));
  const measuring = progress('measuring');
  const onStep = ({ done, total, name }: Step): void => measuring.step(done, total, name);
  const { problems, warnings } = await sheets(reading.catalogue, analysisTools(folder), onStep);
  measuring.end();
  for (const warning of warnings) complain(`warning: ${warning}`);
  const lines = sortedProblems(problems.map((problem) => placed(problem, reading))).map(problemLine);
  return lines.length > 0 ? refused(lines) : reading;
}

function refused(lines: readonly string[]): undefined {
  for (const line of lines) complain(line);
  complain(`${counted(lines.length, 'mistake')} in the catalogue`);
}
