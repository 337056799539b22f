import type { Caution } from './sheet.ts';
import { signalWord, type Likelihood, type Severity } from './signal.ts';
import type { Speaker } from './words.ts';

interface Hazard extends Omit<Caution, 'signal'> {
  readonly severity: Severity;
  readonly likelihood: Likelihood;
}

type HazardOf = (speak: Speaker) => Hazard;

const dataSheetFirst: HazardOf = () => ({
  key: 'data-sheet-first',
  type: 'information',
  severity: 'no injury',
  likelihood: 'could',
  before: 'everything',
  hazard: 'This sheet does not replace the safety data sheet of your compound.',
  consequence:
    'Where this sheet and the data sheet, local codes or licensed practice differ, the stricter of them holds.',
  avoid: [
    'Read the safety data sheet of the compound, colours and hardener or softener before you heat them.',
    'Follow local codes on heating, ventilation and fire, and the advice of licensed professionals.',
  ],
  figures: [],
});

const hotPlastisol: HazardOf = (speak) => ({
  key: 'hot-plastisol',
  type: 'hot liquid',
  severity: 'death or serious injury',
  likelihood: 'could',
  before: 'heating',
  hazard: `Plastisol is poured at up to ${speak.end('pour.high', 'value')}. It sticks to skin and goes on burning.`,
  consequence: `Skin touched by it reaches about ${speak.say('burn.skinContact')} at once: a deep burn in less than a second.`,
  avoid: [
    'Wear a face shield or goggles, heat-proof gloves with long cuffs, long sleeves, long trousers and closed shoes.',
    'Keep children, pets and anyone without protection out of the room.',
    'Burned: cool the burn under cool running water for 20 minutes. Do not peel plastic off the skin. Use no ice, butter or cream. Get medical help for a deep or large burn, or one on face or hands.',
  ],
  figures: ['pour.high', 'burn.skinContact'],
});

const water: HazardOf = () => ({
  key: 'no-water',
  type: 'steam',
  severity: 'death or serious injury',
  likelihood: 'will',
  before: 'heating',
  hazard: 'Water in hot plastisol turns to steam and throws the plastisol out.',
  consequence:
    'One drop of water becomes more than a thousand times its volume of steam: hot plastisol erupts into face and hands.',
  avoid: [
    'Dry mold, injector, cups, stirrers, hooks and inserts completely; warm them before use.',
    'Keep drinks, wet cloths and wet hands away. Never cool a mold in water and shoot it wet.',
    'Never put water on burning or overheated plastisol.',
  ],
  figures: [],
});

const overheating: HazardOf = (speak) => ({
  key: 'overheating',
  type: 'toxic gas',
  severity: 'death or serious injury',
  likelihood: 'could',
  before: 'heating',
  hazard: `Above ${speak.end('pour.degradation', 'low')} the compound may break down and give off hydrogen chloride.`,
  consequence:
    'Hydrogen chloride harms lungs and eyes: the legal ceiling at work is 5 ppm (OSHA), 45 ppm is immediately dangerous (NIOSH, 2025), and its smell is no warning in time.',
  avoid: [
    `Measure the temperature with a thermometer; stop heating at ${speak.end('pour.high', 'value')}.`,
    'Work outdoors or under an extractor that leads outside.',
    'If it yellows, browns or smokes: switch the heat off, leave, ventilate. Do not breathe the fumes and do not go back until it is cold.',
  ],
  figures: ['pour.degradation', 'pour.high'],
});

const fire: HazardOf = (speak) => ({
  key: 'fire',
  type: 'fire',
  severity: 'death or serious injury',
  likelihood: 'could',
  before: 'heating',
  hazard: `The plasticiser can catch fire: its flash point is about ${speak.say('pour.flashPoint')}, ${speak.end('pour.flashMargin', 'low')} above the hottest pour given here.`,
  consequence: 'Overheated plastisol burns like hot oil.',
  avoid: [
    'Heat with a thermostat and never leave it alone.',
    'Keep a lid that fits and an extinguisher rated for hot oil within reach. Never use water.',
    'Use vessels and a microwave or hot plate that are never used for food.',
  ],
  figures: ['pour.flashPoint', 'pour.flashMargin'],
});

const squirt: HazardOf = (speak) => ({
  key: 'clamp-first',
  type: 'pressure',
  severity: 'death or serious injury',
  likelihood: 'could',
  before: 'shooting',
  hazard: `A full push presses the halves apart with up to ${speak.end('mold.partingForce', 'high')}.`,
  consequence: 'Halves that open under the push spray hot plastisol sideways.',
  avoid: [
    `Clamp the mold to at least ${speak.end('mold.clampForce', 'value')} before you shoot; to ${speak.end('mold.clampForce', 'high')} if you lean on the plunger.`,
    'Seat the injector square on the sprue, keep your face out of the parting line, and push steadily.',
    'Do not pull the injector off while it is under pressure.',
  ],
  figures: ['mold.partingForce', 'mold.clampForce'],
});

const earlyOpening: HazardOf = (speak) => ({
  key: 'wait-to-open',
  type: 'hot liquid',
  severity: 'minor or moderate injury',
  likelihood: 'could',
  before: 'opening',
  hazard: `The thickest section needs about ${speak.say('heat.demoldTime')} before it is firm to the middle.`,
  consequence:
    'Opened early, hot plastisol runs out of the middle and the sprue, burns hands and tears the bait.',
  avoid: [
    `Wait at least ${speak.end('heat.demoldTime', 'high')} for the first shots, until you know your own pace.`,
    'Open with gloves on, away from your face. The sprue stays hot longest.',
  ],
  figures: ['heat.demoldTime'],
});

/** Warmed beforehand or by its own shots, whichever is the hotter. */
function hottestBlock(speak: Speaker): string {
  const told = speak.has('fill.mold.first') ? speak.figure('fill.mold.first').high : -Infinity;
  return told > speak.figure('heat.blockSteady').high ? 'fill.mold.first' : 'heat.blockSteady';
}

const hotBlock: HazardOf = (speak) => ({
  key: 'hot-block',
  type: 'hot surface',
  severity: 'minor or moderate injury',
  likelihood: 'could',
  before: 'opening',
  hazard: `${speak.has('fill.mold.first') ? `The block is warmed to ${speak.end('fill.mold.first', 'value')} before the first shot; shot` : 'Shot'} after shot it can reach ${speak.end(hottestBlock(speak), 'high')}.`,
  consequence: `Bare metal burns skin in a minute from ${speak.end('burn.minuteLimit', 'low')} on and in a second from ${speak.end('burn.touchLimit', 'low')} on.`,
  avoid: [
    ...(speak.has('fill.mold.first')
      ? [
          'Warm it dry, on a hot plate set low or with its own shots, never with a flame, and measure its face.',
        ]
      : []),
    `Handle the block with gloves; let it rest ${speak.end('heat.safeToTouch', 'high')} after the last shot before you touch it bare.`,
    'Put it down on something that cannot burn, out of reach of children.',
  ],
  figures: [
    'fill.mold.first',
    'heat.blockSteady',
    'burn.minuteLimit',
    'burn.touchLimit',
    'heat.safeToTouch',
  ].filter(speak.has),
});

const leaveVents: HazardOf = () => ({
  key: 'leave-vents',
  type: 'damage to the mold',
  severity: 'no injury',
  likelihood: 'could',
  before: 'afterwards',
  hazard: 'Deeper vents do not help a bait to fill.',
  consequence: 'They let plastisol through: flash on every bait, and a mold that cannot be put right.',
  avoid: ['Keep vents clean and as they were cut. If tips come short, warm the mold first.'],
  figures: [],
});

const HAZARDS: readonly HazardOf[] = [
  water,
  hotPlastisol,
  overheating,
  fire,
  squirt,
  earlyOpening,
  hotBlock,
  dataSheetFirst,
  leaveVents,
];

const RANK = { DANGER: 0, WARNING: 1, CAUTION: 2, NOTICE: 3 } as const;

/** Every caution that the sheet's figures call for, most severe first. */
export function cautions(speak: Speaker, hasVents: boolean): Caution[] {
  return HAZARDS.filter((hazard) => hasVents || hazard !== leaveVents)
    .map((hazard) => {
      const { severity, likelihood, ...rest } = hazard(speak);
      return { ...rest, signal: signalWord(severity, likelihood) };
    })
    .sort((a, b) => RANK[a.signal] - RANK[b.signal]);
}
