import { cavityWords, listed } from '../words.ts';
import type { AnswerOf } from './answer.ts';

export const shortTips: AnswerOf = ({ features, speak, given }) => {
  const thin = features.length > 0;
  const names = listed(features.map(({ label }) => label));
  return {
    key: 'short-tips',
    question: 'My thin parts come out short. What do I do?',
    words: ['short', 'short tips', 'short shot', 'tail missing', 'not filling', 'incomplete', 'tips'],
    short: thin
      ? `Warm the mold ${speak.has('fill.mold.first') ? `to ${speak.end('fill.mold.first', 'value')} ` : ''}first, then pour nearer ${speak.end('pour.high', 'value')}, then push harder and without a pause. Do not touch the vents.`
      : `This bait has no thin part. If it comes short, draw the whole ${speak.end('shot.total', 'high')}, pour at ${speak.end('pour.nominal', 'value')} and push without a pause.`,
    long: [
      thin
        ? `The ${names} freeze${names.endsWith('s') || names.includes(' and ') ? '' : 's'} first. Reach grows with the square of the gap and with the root of the pressure; a warm block is the cheapest help.`
        : `Plastic that stood too long in cup or injector is the usual reason: ${cavityWords(given.mold.cavities.length)} must fill in one push.`,
      'Never go above the hottest pour to fill a tip.',
    ],
    figures: ['pour.high', 'shot.total', 'fill.reserve.cold', 'fill.reserve.warm'].filter(speak.has),
    guide: 'first-shots/#when-tips-come-short',
  };
};

export const deeperVents: AnswerOf = ({ given, speak }) => {
  const edge = given.mold.vents.some(({ tier }) => tier === 'edge');
  const air = speak.has('vent.backPressure')
    ? ` The air left in the cavity is ${speak.say('vent.backPressure')}, a small part of the push.`
    : ' Air leaves along the parting line.';
  return {
    key: 'deeper-vents',
    question: 'Should I cut more or deeper vents?',
    words: ['vents', 'deeper', 'cut vents', 'more vents', 'file', 'trapped air', 'venting'],
    short: `No, leave them as they are.${air}${edge ? ` Cut to ${speak.end('vent.flashThrough.edge', 'low')} deep they may flash through.` : ''} For short tips warm the mold instead.`,
    long: [
      'Short tips come from plastisol that freezes on the way, not from air.',
      'A vent that is cut too deep leaves flash on every bait and cannot be put right.',
    ],
    figures: ['vent.backPressure', 'vent.flash.edge', 'vent.flashThrough.edge'].filter(speak.has),
    guide: 'venting/#why-deeper-does-not-help',
  };
};

export const flash: AnswerOf = ({ speak, given }) => ({
  key: 'flash',
  question: 'I get flash along the edge. Why?',
  words: ['flash', 'thin film', 'skin at the edge', 'leaks', 'seam', 'parting line'],
  short: `The halves stand apart. Clean both faces, seat the pins, clamp to ${speak.end('mold.clampForce', 'value')}, and to ${speak.end('mold.clampForce', 'high')} if you lean on the plunger. Push no harder than it takes to fill.`,
  long: [
    `A full push opens the mold with ${speak.say('mold.partingForce')}.`,
    given.mold.vents.length > 0
      ? 'Flash at the vents alone means that they were cut deeper or are worn. A film no longer than the land is normal.'
      : 'A crumb of old plastic between the faces is the usual reason when clamping does not cure it.',
    'A block that has grown hot in a run flashes sooner: let it rest.',
  ],
  figures: ['mold.clampForce', 'mold.partingForce', 'vent.flash.edge'].filter(speak.has),
  guide: 'faults/#flash',
});

export const bubblesAndDents: AnswerOf = ({ speak }) => ({
  key: 'bubbles-and-dents',
  question: 'I get bubbles, dents or a sunken sprue end. Why?',
  words: ['bubbles', 'dents', 'sink', 'sunken', 'holes', 'hollow', 'voids', 'air', 'shrink'],
  short: `Dents: keep the plunger down while it cools, since the bait draws in ${speak.end('shot.topOff', 'value')}, at most ${speak.end('shot.topOff', 'high')}. Bubbles: stir slowly, let the compound rest, draw without air, dry everything.`,
  long: [
    `The thickest section, ${speak.say('bait.thickestSection')}, shrinks last and pulls the sprue end in. Leave a full sprue above the gate.`,
    `Bubbles that grow near ${speak.end('pour.high', 'value')} are moisture or the start of break-down: lower the heat.`,
    `Opened before ${speak.end('heat.demoldTime', 'value')} are over, the bait sinks in your hand.`,
  ],
  figures: ['shot.topOff', 'bait.thickestSection', 'heat.demoldTime', 'pour.high'],
  guide: 'faults/#dents',
});
