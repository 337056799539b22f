import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { serveSite } from '../../src/commands/site-server.ts';
import { temporaryFolder } from '../support/temporary.ts';

test('serves pages, a 404 page, and takes the next free port', async () => {
  const folder = await temporaryFolder();
  await writeFile(join(folder, 'index.html'), '<p>home</p>');
  await writeFile(join(folder, '404.html'), '<p>nowhere</p>');
  const first = await serveSite(folder, 0);
  onTestFinished(() => first.close());
  const port = Number(new URL(first.address).port);
  const second = await serveSite(folder, port);
  onTestFinished(() => second.close());
  expect(Number(new URL(second.address).port)).toBeGreaterThan(port);
  const home = await fetch(first.address);
  expect([home.status, await home.text()]).toEqual([200, '<p>home</p>']);
  const lost = await fetch(`${first.address}gone/`);
  expect([lost.status, await lost.text()]).toEqual([404, '<p>nowhere</p>']);
  for (const path of ['..%2f..%2fetc/hostname', '%2e%2e/site', '%00', '%', 'index.html/']) {
    expect([path, (await fetch(`${first.address}${path}`)).status]).toEqual([path, 404]);
  }
  const query = await fetch(`${first.address}?u=metric`);
  expect([query.status, query.headers.get('content-type')]).toEqual([200, 'text/html; charset=utf-8']);
});
