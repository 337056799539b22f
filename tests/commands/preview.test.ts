import { spawn } from 'node:child_process';
import { EventEmitter } from 'node:events';
import { readFile, writeFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { mistakesPage } from '../../src/commands/mistakes-page.ts';
import { showMistakes } from '../../src/commands/preview.ts';
import { changedCatalogue } from '../support/temporary.ts';

type Middleware = (request: IncomingMessage, response: ServerResponse, next: () => void) => void;

/** A server with the middleware of a preview in front of its pages. */
async function preview(folder: string): Promise<{ address: string; watcher: EventEmitter }> {
  const watcher = new EventEmitter();
  const chain: Middleware[] = [];
  const middlewares = { use: (one: Middleware) => chain.push(one) };
  showMistakes({ watcher, middlewares } as unknown as Parameters<typeof showMistakes>[0], folder);
  const server = createServer((request, response) =>
    chain[0]?.(request, response, () => void response.end('the site')),
  );
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  onTestFinished(() => void server.close());
  return { address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`, watcher };
}

test(
  'every page shows the mistakes as the check does, until they are mended',
  { timeout: 60_000 },
  async () => {
    const wrong = 'thickness: 30,';
    const folder = await changedCatalogue({ 'molds/peg-2.yaml': [['thickness: 30 mm,', wrong]] });
    const { address, watcher } = await preview(folder);
    const open = (accept = 'text/html') => fetch(address, { headers: { accept } });
    const broken = await open();
    const page = await broken.text();
    expect(broken.status).toBe(500);
    expect(page).toContain('<title>1 mistake in the catalogue</title>');
    expect(page).toContain('molds/peg-2.yaml:9:51');
    expect(page).toContain('&quot;block.thickness&quot;: 30 has no unit');
    expect(page).toContain(
      '<strong>What to do:</strong> write it with its unit, for example &quot;1 in&quot;',
    );
    expect(page).toMatch(/ 9 \| block: \{ length: 140 mm, .*\n {7}\| {51}\^/u);
    expect(await (await open('image/png')).text()).toBe('the site');
    const file = join(folder, 'molds', 'peg-2.yaml');
    await writeFile(file, (await readFile(file, 'utf8')).replace(wrong, 'thickness: 30 mm,'));
    expect((await open()).status).toBe(500);
    watcher.emit('all', 'change', file);
    expect(await (await open()).text()).toBe('the site');
  },
);

test('what an author wrote cannot become markup on that page', () => {
  const evil = '<img src=x onerror="a()">\u202e';
  const page = mistakesPage([
    { file: evil, line: 1, column: 1, message: evil, remedy: evil, excerpt: { text: evil, column: 1 } },
  ]);
  expect(page).not.toContain('<img');
  expect(page.split('&lt;img src=x onerror=&quot;a()&quot;&gt;')).toHaveLength(5);
});

test('files of a mold are there, at the paths that its page names', { timeout: 120_000 }, async () => {
  // Without what tells programs that they run in a test: Astro would serve no pages.
  const { PATH, ANALYSIS_CACHE } = process.env;
  const env = { PATH, ANALYSIS_CACHE, CONTENT_DIR: 'tests/fixtures/site-tiny' };
  const child = spawn(process.execPath, ['src/commands/dev.ts', '--port', '4390'], { env });
  onTestFinished(() => void child.kill());
  const address = await new Promise<string>((found, lost) => {
    let said = '';
    child.stdout.on('data', (data: Buffer) => {
      said += data.toString();
      const [, local] = /(http:\/\/127\.0\.0\.1:\d+)/u.exec(said) ?? [];
      if (local) found(local);
    });
    child.once('close', () => lost(new Error(`the preview ended: ${said}`)));
  });
  const page = await (await fetch(`${address}/molds/peg-2/`)).text();
  const [shade] = /\/molds\/peg-2\/picture-bait-shade\.webp/u.exec(page) ?? [];
  const types = [shade, '/molds/peg-2/spec.json'].map(async (path) => {
    const { status, headers } = await fetch(`${address}${path}`);
    return [status, headers.get('content-type')];
  });
  expect(await Promise.all(types)).toEqual([
    [200, 'image/webp'],
    [200, 'application/json'],
  ]);
});
