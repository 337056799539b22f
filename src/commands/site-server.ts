import { createServer, type Server, type ServerResponse } from 'node:http';
import { readFile } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { packed } from './packing.ts';
import { staticFile } from './static-file.ts';

/** A site being served. */
export interface Served {
  readonly address: string;
  close(): Promise<void>;
}

/** How many ports are tried, one after the other. */
const TRIES = 20;

/** The headers for every path, as the site's own `_headers` file gives them. */
async function headersOf(folder: string): Promise<Record<string, string>> {
  const text = await readFile(join(folder, '_headers'), 'utf8').catch(() => '');
  const [, block = ''] = /^\/\*\n((?: {2}.*\n)*)/mu.exec(text) ?? [];
  const lines = block.split('\n').filter((line) => line.includes(': '));
  return Object.fromEntries(
    lines.map((line) => [line.trim().split(': ', 1)[0] ?? '', line.slice(line.indexOf(': ') + 2)]),
  );
}

/**
 * Serves a built site on this machine only, on `port` or the next free one; port 0 takes any.
 *
 * @param folder - the built site
 * @param base - path that it is served below, as at its published address
 */
export async function serveSite(folder: string, port: number, base = '/'): Promise<Served> {
  const root = base.endsWith('/') ? base : `${base}/`;
  const headers = new Headers(await headersOf(folder));
  const server = createServer((request, response) => {
    response.setHeaders(headers);
    const path = request.url?.startsWith(root) ? request.url.slice(root.length - 1) : undefined;
    const accepted = String(request.headers['accept-encoding'] ?? '');
    answer(folder, path, accepted, response).catch(() => response.destroy());
  });
  const used = await listen(server, port, TRIES);
  return {
    address: `http://localhost:${used}${root}`,
    close: () =>
      new Promise((resolve, reject) => {
        server.close((error) => (error ? reject(error) : resolve()));
        server.closeAllConnections();
      }),
  };
}

async function answer(
  folder: string,
  path: string | undefined,
  accepted: string,
  response: ServerResponse,
): Promise<void> {
  const found = path === undefined ? undefined : await staticFile(folder, path);
  const sent = found ?? (await staticFile(folder, '/404.html'));
  if (!sent) {
    response.writeHead(404, { 'content-type': 'text/plain' }).end('not found');
    return;
  }
  const { bytes, headers } = await packed(sent, accepted);
  response.writeHead(found ? 200 : 404, { 'content-type': sent.type, ...headers }).end(bytes);
}

async function listen(server: Server, port: number, tries: number): Promise<number> {
  try {
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject);
      server.listen(port, 'localhost', () => {
        server.off('error', reject);
        resolve();
      });
    });
    return (server.address() as AddressInfo).port;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE' || tries <= 1) throw error;
    return listen(server, port + 1, tries - 1);
  }
}
