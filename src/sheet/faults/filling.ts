import { listed } from '../words.ts';
import { inOrder, share, type FaultOf, type FaultParts, type WeighedCause } from './fault.ts';

function frozen({ speak, features }: FaultParts): WeighedCause[] {
  if (!speak.has('fill.reserve.cold')) return [];
  const thin = listed(features.map(({ label }) => label));
  return [
    {
      weight: share(1 / Math.max(speak.figure('fill.reserve.cold').low, 0.1)),
      cause: 'The mold is cold',
      why: `The fill reserve of the ${thin} in a cold mold can be as low as ${speak.end('fill.reserve.cold', 'low')}; under 1 the tip stays short. A warm mold lifts that to ${speak.end('fill.reserve.warm', 'low')}.`,
      cure: speak.has('fill.mold.first')
        ? `Warm the block to ${speak.end('fill.mold.first', 'value')} before the first shot, and melt short baits again.`
        : 'Shoot some baits to warm the block, or warm it beforehand, and melt the first ones again.',
    },
  ];
}

function tooLittle({ speak, given }: FaultParts): WeighedCause {
  const { injector, shot } = given;
  return {
    weight: injector ? share(shot.total.high / injector.capacity) * 0.8 : 1,
    cause: 'Too little plastic in the injector',
    why: `The mold takes up to ${speak.end('shot.total', 'high')} hot. ${injector ? `A ${injector.name.toLowerCase()} holds it when it is filled without air.` : 'No listed injector gives that in one push.'}`,
    cure: 'Draw slowly with the tip well under, and fill the injector with some to spare.',
  };
}

const lightPush = ({ speak, given }: FaultParts): WeighedCause => ({
  weight: 0.45,
  cause: 'A slow or broken push',
  why: `A usual push gives ${speak.end('shot.pressure', 'value')} under the ${given.pushedWith.name.toLowerCase()}, a gentle one ${speak.end('shot.pressure', 'low')}. Reach goes with the root of it.`,
  cure: 'Push steadily, within a few seconds, and do not stop until the sprue stands full.',
});

const coolMelt = ({ speak }: FaultParts): WeighedCause => ({
  weight: 0.5,
  cause: 'The plastic had cooled',
  why: `It is meant to be ${speak.end('pour.nominal', 'value')} in the cup; below ${speak.end('pour.low', 'value')} it is not even fused.`,
  cure: `Warm injector and cup, measure, shoot at once. Never above ${speak.end('pour.high', 'value')}.`,
});

function blocked({ speak }: FaultParts): WeighedCause {
  const known = speak.has('vent.backPressure');
  return {
    weight: known
      ? share(speak.figure('vent.backPressure').high / speak.figure('shot.pressure').low) * 0.5
      : 0.1,
    cause: 'Vents blocked by old plastic',
    why: known
      ? `Clean, they hold back no more than ${speak.end('vent.backPressure', 'high')}. Blocked, air has nowhere to go.`
      : 'This mold lists no vents: air leaves along the parting line.',
    cure: 'Brush them along their length. Never cut them deeper.',
  };
}

export const shortShot: FaultOf = (parts) => ({
  key: 'fault-short-shot',
  name: 'Short shot',
  looks: 'A tip, claw or tail ends early, with a rounded, shiny edge.',
  words: ['short', 'tail missing', 'not full', 'incomplete', 'rounded tip'],
  causes: inOrder([...frozen(parts), tooLittle(parts), coolMelt(parts), lightPush(parts), blocked(parts)]),
  figures: ['fill.reserve.cold', 'fill.reserve.warm', 'shot.total', 'pour.nominal'].filter(parts.speak.has),
  guide: 'faults/#short-shot',
});

export const flashed: FaultOf = ({ speak, given }) => ({
  key: 'fault-flash',
  name: 'Flash',
  looks: 'A thin film along the edge of the bait, or little flaps at the vents.',
  words: ['flash', 'film', 'flaps', 'leaks', 'seam line'],
  causes: inOrder([
    {
      weight: share(speak.figure('mold.clampForce').value / speak.figure('mold.clampForce').high) + 0.4,
      cause: 'The halves are not clamped hard enough',
      why: `A usual push wants ${speak.end('mold.clampForce', 'value')}; leaning on the plunger wants ${speak.end('mold.clampForce', 'high')}.`,
      cure: `Add clamps near the cavities, or push less. ${given.mold.clamping ?? ''}`.trim(),
    },
    {
      weight: 0.6,
      cause: 'Something lies between the halves',
      why: `A crumb of 0.1 mm (0.004 in) opens the whole parting line by as much.`,
      cure: 'Wipe both faces and the pin holes before every closing.',
    },
    {
      weight: 0.4,
      cause: 'The plastic is too hot and thin, or the push too hard',
      why: `${speak.end('pour.high', 'value')} is the hottest pour; leaning on the plunger gives ${speak.end('shot.pressure', 'high')}.`,
      cure: `Go back to ${speak.end('pour.nominal', 'value')} and stop pushing when the sprue is full.`,
    },
    ...(speak.has('vent.flashThrough.edge')
      ? [
          {
            weight: 0.2,
            cause: 'Vents were cut deeper, or are worn',
            why: `As cut, plastic enters them by about ${speak.end('vent.flash.edge', 'value')} and stops. From ${speak.end('vent.flashThrough.edge', 'low')} deep it may run through.`,
            cure: 'Leave them as they are; a deepened vent cannot be filled up again. Ask the maker.',
          },
        ]
      : []),
  ]),
  figures: ['mold.clampForce', 'shot.pressure', 'vent.flash.edge', 'vent.flashThrough.edge'].filter(
    speak.has,
  ),
  guide: 'faults/#flash',
});
