import { pruneMemory } from '../io/cache.ts';
import { problemLine } from '../io/problem-text.ts';
import { analysisFolder, contentFolder, shownPath } from '../io/settings.ts';
import { fallsTo, shardOf, type Shard } from '../site/analysis/shard.ts';
import { typed } from './arguments.ts';
import { slowest, stepsReport } from './checked.ts';
import { inspected, type Inspection } from './inspect.ts';
import { complain, counted, progress, say, stopwatch } from './progress.ts';

const USAGE = 'npm run analyse -- [--shard 3/16] [--cache FOLDER] [--prune DAYS] [--json]';

const given = typed(
  {
    options: {
      shard: { type: 'string', default: '1/1' },
      cache: { type: 'string' },
      prune: { type: 'string' },
      json: { type: 'boolean', default: false },
    },
  },
  USAGE,
);
if (given) {
  const { shard: part, cache, prune, json } = given.values;
  const shard = shardOf(part);
  const days = prune === undefined ? undefined : Number(prune);
  const fault = !shard
    ? `--shard: wants a part like 3/16, got ${part}`
    : days !== undefined && !(Number.isInteger(days) && days >= 1)
      ? `--prune: wants whole days from 1 up, got ${prune ?? ''}`
      : undefined;
  if (fault !== undefined || !shard) {
    complain(`${fault ?? ''}; write ${USAGE}`);
    process.exitCode = 1;
  } else {
    if (cache !== undefined) process.env['ANALYSIS_CACHE'] = cache;
    process.exitCode = (await (json ? reported : told)(shard, days)) ? 0 : 1;
  }
}

/** Works one shard out; the threads find the cache by `ANALYSIS_CACHE`. */
async function analysed(shard: Shard): Promise<Inspection> {
  const working = progress('working out');
  const inspection = await inspected(contentFolder(), {
    onStep: ({ done, total, name }) => working.step(done, total, name),
    only: (group) => fallsTo(shard, group),
  });
  working.end();
  return inspection;
}

/** Prints the outcome in words. */
async function told(shard: Shard, days: number | undefined): Promise<boolean> {
  const elapsed = stopwatch();
  const { problems, timings, groups, worked } = await analysed(shard);
  for (const line of slowest(timings)) complain(line);
  for (const problem of problems) complain(problemLine(problem));
  if (problems.length > 0) {
    complain(`${counted(problems.length, 'mistake')} in the catalogue`);
    return false;
  }
  const part = shard.count === 1 ? '' : `part ${shard.index} of ${shard.count}: `;
  const folder = shownPath(analysisFolder());
  say(`${part}${counted(groups, 'piece')}, ${worked} worked out, in ${folder} (${elapsed()})`);
  if (days !== undefined) {
    const { gone, kept, size } = await pruneMemory(undefined, days);
    say(`pruned: ${counted(gone, 'file')} gone, ${kept} kept, ${(size / 1e6).toFixed(1)} MB`);
  }
  return true;
}

/** Prints the outcome as JSON. */
async function reported(shard: Shard, days: number | undefined): Promise<boolean> {
  const { problems, timings, groups, worked, sheets } = await analysed(shard);
  const ok = problems.length === 0;
  const pruned = ok && days !== undefined ? await pruneMemory(undefined, days) : undefined;
  const mistakes = problems.map(({ excerpt: _, ...problem }) => problem);
  const steps = stepsReport(timings);
  say(
    JSON.stringify(
      {
        format: 'partline-analyse/1',
        ok,
        shard,
        groups,
        worked,
        molds: sheets.length,
        mistakes,
        steps,
        ...(pruned && { pruned }),
      },
      undefined,
      2,
    ),
  );
  return ok;
}
