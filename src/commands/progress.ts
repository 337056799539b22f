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
