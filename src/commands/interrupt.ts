const PARENT_CHECK = 1000;

/**
 * A signal that fires when the person, or the system, asks the process to stop. Started by npm, the process also
 * stops with it: npm does not hand every signal on.
 */
export function interruption(): AbortSignal {
  const controller = new AbortController();
  const stop = (reason: string): void => controller.abort(new Error(`stopped by ${reason}`));
  for (const name of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(name, () => stop(name));
  const parent = process.ppid;
  if (process.env['npm_lifecycle_event'] !== undefined) {
    setInterval(() => {
      if (process.ppid !== parent) stop('the end of npm');
    }, PARENT_CHECK).unref();
  }
  return controller.signal;
}
