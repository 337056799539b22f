import type { SignalWord } from './sheet.ts';

/** How badly someone is hurt when the hazard is not avoided. */
export type Severity = 'death or serious injury' | 'minor or moderate injury' | 'no injury';

/** Whether it happens every time the hazard is not avoided, or may happen. */
export type Likelihood = 'will' | 'could';

/**
 * Signal word of a caution.
 *
 * Source: definitions of DANGER, WARNING, CAUTION and NOTICE in ANSI Z535.6 and ISO 3864-2, from memory.
 */
export function signalWord(severity: Severity, likelihood: Likelihood): SignalWord {
  if (severity === 'no injury') return 'NOTICE';
  if (severity === 'minor or moderate injury') return 'CAUTION';
  return likelihood === 'will' ? 'DANGER' : 'WARNING';
}
