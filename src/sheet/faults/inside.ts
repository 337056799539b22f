import { inOrder, share, type FaultOf } from './fault.ts';

export const bubbles: FaultOf = ({ speak }) => ({
  key: 'fault-bubbles',
  name: 'Bubbles',
  looks: 'Round holes or strings of tiny bubbles inside or at the surface.',
  words: ['bubbles', 'foam', 'holes', 'air inside', 'pinholes'],
  causes: inOrder([
    {
      weight: 0.8,
      cause: 'Air stirred or drawn in',
      why: `A thick liquid lets bubbles rise slowly; the colder, the slower. Below ${speak.end('pour.low', 'value')} they stay.`,
      cure: 'Stir slowly, let it stand before you draw, keep the tip under, push out the first drop.',
    },
    {
      weight: 0.7,
      cause: 'Moisture',
      why: 'Damp salt, colour, glitter, cups or mold boil into steam far below the pour. It can also erupt.',
      cure: 'Dry and warm everything that touches the plastic.',
    },
    {
      weight: 0.5,
      cause: 'Too hot',
      why: `From ${speak.end('pour.degradation', 'low')} on the compound may give off gas of its own, and it harms.`,
      cure: `Stay below ${speak.end('pour.high', 'value')}. If it smokes or stings, switch off and leave.`,
    },
    {
      weight: 0.3,
      cause: 'A push that tumbles',
      why: 'Plastic that shoots through the gate in a jet folds air in.',
      cure: 'Begin gently until the gate is covered, then push steadily.',
    },
  ]),
  figures: ['pour.low', 'pour.high', 'pour.degradation'],
  guide: 'faults/#bubbles',
});

export const dents: FaultOf = ({ speak }) => ({
  key: 'fault-dents',
  name: 'Dents',
  looks: 'Shallow hollows on the thickest part, or a flat side.',
  words: ['dents', 'sink marks', 'hollow', 'dimples', 'flat side', 'shrink'],
  causes: inOrder([
    {
      weight: 0.9,
      cause: 'The plunger was let go too soon',
      why: `While it cools the mold draws in ${speak.end('shot.topOff', 'value')}, at most ${speak.end('shot.topOff', 'high')}. Without it the skin is sucked in.`,
      cure: 'Keep up a light pressure until the sprue no longer takes any.',
    },
    {
      weight: 0.6,
      cause: 'Opened too soon',
      why: `The middle of the ${speak.end('bait.thickestSection', 'value')} section needs ${speak.end('heat.demoldTime', 'value')}, at the long end ${speak.end('heat.demoldTime', 'high')}.`,
      cure: 'Wait longer, and lay the baits flat and straight.',
    },
    {
      weight: 0.4,
      cause: 'Poured hotter than needed',
      why: `It shrinks in proportion to its fall in heat: ${speak.end('pour.high', 'value')} shrinks more than ${speak.end('pour.nominal', 'value')}.`,
      cure: `Pour at ${speak.end('pour.nominal', 'value')} once the block is warm.`,
    },
  ]),
  figures: ['shot.topOff', 'bait.thickestSection', 'heat.demoldTime'],
  guide: 'faults/#dents',
});

export const sunkenSprue: FaultOf = ({ speak, given }) => ({
  key: 'fault-sunken-sprue',
  name: 'Sunken sprue end',
  looks: 'The end of the bait at the gate is hollow, pitted or pulled in.',
  words: ['sunken', 'sprue end', 'hollow nose', 'pit', 'crater', 'pulled in'],
  causes: inOrder([
    {
      weight: 0.9,
      cause: 'The sprue was not left full',
      why: `The bait takes its top-off, up to ${speak.end('shot.topOff', 'high')}, from the sprue. An empty one gives air.`,
      cure: 'Lift the injector off slowly and leave the sprue brim-full; fill up once if it sinks.',
    },
    {
      weight: share(1 - given.mold.gate.depth / given.geometry.thickest.thickness),
      cause: 'The gate froze before the body',
      why: `The thickest section, ${speak.end('bait.thickestSection', 'value')}, cools more slowly than the gate that feeds it.`,
      cure: 'Warm the block, and keep the pressure on from the first second.',
    },
    {
      weight: 0.5,
      cause: 'Air at the end of the injector',
      why: `The last of the ${speak.end('shot.total', 'value')} is air when the injector was drawn too scantly.`,
      cure: 'Draw more than the shot and stop before the plunger bottoms.',
    },
  ]),
  figures: ['shot.topOff', 'bait.thickestSection', 'shot.total'],
  guide: 'faults/#sunken-sprue-end',
});
