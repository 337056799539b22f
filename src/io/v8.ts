import { setFlagsFromString } from 'node:v8';

/**
 * Settings of V8. They are the process's own, threads started before and after share them; a child needs them in its arguments.
 *
 * The middle one of its three compilers is left out. In Node.js 24 its code for a loop may give two objects that one function
 * makes in turn a single box for a number: the first then reads what was stored in the second, in some runs only. What is
 * computed often enough to matter goes to the third compiler anyway.
 *
 * The heap is collected as a whole when it has tripled, typed arrays counted, not after every 64 MB of typed arrays: such a
 * collection throws away what was compiled of every function that is made anew at each call, to be compiled once more.
 */
export const V8_SETTINGS = [
  '--no-maglev',
  '--heap-growing-percent=200',
  '--external-memory-accounted-in-global-limit',
] as const;

for (const setting of V8_SETTINGS) setFlagsFromString(setting);
