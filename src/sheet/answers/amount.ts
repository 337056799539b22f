import { band } from '../../core/quantity/band.ts';
import { figureInput } from '../../core/quantity/figure.ts';
import { printedBoth } from '../../core/quantity/print.ts';
import { cavityWords } from '../words.ts';
import type { AnswerOf } from './answer.ts';

export const howMuchPlastic: AnswerOf = ({ speak, given }) => ({
  key: 'how-much-plastic',
  question: 'How much plastic does one shot take?',
  words: ['how much plastic', 'shot size', 'ounces', 'volume', 'fill amount'],
  short: `A shot takes ${speak.say('shot.total')} of hot plastisol for ${cavityWords(given.mold.cavities.length)}, sprue and top-off together.`,
  long: [
    `One cavity takes ${speak.say('shot.perCavity')}; sprue, runners and gates take ${speak.say('shot.runner')}.`,
    `Keep the plunger down while it cools: contraction draws in ${speak.say('shot.topOff')} more.`,
    `By mass the shot is ${speak.say('shot.mass')}.`,
  ],
  figures: ['shot.total', 'shot.perCavity', 'shot.runner', 'shot.topOff', 'shot.mass'],
  guide: 'compounds/#how-much-to-heat',
});

const shotsWords = (shots: number) => (shots === 1 ? 'one shot' : `${shots} shots`);

export const whichInjector: AnswerOf = ({ verdicts, injectors, given }) => ({
  key: 'which-injector',
  question: 'Which injector do I need?',
  words: ['injector', 'syringe', 'will it fit my injector', 'capacity', 'one push', 'plunger'],
  short: verdicts.injector.sentence,
  long: [
    ...injectors.map(({ injector, holds, shots }) => {
      const held = printedBoth(figureInput('', band(injector.capacity), 'mL'), given.catalogue.shop.units);
      const does = holds
        ? `${shotsWords(shots)} of the whole mold from one filling`
        : 'too small for one push';
      return `${injector.name}, ${held}: ${does}.`;
    }),
    'Warm the injector before you draw: plastisol that stands in a cold one loses the heat that thin parts need.',
  ],
  figures: ['shot.total', 'shot.pressure'],
  guide: 'first-shots/#fill-the-injector',
});

export const howMany: AnswerOf = ({ speak }) => ({
  key: 'how-many-baits',
  question: 'How many baits does a quart, a gallon or a litre make?',
  words: ['how many', 'baits per gallon', 'quart', 'pint', 'litre', 'yield', 'batch'],
  short: `A quart makes about ${speak.say('yield.quart')}, a gallon about ${speak.say('yield.gallon')}, a litre about ${speak.say('yield.litre')}, without melting sprues again.`,
  long: [
    `${speak.say('shot.sprueShare')} of each shot is sprue and runner. Clean sprues can go back into the pot.`,
    `For fifty baits heat ${speak.say('batch.50')} of liquid compound.`,
  ],
  figures: ['yield.pint', 'yield.quart', 'yield.gallon', 'yield.litre', 'shot.sprueShare', 'batch.50'],
  guide: 'compounds/#how-much-to-heat',
});

export const oneBaitWeighs: AnswerOf = ({ speak, given }) => ({
  key: 'bait-weight',
  question: 'What does one bait weigh?',
  words: ['weight', 'weigh', 'grams', 'mass', 'heavy', 'ounce'],
  short: `One bait weighs ${speak.say('bait.mass')} in ${given.plastisol.name.toLowerCase()}, without the sprue.`,
  long: [
    'Low: no pressure is held while it cools. High: it is packed until it is cold.',
    `Its volume is ${speak.say('bait.volume')}, its density ${speak.say('bait.density')}. Another compound weighs in proportion to its density.`,
  ],
  figures: ['bait.mass', 'bait.volume', 'bait.density'],
  guide: 'rigging/#weight-and-casting',
});

export const remelting: AnswerOf = ({ speak }) => ({
  key: 'remelting',
  question: 'Can I melt sprues and bad baits again?',
  words: ['remelt', 'reuse', 'scrap', 'sprue', 'recycle', 'leftover', 'melt again'],
  short: `Yes: clean, dry ones of the same compound and colour. Here ${speak.say('shot.sprueShare')} of each shot is sprue and runner. Stay below ${speak.end('pour.high', 'value')}, and throw away what has yellowed or smoked.`,
  long: [
    `Mix them with fresh compound: every heating uses up stabiliser, and break-down starts sooner than at the ${speak.end('pour.degradation', 'low')} that hold for fresh compound.`,
    'Cut pieces small so that they melt through evenly. Leave out baits that were salted, fished, oiled or scented: water and oil spit.',
  ],
  figures: ['shot.sprueShare', 'pour.high', 'pour.degradation'],
  guide: 'compounds/#melting-again',
});
