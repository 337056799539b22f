import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import lighthouse, { type Flags } from 'lighthouse';
import { launchChromium } from './chromium.ts';

/** What Lighthouse says of a page: scores from 0 to 100, and the audits that cost something. */
export interface Verdict {
  readonly scores: Readonly<Record<string, number>>;
  readonly lost: readonly string[];
}

/** A page as one writes it by hand: what the best practices of a site are held against. */
const BARE = `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <meta name="description" content="A page with nothing on it." />
    <title>A bare page</title>
  </head>
  <body><main><h1>A bare page</h1><p>Nothing more.</p></main></body>
</html>
`;

/** Serves one page and nothing else, on a free port: the bare one, if no other is given. */
export async function servePage(html = BARE): Promise<{ address: string; close: () => void }> {
  const server = createServer(({ url }, response) => {
    response.writeHead(url === '/' ? 200 : 404, { 'content-type': 'text/html; charset=utf-8' });
    response.end(url === '/' ? html : '');
  });
  await new Promise<void>((done) => server.listen(0, 'localhost', done));
  return {
    address: `http://localhost:${(server.address() as AddressInfo).port}/`,
    close: () => server.close(),
  };
}

/** A port that was free a moment ago. */
async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const { port } = server.address() as AddressInfo;
  await new Promise((done) => server.close(done));
  return port;
}

/** A Chromium that Lighthouse can talk to. */
export async function lighthouseBrowser() {
  const port = await freePort();
  const browser = await launchChromium([`--remote-debugging-port=${port}`]);
  return {
    audit: (address: string, flags: Flags = {}) => audit(address, { ...flags, port }),
    close: () => browser.close(),
  };
}

async function audit(address: string, flags: Flags): Promise<Verdict> {
  // Pictures of the page are for people who read the report.
  const result = await lighthouse(address, {
    logLevel: 'error',
    disableFullPageScreenshot: true,
    ...flags,
  });
  if (!result || result.lhr.runtimeError)
    throw new Error(`${address}: ${result?.lhr.runtimeError?.message ?? 'Lighthouse said nothing'}`);
  const { categories, audits } = result.lhr;
  const weighed = Object.values(categories).flatMap(({ auditRefs }) =>
    auditRefs.flatMap(({ id, weight }) => (weight > 0 ? [id] : [])),
  );
  const lost = [...new Set(weighed)].filter((id) => (audits[id]?.score ?? 1) < 1);
  return {
    scores: Object.fromEntries(
      Object.entries(categories).map(([name, { score }]) => [name, Math.round((score ?? 0) * 100)]),
    ),
    lost: lost.map((id) => `${id} ${audits[id]?.displayValue ?? ''}`.trim()),
  };
}
