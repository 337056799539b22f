import { contentFolder } from '../io/settings.ts';
import { COLLECTIONS, type CollectionName } from '../schema/collections.ts';
import { typed } from './arguments.ts';
import { checked, checkReport, fitToPublish } from './checked.ts';
import { inspected } from './inspect.ts';
import { complain, counted, say, stopwatch } from './progress.ts';

const given = typed({ options: { json: { type: 'boolean' } } }, 'npm run check, with -- --json for programs');
if (given) process.exitCode = (await (given.values.json ? reported() : told())) ? 0 : 1;

/** Prints the outcome as JSON. */
async function reported(): Promise<boolean> {
  const inspection = await inspected(contentFolder());
  say(checkReport(inspection));
  return fitToPublish(inspection);
}

/** Prints the outcome in words. */
async function told(): Promise<boolean> {
  const elapsed = stopwatch();
  const sound = await checked(contentFolder());
  if (!sound) return false;
  const { reading, refusals, moves } = sound;
  for (const line of [...refusals, ...moves]) complain(line);
  if (refusals.length + moves.length > 0) {
    complain('not fit to be published');
    return false;
  }
  const names = Object.keys(COLLECTIONS) as CollectionName[];
  const counts = names.map((name) => counted(reading.catalogue[name].length, name.replace(/s$/u, '')));
  say(`the catalogue is in order: ${counts.join(', ')} (${elapsed()})`);
  return true;
}
