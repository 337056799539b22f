import type { Figure } from '../core/quantity/figure.ts';
import { handPressure } from '../core/mold/clamp.ts';
import { wholeShots } from '../core/shot/injector-fit.ts';
import { figure, figureInput } from '../core/quantity/figure.ts';
import { band } from '../core/quantity/band.ts';
import { actionFigures, sheetAction } from './action-figures.ts';
import { answers } from './answers.ts';
import { baitFigures } from './bait-figures.ts';
import { batchRows, yieldFigures } from './batches.ts';
import type { Case } from './case.ts';
import { cautions } from './cautions.ts';
import { faults } from './faults.ts';
import { cutsOf } from './cuts.ts';
import { baitEdges } from './edge-study.ts';
import { compoundFigures } from './compound-figures.ts';
import { featureFills, fillFigures } from './fill-figures.ts';
import { sheetFilling } from './fill-sheet.ts';
import { fillModel, fillStudies } from './fill-study.ts';
import { firstShot, firstShotFigures } from './first-shot.ts';
import { floatStudy, type FloatStudy } from './float-study.ts';
import { heatFigures } from './heat-figures.ts';
import { heatStudy } from './heat-study.ts';
import { bestHook, hookedSide, hookFits, rigsOf } from './hooks.ts';
import { moldFigures } from './mold-figures.ts';
import { planFacts } from './plan-facts.ts';
import { pourFigures } from './pour-figures.ts';
import { HAND_FORCE } from './practice.ts';
import type { HookFit, InjectorFit, Sheet } from './sheet.ts';
import { rigAdvice } from './rig-advice.ts';
import { shotFigures } from './shot-figures.ts';
import { SOURCES } from './sources.ts';
import { trialStudy } from './trial-study.ts';
import { madeBy } from './variants.ts';
import { ventFigures } from './vent-figures.ts';
import { coldVerdict, floatVerdict, injectorVerdict, warmUpFigure } from './verdicts.ts';
import { makerWarnings } from './warnings.ts';
import type { Tools } from './tools.ts';
import { wallStudy, type WallMap } from './wall-study.ts';
import { speaker } from './words.ts';

function injectorFits({ catalogue, shot }: Case): InjectorFit[] {
  return [...catalogue.injectors]
    .sort((a, b) => a.capacity - b.capacity)
    .map((injector) => {
      const shots = wholeShots(shot.total, injector.capacity);
      return {
        injector,
        shots,
        holds: shots >= 1,
        pressure: figure(
          {
            key: `injector.${injector.id}.pressure`,
            label: `Pressure under the plunger, ${injector.name.toLowerCase()}`,
            unit: 'kPa',
            basis: 'One hand on the plunger: a gentle push, a usual one, leaning on it.',
            formula: 'P = F/(π·d²/4)',
            inputs: [
              figureInput('hand', HAND_FORCE, 'N'),
              figureInput('piston d', band(injector.piston), 'mm'),
            ],
            sources: [SOURCES.clamp, HAND_FORCE.source, injector.source],
          },
          handPressure(injector.piston, HAND_FORCE),
        ),
      };
    });
}

function byKey(figures: readonly Figure[]): Record<string, Figure> {
  const all: Record<string, Figure> = {};
  for (const one of figures) {
    if (all[one.key]) throw new RangeError(`sheetOf: wants each figure once, got "${one.key}" twice`);
    all[one.key] = one;
  }
  return all;
}

/** Other published molds of the same bait. */
function siblingsOf({ catalogue, bait, mold }: Case): Sheet['siblings'] {
  return catalogue.molds.filter(
    ({ id, status, bait: of }) =>
      of === bait.id && id !== mold.id && (status === 'final' || status === 'retired'),
  );
}

/** Figures that follow from the case alone. */
function ownFigures(given: Case): Figure[] {
  return [
    ...baitFigures(given),
    ...shotFigures(given),
    ...pourFigures(given),
    ...ventFigures(given),
    ...moldFigures(given),
    ...compoundFigures(given),
    ...yieldFigures(given),
  ];
}

/** Figures of the hooks that are named first on their rig, and where they lie in the bait. */
function hookFigures(hooks: Sheet['hooks'], rigs: Sheet['rigs']): Figure[] {
  const best = hooks.filter(({ verdict }) => verdict === 'best');
  return [
    ...best.flatMap(({ clearance, ratio }) => [clearance, ratio]),
    ...rigs.flatMap(({ stations }) => stations),
  ];
}

function verdictsOf(
  parts: Parameters<typeof coldVerdict>[0],
  floating: FloatStudy,
  hook: HookFit | null,
): Sheet['verdicts'] {
  const { given, speak } = parts;
  return {
    cold: coldVerdict(parts),
    float: floatVerdict(given, floating, hook, speak),
    injector: injectorVerdict(given, speak),
  };
}

/** What drawings of the bait show besides its outlines. */
async function drawnParts({ geometry, bait }: Case, walls: WallMap, remember: Tools['remember']) {
  return {
    cuts: cutsOf(geometry),
    edges: await baitEdges(geometry, bait.lies, remember),
    walls,
  };
}

/** What a sheet hands on as it was given. */
function givenParts({ mold, bait, revision, plastisol, geometry, halves, ledger, catalogue }: Case) {
  const { id, name: title } = mold;
  const makes = madeBy(mold, catalogue.shop.units);
  return {
    id,
    title,
    shop: catalogue.shop,
    mold,
    makes,
    bait,
    revision,
    plastisol,
    geometry,
    halves,
    ledger,
  };
}

/** The whole sheet of a mold: figures first, then the verdicts, cautions and answers that speak of them. */
export async function sheetOf(given: Case, { remember }: Pick<Tools, 'remember'>): Promise<Sheet> {
  const { mold, bait, catalogue } = given;
  const walls = await wallStudy(given.geometry, remember);
  const model = await fillModel(given, walls, remember);
  const studies = fillStudies(given, model);
  const first = firstShot(mold, studies);
  const heat = heatStudy(given);
  const side = hookedSide(given);
  const hooks = hookFits(given, side);
  const hook = bestHook(given, hooks);
  const rigs = rigAdvice(given, side, hooks);
  const floating = floatStudy(given, rigs[0] ?? null);
  const batches = batchRows(given);
  const warming = warmUpFigure(heat, studies, first);
  const planning = planFacts(given, heat, Math.ceil(warming[0]?.value ?? 0));
  const injectors = injectorFits(given);
  const siblings = siblingsOf(given);
  const trials = trialStudy(bait, catalogue.trials, catalogue.plastisols, given.family);
  const action = sheetAction(given, trials);
  const filling = [...fillFigures(given, model, studies), ...firstShotFigures(first, studies)];
  const figures = byKey([
    ...ownFigures(given),
    ...filling,
    ...warming,
    ...heatFigures(given, heat),
    ...actionFigures(action),
    ...floating.figures,
    ...batches.map(({ compound }) => compound),
    ...injectors.map(({ pressure }) => pressure),
    ...hookFigures(hooks, rigs),
    ...planning.figures,
  ]);
  const speak = speaker(figures, catalogue.shop.units);
  const verdicts = verdictsOf({ given, studies, heat, first, speak }, floating, hook);
  const features = featureFills(given, studies);
  return {
    ...givenParts(given),
    ...(await drawnParts(given, walls.map, remember)),
    figures,
    verdicts,
    features,
    filling: sheetFilling(given, heat, { model, studies, first, figures: filling }),
    action,
    injectors,
    hooks,
    bestHook: hook,
    ...{ rigNames: rigsOf(given), rigs },
    plan: planning.mold,
    floating: floating.rows,
    postures: floating.postures,
    batches,
    cautions: cautions(speak, mold.vents.length > 0),
    answers: answers({ given, speak, verdicts, hook, features, injectors, siblings }),
    faults: faults({ given, speak, features }),
    family: given.family.map(({ revision, readings }) => ({ revision, readings })),
    trials,
    siblings,
    warnings: makerWarnings(given, model, studies),
  };
}
