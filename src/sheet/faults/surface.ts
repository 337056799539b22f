import { inOrder, share, type FaultOf } from './fault.ts';

export const sticking: FaultOf = ({ speak, given }) => ({
  key: 'fault-sticking',
  name: 'Sticking',
  looks: 'The bait clings to one half, stretches or leaves skin behind.',
  words: ['sticks', 'stuck', 'hard to remove', 'release', 'clings'],
  causes: inOrder([
    {
      weight: 0.7,
      cause: 'Opened too soon or too hot',
      why: `It is firm to the middle after ${speak.end('heat.demoldTime', 'value')}, at the long end after ${speak.end('heat.demoldTime', 'high')}.`,
      cure: 'Wait, then lift at the sprue and roll the bait out along its length.',
    },
    {
      weight: share(speak.figure('heat.blockSteady').value / 120),
      cause: 'The block has grown too hot in the run',
      why: `Without a rest this block settles at ${speak.end('heat.blockSteady', 'value')}, at worst ${speak.end('heat.blockSteady', 'high')}.`,
      cure: 'Let it rest with the halves apart, or use two molds in turn.',
    },
    {
      weight: 0.4,
      cause: 'A dirty or scratched cavity',
      why: `Burnt residue and scratches hold soft plastic; thin parts, here ${speak.end('bait.thinnestFeature', 'value')}, feel it first.`,
      cure: 'Clean it cold with mild soap, dry it through, and wipe in a trace of bait oil.',
    },
    {
      weight: given.plastisol.recipe.phr > 500 ? 0.5 : 0.2,
      cause: 'A very soft compound',
      why: `Typical here is ${speak.end('compound.hardness', 'value')}; softer is tackier.`,
      cure: 'Wait longer, or go one step firmer.',
    },
  ]),
  figures: ['heat.demoldTime', 'heat.blockSteady', 'bait.thinnestFeature', 'compound.hardness'],
  guide: 'faults/#sticking',
});

export const tearing: FaultOf = ({ speak, given }) => ({
  key: 'fault-tearing',
  name: 'Tearing',
  looks: 'A tail or leg rips while you take it out, or on the hook.',
  words: ['tears', 'rips', 'breaks', 'weak', 'splits'],
  causes: inOrder([
    {
      weight: 0.8,
      cause: 'Not fused',
      why: `Plastic that never reached ${speak.end('pour.low', 'value')} throughout stays cloudy, cheesy and weak.`,
      cure: `Stir, measure in several places, and pour at ${speak.end('pour.nominal', 'value')}.`,
    },
    {
      weight: 0.6,
      cause: 'Opened too soon',
      why: `Hot plastic has little strength: wait ${speak.end('heat.demoldTime', 'value')} or more.`,
      cure: 'Lift thick parts first, and let thin ones follow.',
    },
    {
      weight: share(0.9 - 100 * speak.figure('bait.thinnestFeature').low * 0.001),
      cause: 'The part is thin',
      why: `Its thinnest part measures ${speak.say('bait.thinnestFeature')}.`,
      cure: 'Choose a firmer compound, or lift it out colder.',
    },
    {
      weight: given.plastisol.recipe.salt > 0 ? 0.7 : 0.2,
      cause: 'Salt or too much softener',
      why:
        given.plastisol.recipe.salt > 0
          ? `${given.plastisol.name} holds salt, and every grain is a notch.`
          : 'Every grain of salt is a notch, and softener thins the bond.',
      cure: 'Use finer or less salt, or a firmer base.',
    },
  ]),
  figures: ['pour.low', 'heat.demoldTime', 'bait.thinnestFeature'],
  guide: 'faults/#tearing',
});

export const haze: FaultOf = ({ speak }) => ({
  key: 'fault-haze',
  name: 'Haze',
  looks: 'A milky, dull or cloudy bait where a clear one was wanted.',
  words: ['haze', 'cloudy', 'milky', 'dull', 'not clear', 'foggy'],
  causes: inOrder([
    {
      weight: 0.8,
      cause: 'Not hot enough throughout',
      why: `The powder dissolves fully from ${speak.end('pour.low', 'value')} on; a cold core stays milky.`,
      cure: `Stir and heat again, up to ${speak.end('pour.high', 'value')}, until it is clear.`,
    },
    {
      weight: 0.6,
      cause: 'Moisture or fine bubbles',
      why: 'Steam too fine to see scatters light.',
      cure: 'Dry colours, salt and cups, and let the cup stand before you draw.',
    },
    {
      weight: 0.4,
      cause: 'Shot into a cold block',
      why: `A block at room heat freezes the skin at once; one shot warms it by ${speak.end('heat.riseFirstShot', 'value')}.`,
      cure: 'Warm the block with a few shots.',
    },
  ]),
  figures: ['pour.low', 'pour.high', 'heat.riseFirstShot'],
  guide: 'faults/#haze',
});

export const yellowing: FaultOf = ({ speak }) => ({
  key: 'fault-yellowing',
  name: 'Yellowing',
  looks: 'Clear plastic turns amber, tan or brown, in the cup or in the bait. Leave it and ventilate.',
  words: ['yellow', 'brown', 'amber', 'burnt', 'scorched', 'discoloured'],
  causes: inOrder([
    {
      weight: 1,
      cause: 'Overheated',
      why: `It may break down from ${speak.end('pour.degradation', 'low')} on and give off hydrogen chloride; the hottest pour is ${speak.end('pour.high', 'value')}.`,
      cure: 'Heat off, leave, ventilate. Throw it away once it is cold; do not use it.',
    },
    {
      weight: 0.7,
      cause: 'Heated too often or too long',
      why: `Every heating uses up stabiliser. ${speak.end('shot.sprueShare', 'value')} of each shot here comes back as sprue.`,
      cure: 'Melt sprues once or twice, mixed with fresh compound, and keep the pot hot only while you shoot.',
    },
    {
      weight: 0.5,
      cause: 'Hot spots',
      why: 'A microwave heats unevenly: part of the cup can be far above the rest.',
      cure: 'Heat in short turns, stir every time, and measure after stirring.',
    },
  ]),
  figures: ['pour.degradation', 'pour.high', 'shot.sprueShare'],
  guide: 'faults/#yellowing',
});
