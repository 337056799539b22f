import type { Sheet } from '../../sheet/sheet.ts';

type Code = Sheet['verdicts'][keyof Sheet['verdicts']]['code'];

/** Colour of a verdict, always beside its words: good news, doubtful, bad, or neither. */
export type Tone = 'good' | 'doubt' | 'bad' | 'plain';

const TONES: Readonly<Record<Code, Tone>> = {
  'fills cold': 'good',
  'likely fills cold': 'doubt',
  'warm it first': 'doubt',
  'needs a warm mold': 'doubt',
  'too thin': 'bad',
  floats: 'plain',
  sinks: 'plain',
  'may float or sink': 'plain',
  'one push': 'good',
  'none listed': 'bad',
};

/** Colour of a verdict by its code. */
export const toneOf = (code: Code): Tone => TONES[code];
