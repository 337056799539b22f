// Writes a valid catalogue of many molds for measuring: the same seed, the same bytes; a larger one begins with the
// smaller ones. With --published its sheets are worked out and recorded as published, as a maker's catalogue has them.
// Run: npx node tests/bench/catalogue.ts FOLDER MOLDS [--seed 1] [--published]
// Then, for example: CONTENT_DIR=FOLDER npm run check
import { typed } from '../../src/commands/arguments.ts';
import { complain, say } from '../../src/commands/progress.ts';
import { generateCatalogue, publishGenerated } from '../support/generator/catalogue.ts';

const USAGE = 'npx node tests/bench/catalogue.ts FOLDER MOLDS [--seed 1] [--published]';

const given = typed(
  {
    options: { seed: { type: 'string', default: '1' }, published: { type: 'boolean' } },
    allowPositionals: true,
  },
  USAGE,
);
const [folder, molds] = given?.positionals ?? [];
if (given && folder !== undefined && Number(molds) >= 1) {
  const made = await generateCatalogue(folder, Number(molds), Number(given.values.seed));
  const count = made.triangles.toLocaleString('en-GB');
  say(
    `${made.molds} molds of ${made.baits} baits, ${made.meshes} of them meshes with ${count} triangles together`,
  );
  if (given.values.published) await publishGenerated(folder);
} else if (given) {
  complain(`write ${USAGE}`);
  process.exitCode = 1;
}
