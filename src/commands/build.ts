import { buildSite } from './build-site.ts';
import { interruption } from './interrupt.ts';

const signal = interruption();
const built = await buildSite(signal);
process.exitCode = built ? 0 : signal.aborted ? 130 : 1;
