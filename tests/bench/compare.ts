// Results of this machine before and after: those of a commit beside those in the working copy; changes over 3 % get a
// star. Run: npx node tests/bench/compare.ts [COMMIT], HEAD when it is left out.
import { execFileSync } from 'node:child_process';
import { keptLines, keyOf, linesOf, resultsFile, type Line } from './harness.ts';

/** Changes beyond this are starred [1]. */
const STARRED = 0.03;

const [ref = 'HEAD'] = process.argv.slice(2);

/** Results as a commit has them; none where it has no such file. */
function linesAt(commit: string): Line[] {
  try {
    return linesOf(
      execFileSync('git', ['show', `${commit}:${resultsFile}`], {
        encoding: 'utf8',
        stdio: ['ignore', 'pipe', 'ignore'],
      }),
    );
  } catch {
    return [];
  }
}

const before = new Map(linesAt(ref).map((line) => [keyOf(line), line]));
const rows = keptLines().map((line) => {
  const old = before.get(keyOf(line));
  // A ratio in one run outlives a change of machine load; a bare time does not.
  const side = old?.ratio && line.ratio ? 'ratio' : 'median';
  const change = old ? Number(line[side]) / Number(old[side]) - 1 : NaN;
  const star = Math.abs(change) > STARRED ? '*' : '';
  const percent = old ? `${change >= 0 ? '+' : '−'}${Math.abs(100 * change).toFixed(1)} %` : 'new';
  const unit = side === 'ratio' ? 'of yardstick' : line.unit;
  return [keyOf(line), old?.[side] ?? '', line[side], unit, percent, star];
});
const heads = ['bench | what | n', `before (${ref})`, 'after', 'unit', 'change', ''];
const widths = heads.map((head, i) => Math.max(...[heads, ...rows].map((row) => (row[i] ?? head).length)));
for (const row of [heads, ...rows])
  process.stdout.write(
    `${row
      .map((cell, i) => cell.padEnd(widths[i] ?? 0))
      .join('  ')
      .trimEnd()}\n`,
  );
