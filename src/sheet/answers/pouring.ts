import type { Answer } from '../sheet.ts';
import type { AnswerOf, AnswerParts } from './answer.ts';

export const howHot: AnswerOf = ({ speak, given }) => ({
  key: 'how-hot',
  question: 'How hot do I pour?',
  words: ['temperature', 'how hot', 'heat', 'degrees', 'microwave', 'thermometer'],
  short: `Pour at ${speak.end('pour.nominal', 'value')}, measured in the cup; never under ${speak.end('pour.low', 'value')}, never over ${speak.end('pour.high', 'value')}.`,
  long: [
    `That is for ${given.plastisol.name.toLowerCase()}. Under the band it is not fused; over it, it may yellow and give off hydrogen chloride.`,
    'The safety data sheet of your compound comes first: if it names a lower limit, keep to that.',
  ],
  figures: ['pour.low', 'pour.nominal', 'pour.high'],
  guide: 'compounds/#heat-it-through',
});

const reserveLine = ({ speak, features }: AnswerParts): string[] =>
  features.map(
    ({ label, reserveCold, reserveWarm }) =>
      `The ${label} fills ${speak.say(reserveCold.key)} times over in a cold mold and ${speak.say(reserveWarm.key)} times in a warm one; above 1 it fills.`,
  );

export const shootCold: AnswerOf = (parts) => ({
  key: 'shoot-cold',
  question: 'Can I shoot it cold, and what about the first shots?',
  words: ['cold', 'cold mold', 'first shots', 'preheat', 'warm up', 'warm the mold', 'short at first'],
  short: parts.verdicts.cold.sentence,
  long: [
    ...reserveLine(parts),
    ...(parts.speak.has('fill.reserve.first')
      ? [`In the mold warmed as told the least reserve is ${parts.speak.say('fill.reserve.first')}.`]
      : []),
    `One shot warms a cold block by ${parts.speak.say('heat.riseFirstShot')}. Melt the first baits again if their tips are short.`,
  ],
  figures: [
    'fill.mold.first',
    'fill.reserve.first',
    'fill.reserve.cold',
    'fill.reserve.warm',
    'fill.mold.needed',
    'fill.warmUpShots',
    'heat.riseFirstShot',
  ].filter(parts.speak.has),
  guide: 'first-shots/#shooting-cold',
});

export const harderOrSofter: AnswerOf = ({ given, speak }) => ({
  key: 'which-plastisol',
  question: 'Which plastisol: softer, harder or salted?',
  words: ['soft', 'hard', 'salt', 'hardness', 'compound', 'plastisol', 'durable', 'tears'],
  short: `It is designed for ${given.plastisol.name.toLowerCase()}, typically ${speak.say('compound.hardness')}. Softer moves at slower speeds and tears sooner; firmer lasts longer and needs more speed. Salt makes it heavier and weaker.`,
  long: [
    `Its stiffness is ${speak.say('compound.modulus')}; a part bends in proportion to it and with the cube of its thickness.`,
    'Salt and firmer compounds are thicker when hot: thin parts fill less readily, so warm the block first.',
  ],
  figures: ['compound.hardness', 'compound.modulus'],
  guide: 'compounds/#softer-or-firmer',
});

export const twoColours: AnswerOf = ({ speak, verdicts }): Answer => ({
  key: 'two-colours',
  question: 'Can I shoot two colours?',
  words: ['two colours', 'two colors', 'laminate', 'swirl', 'dual', 'blend', 'two tone'],
  short: `Yes. Push two injectors in step through a blending block for halves, or draw both colours into one injector for a swirl. Together they must give ${speak.end('shot.total', 'high')}, both at ${speak.end('pour.nominal', 'value')}.`,
  long: [
    'Use one compound for both, equally hot: the thinner one pushes ahead of the other, and two hardnesses shrink apart.',
    `One after the other does not work in a closed cavity: the first colour has a skin before the second arrives. ${verdicts.cold.sentence}`,
    'Check that the block that joins them seats on the sprue, and clamp as for one injector with both hands on it.',
  ],
  figures: ['shot.total', 'pour.nominal', 'shot.pressure'],
  guide: 'compounds/#two-colours',
});
