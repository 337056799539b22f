import { howMany, howMuchPlastic, oneBaitWeighs, remelting, whichInjector } from './answers/amount.ts';
import type { AnswerOf, AnswerParts } from './answers/answer.ts';
import { floatOrSink, whichHook, whichMold, whichRevision } from './answers/choosing.ts';
import { clamping, cleaning, safeToTouch, safetyGear, shipping, whenToOpen } from './answers/handling.ts';
import { harderOrSofter, howHot, shootCold, twoColours } from './answers/pouring.ts';
import { bubblesAndDents, deeperVents, flash, shortTips } from './answers/trouble.ts';
import type { Answer } from './sheet.ts';

const ANSWERS: readonly AnswerOf[] = [
  shootCold,
  howMuchPlastic,
  whichInjector,
  howHot,
  howMany,
  shortTips,
  deeperVents,
  flash,
  bubblesAndDents,
  whenToOpen,
  safeToTouch,
  clamping,
  safetyGear,
  harderOrSofter,
  twoColours,
  remelting,
  floatOrSink,
  whichHook,
  oneBaitWeighs,
  cleaning,
  whichMold,
  whichRevision,
  shipping,
];

/** The answers to every question that customers ask, in the order they ask them. */
export function answers(parts: AnswerParts): Answer[] {
  return ANSWERS.map((answer) => answer(parts));
}
