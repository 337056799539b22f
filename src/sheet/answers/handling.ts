import { blockSizes, type AnswerOf } from './answer.ts';

export const whenToOpen: AnswerOf = ({ speak }) => ({
  key: 'when-to-open',
  question: 'How long until I open it?',
  words: ['open', 'wait', 'cool', 'cooling time', 'demold', 'how long', 'minutes'],
  short: `Open it after about ${speak.end('heat.demoldTime', 'value')} in a run; wait ${speak.end('heat.demoldTime', 'high')} until you know your own pace.`,
  long: [
    `The first shot into a cold block sets in about ${speak.say('heat.demoldTimeCold')}. The thickest section decides: ${speak.say('bait.thickestSection')}.`,
  ],
  figures: ['heat.demoldTime', 'heat.demoldTimeCold', 'bait.thickestSection'],
  guide: 'first-shots/#wait-then-open',
});

export const safeToTouch: AnswerOf = ({ speak }) => ({
  key: 'safe-to-touch',
  question: 'How hot does the mold get, and when is it safe to touch?',
  words: ['touch', 'burn', 'hot mold', 'safe', 'gloves', 'cool down', 'block temperature'],
  short: `It reaches ${speak.end('heat.blockSteady', 'high')} in a long run. Wear gloves, and let it rest ${speak.end('heat.safeToTouch', 'high')} before you touch it bare.`,
  long: [
    `The first shot warms the block by ${speak.say('heat.riseFirstShot')}. Bare metal burns in a minute from ${speak.end('burn.minuteLimit', 'low')} on.`,
  ],
  figures: ['heat.blockSteady', 'heat.safeToTouch', 'heat.riseFirstShot', 'burn.minuteLimit'],
  guide: 'hot-plastisol/#clamp-shoot-wait',
});

export const clamping: AnswerOf = ({ speak, given }) => ({
  key: 'clamping',
  question: 'How do I clamp it, and how hard?',
  words: ['clamp', 'force', 'toggle', 'hold shut', 'pressure', 'bolts'],
  short: `Clamp to at least ${speak.end('mold.clampForce', 'value')}, and to ${speak.end('mold.clampForce', 'high')} if you lean on the plunger.${given.mold.clamping ? ` ${given.mold.clamping}` : ''}`,
  long: [
    `A full push opens the halves with ${speak.say('mold.partingForce')}; half as much again holds them.`,
    'A toggle clamp presses with about half of its rated holding capacity.',
  ],
  figures: ['mold.clampForce', 'mold.partingForce'],
  guide: 'first-shots/#clamp-it',
});

export const cleaning: AnswerOf = ({ speak }) => ({
  key: 'cleaning',
  question: 'How do I clean, oil and store the mold?',
  words: ['clean', 'cleaning', 'release', 'oil', 'store', 'storage', 'sticking', 'wash', 'care'],
  short: `Let it rest ${speak.end('heat.safeToTouch', 'high')}, then wipe it with a soft dry cloth and lift residue with wood or plastic, never steel. A trace of bait oil is release enough. Store it shut, dry and padded.`,
  long: [
    'Wash it only cold, with mild soap; dry it, then warm it until no drop is left in vents and pin holes. A wet mold erupts at the next shot.',
    'Brush vents along their length with a nylon brush. Never scrape, file or sand parting faces and vents.',
  ],
  figures: ['heat.safeToTouch'],
  guide: 'care/#after-every-session',
});

export const shipping: AnswerOf = ({ speak, given }) => ({
  key: 'shipping-weight',
  question: 'What does the mold weigh, and the parcel; how big is it?',
  words: ['shipping', 'weight', 'size', 'dimensions', 'parcel', 'postage', 'how big'],
  short: `The mold weighs ${speak.say('mold.blockMass')}, the parcel about ${speak.say('mold.shippingMass')}. The closed block is ${blockSizes(given)}.`,
  long: [
    'Worked out from the block less its cavities; pins, screws and what else is in the box come on top.',
  ],
  figures: ['mold.blockMass', 'mold.shippingMass'],
  guide: 'care/#moving-and-shipping',
});

export const safetyGear: AnswerOf = ({ speak }) => ({
  key: 'safety-gear',
  question: 'What safety gear do I need, and what about fumes?',
  words: [
    'safety',
    'fumes',
    'gear',
    'mask',
    'gloves',
    'smoke',
    'ventilation',
    'respirator',
    'first aid',
    'burned',
  ],
  short: `Wear a face shield, heat-proof gloves with long cuffs, long sleeves, closed shoes; work outdoors or under an extractor. It is poured at up to ${speak.end('pour.high', 'value')}, and a splash takes skin to ${speak.end('burn.skinContact', 'high')} at once. Read the data sheet first.`,
  long: [
    `Above ${speak.end('pour.degradation', 'low')} it may give off hydrogen chloride: 5 ppm is the legal ceiling at work (OSHA), 45 ppm is immediately dangerous (NIOSH, 2025). A dust mask does not stop it.`,
    'Burned: 20 minutes of cool running water at once. Do not peel the plastic off. Get medical help.',
    'No water near hot plastic; children and pets out of the room.',
  ],
  figures: ['pour.high', 'burn.skinContact', 'pour.degradation', 'pour.flashMargin'],
  guide: 'hot-plastisol/#dress-for-a-splash',
});
