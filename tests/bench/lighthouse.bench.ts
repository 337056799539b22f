import { resolve } from 'node:path';
import { serveSite } from '../../src/commands/site-server.ts';
import { lighthouseBrowser } from '../support/lighthouse.ts';

/**
 * Speed of a built site as Lighthouse sees it: a mid-range phone on a slow mobile line, both simulated from a real load
 * out of the server of `npm start`. Give the folder of the site, `dist` if none is given, and paths of pages.
 */
const RUNS = 5;
const GOAL = 99;
const [folder = 'dist', ...given] = process.argv.slice(2);
const paths = given.length > 0 ? given : ['molds/osier-grub-6/', ''];

const served = await serveSite(resolve(folder), 0);
const { audit, close } = await lighthouseBrowser();
for (const path of paths) {
  const runs = [];
  for (let run = 0; run < RUNS; run++)
    runs.push(
      await audit(`${served.address}${path}`, {
        onlyCategories: ['performance'],
        throttlingMethod: 'simulate',
      }),
    );
  const sorted = runs.sort((a, b) => (a.scores['performance'] ?? 0) - (b.scores['performance'] ?? 0));
  const median = sorted[Math.floor(RUNS / 2)];
  const score = median?.scores['performance'] ?? 0;
  const all = sorted.map(({ scores }) => scores['performance']).join(' ');
  console.log(`/${path}  performance ${score} (${all})  ${median?.lost.join(', ') ?? ''}`);
  if (score < GOAL) process.exitCode = 1;
}
await close();
await served.close();
