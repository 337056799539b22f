import { setFlagsFromString } from 'node:v8';

/**
 * Leaves the middle one of V8's three compilers out. In Node.js 24 its code for a loop may give two objects that one function
 * makes in turn a single box for a number: the first then reads what was stored in the second, in some runs only. What is
 * computed often enough to matter goes to the third compiler anyway.
 *
 * The flag is the process's own, threads started before and after share it; a child needs it in its arguments.
 */
export const WITHOUT_MIDDLE_COMPILER = '--no-maglev';

setFlagsFromString(WITHOUT_MIDDLE_COMPILER);
