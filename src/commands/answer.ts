import { find, askable } from '../answer/question.ts';
import { replies } from '../answer/reply.ts';
import { analysisTools } from '../io/analysis-tools.ts';
import { readCatalogue } from '../io/catalogue.ts';
import { nearest } from '../io/nearest.ts';
import { problemLine } from '../io/problem-text.ts';
import { contentFolder } from '../io/settings.ts';
import type { Catalogue } from '../schema/collections.ts';
import { PUBLISHED, sheets } from '../sheet/analyse.ts';
import { complain, say } from './progress.ts';

/** How many replies are printed for one question. */
const MOST = 3;

function refuse(...lines: readonly string[]): void {
  for (const line of lines) complain(line);
  process.exitCode = 1;
}

async function answer(catalogue: Catalogue, id: string, query: string): Promise<void> {
  const molds = catalogue.molds.filter(({ status }) => PUBLISHED.has(status));
  if (!molds.some((mold) => mold.id === id)) {
    const near = nearest(
      id,
      molds.map((mold) => mold.id),
    );
    return refuse(
      `no published mold is called "${id}"${near ? ` — did you mean "${near}"?` : ''}`,
      `molds: ${molds.map((mold) => mold.id).join(', ')}`,
    );
  }
  const { sheets: made } = await sheets(catalogue, analysisTools(contentFolder()));
  const sheet = made.find((one) => one.id === id);
  if (!sheet) return refuse(`${id} has no sheet: run "npm run check"`);
  const found = find(query, askable(sheet));
  if (found.length === 0)
    return refuse(`nothing answers to "${query}": try one word, such as "cold" or "hook"`);
  if (query === '')
    return found.forEach(({ title, words }) => say(`${title}  (${words.slice(0, 3).join(', ')})`));
  const texts = new Map(replies(sheet).map((reply) => [reply.key, reply]));
  for (const { key } of found.slice(0, MOST)) {
    const reply = texts.get(key);
    if (reply) say(`\n${reply.title}\n\n${reply.text}`);
  }
}

const [id = '', ...words] = process.argv.slice(2);
const reading = await readCatalogue(contentFolder());
if ('problems' in reading) refuse(...reading.problems.map(problemLine));
else if (id === '')
  refuse('npm run answer -- MOLD words of the question, for example: npm run answer -- osier-grub-6 cold');
else await answer(reading.catalogue, id, words.join(' '));
