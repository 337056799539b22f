import { contentFolder } from '../io/settings.ts';
import { COLLECTIONS, type CollectionName } from '../schema/collections.ts';
import { checked } from './checked.ts';
import { counted, say, stopwatch } from './progress.ts';

const elapsed = stopwatch();
const reading = await checked(contentFolder());
if (reading) {
  const names = Object.keys(COLLECTIONS) as CollectionName[];
  const counts = names.map((name) => counted(reading.catalogue[name].length, name.replace(/s$/u, '')));
  say(`the catalogue is in order: ${counts.join(', ')} (${elapsed()})`);
} else {
  process.exitCode = 1;
}
