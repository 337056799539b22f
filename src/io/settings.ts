import { join, relative, resolve, sep } from 'node:path';
import './compiled.ts';
import './v8.ts';

/** The folder of the project; every command runs there. */
export const PROJECT_ROOT = process.cwd();

/** Folder with the catalogue: `CONTENT_DIR`, relative to the project; `content` when it is not set. */
export function contentFolder(): string {
  return resolve(PROJECT_ROOT, process.env['CONTENT_DIR'] || 'content');
}

/** Folder for the finished site: `OUT_DIR`, relative to the project; `dist` when it is not set. */
export function outputFolder(): string {
  return resolve(PROJECT_ROOT, process.env['OUT_DIR'] || 'dist');
}

/** Folder for what can be made again. */
export const CACHE_FOLDER = join(PROJECT_ROOT, '.cache');

/** Folder for results of the analysis: `ANALYSIS_CACHE`, relative to the project; `.cache/analysis` when it is not set. */
export function analysisFolder(): string {
  return resolve(PROJECT_ROOT, process.env['ANALYSIS_CACHE'] || join('.cache', 'analysis'));
}

/** Folder for pages of earlier builds: `PAGES_CACHE`, relative to the project; `.cache/pages` when it is not set. */
export function pagesFolder(): string {
  return resolve(PROJECT_ROOT, process.env['PAGES_CACHE'] || join('.cache', 'pages'));
}

/** A path as shown to people: relative to the project when it lies inside, with forward slashes. */
export function shownPath(path: string): string {
  const near = relative(PROJECT_ROOT, path);
  const shown = near.startsWith('..') || near === '' ? path : near;
  return shown.split(sep).join('/');
}

/** True when `path` is `folder` or lies below it. */
export function isInside(folder: string, path: string): boolean {
  const near = relative(folder, path);
  return near === '' || (!near.startsWith('..') && resolve(folder, near) === path);
}
