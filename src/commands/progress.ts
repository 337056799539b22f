/** Elapsed time since the call, in words. */
export function stopwatch(): () => string {
  const start = performance.now();
  return () => seconds(performance.now() - start);
}

/** Milliseconds as people read them. */
export function seconds(milliseconds: number): string {
  return `${(milliseconds / 1000).toFixed(1)} s`;
}

/** One line to a person. */
export function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

/** One line about something wrong. */
export function complain(line: string): void {
  process.stderr.write(`${line}\n`);
}

/** "1 mold", "3 molds". */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

/** How often a long work is heard of when the output is not a terminal [ms]. */
const QUIET = 5000;

/** A piece of work that is reported as it goes on. */
export interface Progress {
  step(done: number, total: number, name: string): void;
  end(): void;
}

/** Tells how far a work is: on a terminal in one line that changes, elsewhere in a plain line every few seconds. */
export function progress(what: string, out: NodeJS.WriteStream = process.stderr): Progress {
  const elapsed = stopwatch();
  let last = performance.now();
  return {
    step(done, total, name) {
      const line = `${what} ${done + 1} of ${total}  ${name}  ${elapsed()}`;
      if (out.isTTY) out.write(`\r${line.slice(0, out.columns - 1)}\u001b[K`);
      else if (performance.now() - last > QUIET) {
        last = performance.now();
        out.write(`${line}\n`);
      }
    },
    end() {
      if (out.isTTY) out.write('\r\u001b[K');
    },
  };
}
