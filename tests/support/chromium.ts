import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, rename, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import chromiumPack, { inflate, setupLambdaEnvironment } from '@sparticuz/chromium';
import { chromium, type Browser } from 'playwright-core';

const require = createRequire(import.meta.url);
const CACHE = resolve('.cache');

/**
 * A headless Chromium: the one that `PARTLINE_CHROMIUM` names, else the one that the package brings along,
 * unpacked once into `.cache/`.
 *
 * @param more - arguments of its command line besides the usual ones
 * @param fonts - folder with a `fonts.conf` and the faces that the browser finds installed, instead of its own
 */
export async function launchChromium(more: readonly string[] = [], fonts?: string): Promise<Browser> {
  const installed = process.env['PARTLINE_CHROMIUM'];
  const home = installed ? '' : await unpacked();
  const path = fonts ?? (installed ? undefined : join(home, 'fonts'));
  if (path !== undefined) process.env['FONTCONFIG_PATH'] = path;
  if (installed)
    return chromium.launch({ executablePath: installed, args: ['--no-sandbox', ...QUIET, ...more] });
  setupLambdaEnvironment(join(home, 'al2023', 'lib'));
  return chromium.launch({ executablePath: join(home, 'chromium'), args: [...FLAGS, ...QUIET, ...more] });
}

/** What the packed Chromium needs to start as root in a container; web security stays on. */
const FLAGS = ['--no-sandbox', '--no-zygote', '--disable-webgl', '--font-render-hinting=none'];

/** No look-ups of its own. */
const QUIET = [
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-pings',
];

/** The packed settings look for fonts in fixed places; these look beside themselves. */
export const FONTS = `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir prefix="relative">.</dir>
  <cachedir prefix="xdg">fontconfig</cachedir>
</fontconfig>
`;

/** The folder with the unpacked browser; complete or absent, also when two processes unpack at once. */
async function unpacked(): Promise<string> {
  const entry = require.resolve('@sparticuz/chromium');
  const { version } = require(join(dirname(entry), '..', 'package.json')) as { version: string };
  const home = join(CACHE, `chromium-${version}`);
  if (existsSync(home)) return home;
  await mkdir(CACHE, { recursive: true });
  const staging = await mkdtemp(join(CACHE, 'chromium-unpacking-'));
  await inTemporaryFolder(staging, async () => {
    await inflate(join(dirname(entry), '..', 'bin', 'al2023.tar.br'));
    await chromiumPack.executablePath();
  });
  await writeFile(join(staging, 'fonts', 'fonts.conf'), FONTS);
  await rename(staging, home).catch(async (error: unknown) => {
    await rm(staging, { recursive: true, force: true });
    if (!existsSync(home)) throw error;
  });
  return home;
}

/** The package unpacks into the system's temporary folder; for the length of `work` that is `folder`. */
async function inTemporaryFolder(folder: string, work: () => Promise<void>): Promise<void> {
  const before = process.env['TMPDIR'];
  process.env['TMPDIR'] = folder;
  try {
    await work();
  } finally {
    if (before === undefined) delete process.env['TMPDIR'];
    else process.env['TMPDIR'] = before;
  }
}
