/** A signal that fires when the person, or the system, asks the process to stop. */
export function interruption(): AbortSignal {
  const controller = new AbortController();
  for (const name of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
    process.once(name, () => controller.abort(new Error(`stopped by ${name}`)));
  }
  return controller.signal;
}
