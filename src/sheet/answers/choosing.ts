import { madeBy } from '../variants.ts';
import { rigsOf } from '../hooks.ts';
import { listed, sizeWords } from '../words.ts';
import { blockSizes, cavityCount, type AnswerOf } from './answer.ts';

export const floatOrSink: AnswerOf = ({ verdicts, speak }) => ({
  key: 'float-or-sink',
  question: 'Does it float, and how fast does it sink?',
  words: ['float', 'floats', 'sink', 'sinks', 'buoyant', 'fall rate', 'stand up'],
  short: verdicts.float.sentence,
  long: [
    `The cured bait has a density of ${speak.say('bait.density')}. Soft plastisol is almost as heavy as water: hook, salt and weight decide.`,
  ],
  figures: ['bait.density', 'float.sinkSpeed'].filter(speak.has),
  guide: 'rigging/#float-hang-or-sink',
});

const rigWords = (rig: string) => `${rig.charAt(0).toUpperCase()}${rig.slice(1)}`;

function otherRigs(rigs: readonly string[], named: string): string {
  const others = rigs.filter((rig) => rig !== named);
  return others.length > 0 ? ` It is also made for: ${listed(others)}.` : '';
}

export const whichHook: AnswerOf = ({ hook, given, speak }) => ({
  key: 'which-hook',
  question: 'Which hook, which rig?',
  words: ['hook', 'hook size', 'rig', 'texas', 'jig', 'gape', 'ewg', 'weedless'],
  short: hook
    ? `${rigWords(hook.rig)} with a ${sizeWords(hook.size)} ${hook.hook.name.toLowerCase()}: its point clears the squeezed body by ${speak.end(hook.clearance.key, 'value')}.${otherRigs(rigsOf(given), hook.rig)}`
    : `No listed hook fits as it should. It is made for ${listed(rigsOf(given))}: take a gape well over its body height of ${speak.say('bait.height')}.`,
  long: [
    ...(hook ? [hook.reason] : []),
    'Sizes differ between makers: measure the gape of yours, and go by that.',
  ],
  figures: hook ? [hook.clearance.key, hook.ratio.key] : ['bait.height'],
  guide: 'rigging/#choose-a-hook',
});

/** Other molds that a short answer names. */
const NAMED = 3;

/** Names of molds, which have commas in them. */
const few = (names: readonly string[]) =>
  names.length <= NAMED
    ? names.join('; ')
    : `${names.slice(0, NAMED).join('; ')}; and ${names.length - NAMED} more`;

export const whichMold: AnswerOf = ({ given, siblings, speak }) => {
  const made = given.mold.from === undefined ? '' : ' and makes tails alone';
  const own = `This one has ${cavityCount(given.mold.cavities.length)}${made}; it takes ${speak.say('shot.total')} a shot.`;
  const others = siblings.map(({ name, from }) => (from === undefined ? name : `${name} (tails alone)`));
  return {
    key: 'which-mold',
    question: 'What differs between the molds of this bait?',
    words: ['difference', 'other molds', 'cavities', 'which mold', 'versions', 'compare'],
    short:
      others.length > 0
        ? `${own} The others: ${few(others)}. More cavities: more baits a shot, but a larger injector, more clamping, a longer warm-up.`
        : `${own} It is the only published mold of ${given.bait.name}.`,
    long: [
      `It makes the ${madeBy(given.mold, given.catalogue.shop.units)}. Its block is ${blockSizes(given)} and weighs ${speak.say('mold.blockMass')}.`,
      ...siblings.map((other) => `${other.name}: ${blockSizes({ ...given, mold: other })}, ${other.stock}.`),
      'The page that compares molds has the figures of all of them side by side.',
    ],
    figures: ['shot.total', 'mold.blockMass', 'mold.clampForce'],
    guide: 'reading-a-sheet/#every-figure-has-limits',
  };
};

export const whichRevision: AnswerOf = ({ given, speak }) => {
  const { revision, mold, family, ledger } = given;
  const latest = family.at(-1)?.revision ?? revision;
  const newest =
    latest.id === revision.id
      ? ' It is the newest.'
      : ` Revision ${latest.id.toUpperCase()} is newer and not cut in it.`;
  const last = ledger?.entries.at(-1);
  return {
    key: 'which-revision',
    question: 'What changed in this revision, and do I have it?',
    words: ['revision', 'version', 'changed', 'newest', 'current', 'do i have the latest', 'update'],
    short: `This sheet is for revision ${revision.id.toUpperCase()} of ${revision.date}${last ? `, last changed ${last.date}` : ''}.${newest} ${short(revision.note)} To tell: measure the thinnest part, ${speak.say('bait.thinnestFeature')}.`,
    long: [
      ...(last
        ? [
            `The sheet last changed on ${last.date}: ${last.note} A printed sheet of that day or later is current.`,
          ]
        : []),
      ...[...family]
        .reverse()
        .map(({ revision: { id, date, note } }) => `Revision ${id.toUpperCase()}, ${date}: ${note}`),
      `The sheet that came in the box names the revision too${mold.released ? `; this listing was first published ${mold.released}` : ''}.`,
    ],
    figures: ['bait.thinnestFeature'],
    guide: 'reading-a-sheet/#every-figure-has-limits',
  };
};

const MOST_WORDS = 18;

/** The first sentence of a note, where it is short enough for a short answer. */
function short(note: string): string {
  const sentence = note.split(/(?<=[.!?])\s/u)[0] ?? note;
  return sentence.split(/\s+/u).length > MOST_WORDS ? 'Its changes are listed below.' : sentence;
}
