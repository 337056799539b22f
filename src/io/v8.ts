import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/**
 * Leaves the middle one of V8's three compilers out. In Node.js 24 its code for a loop may give two objects that one function
 * makes in turn a single box for a number: the first then reads what was stored in the second, in some runs only. What is
 * computed often enough to matter goes to the third compiler anyway.
 *
 * The flag is the process's own, threads started before and after share it; a child needs it in its arguments.
 */
export const WITHOUT_MIDDLE_COMPILER = '--no-maglev';

setFlagsFromString(WITHOUT_MIDDLE_COMPILER);

/**
 * Typed arrays count with the heap, not after every 64 MB of them, when V8 decides to collect all of it: such a collection throws
 * away what was compiled of every function that is made anew at each call, to be compiled once more.
 */
const COUNT_ARRAYS = '--external-memory-accounted-in-global-limit';

/** All of a heap is collected when it has tripled. */
const ROOMY = ['--heap-growing-percent=200', COUNT_ARRAYS];

/** When it has doubled; young objects after 8 MB, not 16. */
const LEAN = ['--max-semi-space-size=8', '--heap-growing-percent=100', COUNT_ARRAYS];

/** Up to so many molds heaps have room, some 200 MB more each; beyond, a build would hold half as much again as it should. */
const FEW = 200;

/** Gives the heaps of this process room for work on so many molds. */
export function makeRoom(molds: number): void {
  if (molds <= FEW) for (const setting of ROOMY) setFlagsFromString(setting);
}

/** Arguments of a child process that works on so many molds. */
export function childArguments(molds: number): string[] {
  return [WITHOUT_MIDDLE_COMPILER, ...(molds <= FEW ? ROOMY : LEAN)];
}

type Collect = (how: { type: 'major'; execution: 'sync'; flavor: 'last-resort' }) => void;

let collect: Collect | undefined;

/**
 * Gives what this process no longer needs back to the system: V8 itself waits until it would grow. For a process that is about
 * to wait for others that need the memory more. Takes some tens of milliseconds.
 */
export function giveBack(): void {
  setFlagsFromString('--expose-gc');
  collect ??= runInNewContext('gc') as Collect;
  collect({ type: 'major', execution: 'sync', flavor: 'last-resort' });
}
