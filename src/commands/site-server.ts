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

/** Serves a built site on this machine only, on `port` or the next free one; port 0 takes any. */
export async function serveSite(folder: string, port: number): Promise<Served> {
  const files = sirv(folder, { dev: true, etag: true });
  const server = createServer((request, response) => {
    files(request, response, () => {
      readFile(join(folder, '404.html')).then(
        (page) => response.writeHead(404, { 'content-type': 'text/html; charset=utf-8' }).end(page),
        () => response.writeHead(404, { 'content-type': 'text/plain' }).end('not found'),
      );
    });
  });
  const used = await listen(server, port, TRIES);
  return {
    address: `http://localhost:${used}/`,
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
