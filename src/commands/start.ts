import { shopOf } from '../io/catalogue.ts';
import { contentFolder, outputFolder } from '../io/settings.ts';
import { buildSite } from './build-site.ts';
import { interruption } from './interrupt.ts';
import { complain, say } from './progress.ts';
import { serveSite } from './site-server.ts';

const PORT = Number(process.env['PORT'] || 4321);
const signal = interruption();

if (!Number.isInteger(PORT) || PORT < 0 || PORT > 65_535) {
  complain(`PORT: wants a whole number from 0 to 65535, got ${process.env['PORT'] ?? ''}`);
  process.exitCode = 1;
} else if (await buildSite(signal)) {
  const shop = await shopOf(contentFolder());
  const site = await serveSite(outputFolder(), PORT, shop && new URL(shop.site).pathname);
  say(`serving at ${site.address}  (stop with Ctrl+C)`);
  signal.addEventListener('abort', () => void site.close());
} else {
  process.exitCode = signal.aborted ? 130 : 1;
}
