import { readdirSync, readFileSync } from 'node:fs';

/** Ticks of the kernel's clock in a second, as `getconf CLK_TCK` has them. */
const TICKS = 100;

/** What the kernel says of a process: its parent, and core time of it and of its ended children [ms]. */
function processOf(id: string): { parent: string; spent: number } | undefined {
  try {
    const fields = readFileSync(`/proc/${id}/stat`, 'utf8').split(') ').at(-1)!.split(' ');
    const ticks = fields.slice(11, 15).reduce((sum, field) => sum + Number(field), 0);
    return { parent: fields[1]!, spent: (1000 * ticks) / TICKS };
  } catch {
    return undefined;
  }
}

/** Core time of this process and of everything it started, a browser with it [ms]. Needs Linux. */
export function spentByAll(): number {
  const all = new Map(
    readdirSync('/proc')
      .filter((name) => /^\d+$/u.test(name))
      .map((id) => [id, processOf(id)]),
  );
  const own = process.cpuUsage();
  const below = (id: string): number =>
    [...all].reduce((sum, [child, seen]) => (seen?.parent === id ? sum + seen.spent + below(child) : sum), 0);
  return (own.user + own.system) / 1000 + below(String(process.pid));
}

/** Core time is read in ticks of 10 ms, so each run does its work several times. */
const TIMES = 8;

/**
 * Core time of a piece of work, all processes counted.
 *
 * @returns a time for each run [ms]
 */
export async function coreTimes(work: () => Promise<unknown>, runs: number): Promise<number[]> {
  const times: number[] = [];
  for (let run = -2; run < runs; run++) {
    const start = spentByAll();
    for (let time = 0; time < TIMES; time++) await work();
    if (run >= 0) times.push((spentByAll() - start) / TIMES);
  }
  return times;
}
