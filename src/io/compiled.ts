import { join } from 'node:path';

/**
 * Where Node.js keeps what it compiled of the program: threads and child processes that start later need not do it again, which
 * is three quarters of the time that they take to load. Files go by content, Node.js and flags; delete the folder at any time.
 */
export const COMPILED_FOLDER = join(process.cwd(), '.cache', 'node');

process.env['NODE_COMPILE_CACHE'] ||= COMPILED_FOLDER;
