import fs from 'node:fs';
import promises from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';

/** Loaded before a command: folders list their files in reverse, as some disk may do. */
const reversed =
  <Args extends unknown[], Names>(list: (...args: Args) => Promise<Names>) =>
  async (...args: Args): Promise<Names> => {
    const names = await list(...args);
    return Array.isArray(names) ? (names.reverse() as Names) : names;
  };

const { readdirSync } = fs;
promises.readdir = reversed(promises.readdir) as typeof promises.readdir;
fs.promises.readdir = promises.readdir;
fs.readdirSync = ((...args: Parameters<typeof readdirSync>) => {
  const names: unknown = readdirSync(...args);
  return Array.isArray(names) ? names.reverse() : names;
}) as typeof readdirSync;
syncBuiltinESMExports();
