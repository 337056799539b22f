import { createServer, type Server } from 'node:http';
import { readFile } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import sirv from 'sirv';

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
  const files = sirv(folder, { dev: true, etag: true });
  const headers = new Headers(await headersOf(folder));
  const server = createServer((request, response) => {
    response.setHeaders(headers);
    const lost = (): void => {
      readFile(join(folder, '404.html')).then(
        (page) => response.writeHead(404, { 'content-type': 'text/html; charset=utf-8' }).end(page),
        () => response.writeHead(404, { 'content-type': 'text/plain' }).end('not found'),
      );
    };
    if (!request.url?.startsWith(root)) return lost();
    request.url = request.url.slice(root.length - 1);
    return files(request, response, lost);
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
