import { writeFile } from 'node:fs/promises';
import { get } from 'node:http';
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

/** Headers and size of an answer as it comes over the wire. */
const fetched = (address: string, accepted: string) =>
  new Promise<[string | undefined, number]>((done, fail) => {
    get(address, { headers: { 'accept-encoding': accepted } }, (response) => {
      let size = 0;
      response.on('data', (chunk: Buffer) => (size += chunk.length));
      response.on('end', () => done([response.headers['content-encoding'], size]));
    }).on('error', fail);
  });

test('packs text as the browser asks, and nothing that is packed already', async () => {
  const folder = await temporaryFolder();
  const text = '<p>the same again</p>'.repeat(1000);
  await writeFile(join(folder, 'index.html'), text);
  for (const name of ['face.woff2', 'data.json', 'shape.svg', 'style.css', 'feed.xml', 'page.js'])
    await writeFile(join(folder, name), text);
  const { address, close } = await serveSite(folder, 0);
  onTestFinished(() => close());
  expect(await fetched(address, 'identity')).toEqual([undefined, text.length]);
  expect(await fetched(address, 'br;q=0, gzip;q=0.0')).toEqual([undefined, text.length]);
  expect(await fetched(`${address}face.woff2`, 'gzip, br')).toEqual([undefined, text.length]);
  for (const name of ['data.json', 'shape.svg', 'style.css', 'feed.xml', 'page.js'])
    expect([name, (await fetched(`${address}${name}`, 'br'))[0]]).toEqual([name, 'br']);
  for (const [accepted, coding] of [
    ['gzip, deflate, br', 'br'],
    ['gzip;q=0.8, br;q=0', 'gzip'],
  ] as const) {
    const [used, size] = await fetched(address, accepted);
    expect([used, size < text.length / 10]).toEqual([coding, true]);
  }
  expect(await (await fetch(address)).text()).toBe(text);
});
