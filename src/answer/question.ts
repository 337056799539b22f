import { editDistance } from '../core/text/edit-distance.ts';
import type { Brief } from '../sheet/brief.ts';

/** One line that the finder offers: a question, or a fault by its looks. */
export interface Asked {
  /** Anchor on every sheet. */
  readonly key: string;
  readonly title: string;
  readonly words: readonly string[];
}

/** What can be asked of a mold: its questions, then its faults. */
export function askable(sheet: Pick<Brief, 'answers' | 'faults'>): Asked[] {
  return [
    ...sheet.answers.map(({ key, question, words }) => ({ key, title: question, words })),
    ...sheet.faults.map(({ key, name, looks, words }) => ({
      key,
      title: `${name}: ${looks.charAt(0).toLowerCase()}${looks.slice(1)}`,
      words,
    })),
  ];
}

const plain = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

type Nearness = 'exact' | 'misspelt';

/** Whether a word stands in a text, begins one there, or, where misspelt ones count too, nearly stands there. */
function wordScore(wanted: string, text: string, how: Nearness): number {
  const most = how === 'exact' ? 0 : wanted.length > 6 ? 2 : wanted.length > 3 ? 1 : 0;
  return Math.max(
    0,
    ...text.split(' ').map((word) => {
      if (word === wanted) return 3;
      if (wanted.length > 1 && word.startsWith(wanted)) return 2;
      return most > 0 && editDistance(wanted, word) <= most ? 1 : 0;
    }),
  );
}

/** How well one line answers to a customer's words; 0 when one of the words that matter is not in it. */
function askedScore(query: string, asked: Asked, how: Nearness): number {
  const wanted = plain(query)
    .split(' ')
    .filter((word) => !SMALL.has(word));
  if (wanted.length === 0) return 0;
  const own = asked.words.map(plain).join(' ');
  const title = plain(asked.title);
  const scores = wanted.map((word) => Math.max(2 * wordScore(word, own, how), wordScore(word, title, how)));
  const whole = asked.words.some((phrase) => plain(phrase) === wanted.join(' ')) ? 5 : 0;
  return scores.some((score) => score === 0) ? 0 : scores.reduce((a, b) => a + b, whole) / wanted.length;
}

/** Words that customers put in between. */
const SMALL = new Set(
  'a an and are at can come coming comes do does for from get getting how i if in is it my of on or out should the to what when with'.split(
    ' ',
  ),
);

function ranked(query: string, all: readonly Asked[], how: Nearness): Asked[] {
  return all
    .map((asked, place) => ({ asked, place, score: askedScore(query, asked, how) }))
    .filter(({ score }) => score > 0)
    .sort((a, b) => b.score - a.score || a.place - b.place)
    .map(({ asked }) => asked);
}

/**
 * The lines that answer to a customer's own words, best first; with no words, all of them in their own order.
 * Misspelt words count only where nothing answers to the words as they are.
 */
export function find(query: string, all: readonly Asked[]): Asked[] {
  if (plain(query) === '') return [...all];
  const exact = ranked(query, all, 'exact');
  return exact.length > 0 ? exact : ranked(query, all, 'misspelt');
}
