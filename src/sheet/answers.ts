import type { Case } from './case.ts';
import type { Answer, FeatureFill, HookFit, Sheet } from './sheet.ts';
import { cavityWords, listed, sizeWords, type Speaker } from './words.ts';

/** What answers are written from. */
export interface AnswerParts {
  readonly given: Case;
  readonly speak: Speaker;
  readonly verdicts: Sheet['verdicts'];
  readonly hook: HookFit | null;
  readonly features: readonly FeatureFill[];
}

type AnswerOf = (parts: AnswerParts) => Answer | null;

const howMuchPlastic: AnswerOf = ({ speak, given }) => ({
  key: 'how-much-plastic',
  question: 'How much plastic does one shot take?',
  short: `${speak.say('shot.total')} of hot plastisol for ${cavityWords(given.mold.cavities.length)}, sprue and top-off together.`,
  long: [
    `One cavity takes ${speak.say('shot.perCavity')}; sprue, runners and gates take ${speak.say('shot.runner')}.`,
    `Keep the plunger down while it cools: contraction draws in ${speak.say('shot.topOff')} more.`,
  ],
  figures: ['shot.total', 'shot.perCavity', 'shot.runner', 'shot.topOff'],
});

const whichInjector: AnswerOf = ({ verdicts }) => ({
  key: 'which-injector',
  question: 'Which injector do I need?',
  short: verdicts.injector.sentence,
  long: [
    'Warm the injector before you draw: plastisol that stands in a cold one loses the heat that thin parts need.',
  ],
  figures: ['shot.total', 'shot.pressure'],
});

const howMany: AnswerOf = ({ speak }) => ({
  key: 'how-many-baits',
  question: 'How many baits does a quart or a gallon make?',
  short: `A quart makes about ${speak.say('yield.quart')}, a gallon about ${speak.say('yield.gallon')}, without melting sprues again.`,
  long: [
    `${speak.say('shot.sprueShare')} of each shot is sprue and runner. Clean sprues can go back into the pot.`,
  ],
  figures: ['yield.quart', 'yield.gallon', 'shot.sprueShare'],
});

const howHot: AnswerOf = ({ speak, given }) => ({
  key: 'how-hot',
  question: 'How hot do I pour?',
  short: `${speak.end('pour.nominal', 'value')}, measured in the cup; never under ${speak.end('pour.low', 'value')}, never over ${speak.end('pour.high', 'value')}.`,
  long: [
    `That is for ${given.plastisol.name.toLowerCase()}. Under the band it is not fused; over it, it may yellow and give off hydrogen chloride.`,
    'The safety data sheet of your compound comes first: if it names a lower limit, keep to that.',
  ],
  figures: ['pour.low', 'pour.nominal', 'pour.high'],
});

const shootCold: AnswerOf = ({ verdicts, features, speak }) => ({
  key: 'shoot-cold',
  question: 'Can I shoot it cold?',
  short: verdicts.cold.sentence,
  long: features.map(
    ({ label, reserveCold, reserveWarm }) =>
      `The ${label} fills ${speak.say(reserveCold.key)} times over in a cold mold and ${speak.say(reserveWarm.key)} times in a warm one; above 1 it fills.`,
  ),
  figures: ['fill.reserve.cold', 'fill.reserve.warm', 'fill.mold.needed', 'fill.warmUpShots'].filter(
    speak.has,
  ),
});

const shortTips: AnswerOf = ({ features, speak }) =>
  features.length === 0
    ? null
    : {
        key: 'short-tips',
        question: 'My thin parts come out short. What do I do?',
        short: `Warm the mold first, then pour nearer ${speak.end('pour.high', 'value')}, then push harder and without a pause. Do not touch the vents.`,
        long: [
          `The ${listed(features.map(({ label }) => label))} freeze first. Reach grows with the square of the gap and with the root of the pressure; a warm block is the cheapest help.`,
          'Never go above the hottest pour to fill a tip.',
        ],
        figures: ['pour.high', 'fill.reserve.cold', 'fill.reserve.warm'].filter(speak.has),
      };

const deeperVents: AnswerOf = ({ given, speak }) =>
  given.mold.vents.some(({ tier }) => tier === 'edge')
    ? {
        key: 'deeper-vents',
        question: 'Should I cut more or deeper vents?',
        short: `No. The air left in the cavity is ${speak.say('vent.backPressure')}, a small part of the push. Cut to ${speak.end('vent.flashThrough.edge', 'low')} deep they may flash through.`,
        long: [
          'Short tips come from plastisol that freezes on the way, not from air. Warm the mold instead.',
        ],
        figures: ['vent.backPressure', 'vent.flash.edge', 'vent.flashThrough.edge'],
      }
    : null;

const whenToOpen: AnswerOf = ({ speak }) => ({
  key: 'when-to-open',
  question: 'How long until I open it?',
  short: `About ${speak.end('heat.demoldTime', 'value')} in a run; wait ${speak.end('heat.demoldTime', 'high')} until you know your own pace.`,
  long: [
    `The first shot into a cold block sets in about ${speak.say('heat.demoldTimeCold')}. The thickest section decides.`,
  ],
  figures: ['heat.demoldTime', 'heat.demoldTimeCold', 'bait.thickestSection'],
});

const harderOrSofter: AnswerOf = ({ given, speak }) => ({
  key: 'which-plastisol',
  question: 'Which plastisol: softer, harder or salted?',
  short: `It is designed for ${given.plastisol.name.toLowerCase()}, typically ${speak.say('compound.hardness')}.`,
  long: [
    'Softer moves at slower speeds and tears sooner; firmer lasts longer. Salt makes it heavier and weaker.',
  ],
  figures: ['compound.hardness', 'compound.modulus'],
});

const floatOrSink: AnswerOf = ({ verdicts, speak }) => ({
  key: 'float-or-sink',
  question: 'Does it float, and how fast does it sink?',
  short: verdicts.float.sentence,
  long: ['Soft plastisol is almost as heavy as water: hook, salt and weight decide.'],
  figures: ['bait.density', 'float.sinkSpeed'].filter(speak.has),
});

const rigWords = (rig: string) => `${rig.charAt(0).toUpperCase()}${rig.slice(1)}`;

function otherRigs(rigs: readonly string[], named: string): string {
  const others = rigs.filter((rig) => rig !== named);
  return others.length > 0 ? `It is also made for: ${listed(others)}.` : '';
}

const whichHook: AnswerOf = ({ hook, given }) =>
  hook && {
    key: 'which-hook',
    question: 'Which hook, which rig?',
    short: `${rigWords(hook.rig)} with a ${sizeWords(hook.size)} ${hook.hook.name.toLowerCase()}. ${otherRigs(given.bait.rigs, hook.rig)}`,
    long: [`${hook.reason} Sizes differ between makers: measure the gape of yours.`],
    figures: [hook.clearance.key, hook.ratio.key],
  };

const safeToTouch: AnswerOf = ({ speak }) => ({
  key: 'safe-to-touch',
  question: 'How hot does the mold get, and when is it safe to touch?',
  short: `Up to ${speak.end('heat.blockSteady', 'high')} in a long run. Wear gloves, and let it rest ${speak.end('heat.safeToTouch', 'high')} before you touch it bare.`,
  long: [
    `The first shot warms the block by ${speak.say('heat.riseFirstShot')}. Bare metal burns in a minute from ${speak.end('burn.minuteLimit', 'low')} on.`,
  ],
  figures: ['heat.blockSteady', 'heat.safeToTouch', 'heat.riseFirstShot', 'burn.minuteLimit'],
});

const clamping: AnswerOf = ({ speak, given }) => ({
  key: 'clamping',
  question: 'How do I clamp it, and how hard?',
  short: `To at least ${speak.end('mold.clampForce', 'value')}; to ${speak.end('mold.clampForce', 'high')} if you lean on the plunger.${given.mold.clamping ? ` ${given.mold.clamping}` : ''}`,
  long: ['A toggle clamp presses with about half of its rated holding capacity.'],
  figures: ['mold.clampForce', 'mold.partingForce'],
});

const oneBaitWeighs: AnswerOf = ({ speak, given }) => ({
  key: 'bait-weight',
  question: 'What does one bait weigh?',
  short: `${speak.say('bait.mass')} in ${given.plastisol.name.toLowerCase()}, without the sprue.`,
  long: ['Low: no pressure is held while it cools. High: it is packed until it is cold.'],
  figures: ['bait.mass', 'bait.volume', 'bait.density'],
});

const shipping: AnswerOf = ({ speak }) => ({
  key: 'shipping-weight',
  question: 'What does the mold weigh, and the parcel?',
  short: `The mold weighs ${speak.say('mold.blockMass')}, the parcel about ${speak.say('mold.shippingMass')}.`,
  long: [
    'Worked out from the block less its cavities; pins, screws and what else is in the box come on top.',
  ],
  figures: ['mold.blockMass', 'mold.shippingMass'],
});

const ANSWERS: readonly AnswerOf[] = [
  shootCold,
  howMuchPlastic,
  howHot,
  whichInjector,
  howMany,
  shortTips,
  deeperVents,
  whenToOpen,
  harderOrSofter,
  floatOrSink,
  whichHook,
  safeToTouch,
  clamping,
  oneBaitWeighs,
  shipping,
];

/** The answers that this mold has, in the order people ask. */
export function answers(parts: AnswerParts): Answer[] {
  return ANSWERS.flatMap((answer) => answer(parts) ?? []);
}
