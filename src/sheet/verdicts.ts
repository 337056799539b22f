import { warmUpShots } from '../core/heat/block-warming.ts';
import type { Case } from './case.ts';
import type { FillStudy } from './fill-study.ts';
import type { FirstShot } from './first-shot.ts';
import type { FloatStudy } from './float-study.ts';
import type { HeatStudy } from './heat-study.ts';
import { figure, figureInput, type Figure } from '../core/quantity/figure.ts';
import { band } from '../core/quantity/band.ts';
import { SOURCES } from './sources.ts';
import { MOST_WARM_UPS } from './practice.ts';
import type { ColdVerdict, FloatVerdict, HookFit, InjectorVerdict } from './sheet.ts';
import { listed, sizeWords, type Speaker } from './words.ts';

/** Warm-up shots to a block temperature; Infinity when the pace never gets there. */
function shotsTo(study: HeatStudy, target: number): number {
  return warmUpShots(study.cycle, target);
}

/** Warm-up shots to the block that the sheet tells of, when shots alone can warm it so far. */
function toldWarmUp(heat: HeatStudy, { mold }: FirstShot): Figure[] {
  const [low, nominal, high] = [mold.low, mold.value, mold.high].map((target) => shotsTo(heat, target));
  if (low === undefined || nominal === undefined || !Number.isFinite(nominal)) return [];
  const sure = high !== undefined && Number.isFinite(high);
  return [
    figure(
      {
        key: 'fill.warmUpShots',
        label: 'Warm-up from a cold block',
        unit: '{shot}',
        basis: `Shots after which the block is as warm as the maker tells to have it; low and high: what the thermometer may be off.${sure ? '' : ' At the warm end shots alone do not warm it so far.'}`,
        formula: 'n with T* + (T₀ − T*)·qⁿ = T told',
        inputs: [figureInput('block as told', mold, 'Cel'), figureInput('from shot to shot', heat.pace, 's')],
        sources: [SOURCES.energy],
      },
      band(nominal, low, sure ? high : nominal),
    ),
  ];
}

/** Warm-up shots as a figure, when shots alone can warm the block enough. */
export function warmUpFigure(heat: HeatStudy, studies: readonly FillStudy[], first: FirstShot): Figure[] {
  if (first.warmed) return toldWarmUp(heat, first);
  const targets = [
    Math.max(...studies.map(({ neededNominal }) => neededNominal)),
    Math.max(...studies.map(({ neededAdverse }) => neededAdverse)),
  ];
  const [nominal = Infinity, adverse = Infinity] = targets.map((target) => shotsTo(heat, target));
  if (studies.length === 0 || !Number.isFinite(nominal)) return [];
  return [
    figure(
      {
        key: 'fill.warmUpShots',
        label: 'Warm-up from a cold block',
        unit: '{shot}',
        basis: Number.isFinite(adverse)
          ? 'Shots after which the block is warm enough for every thin part; high: at the adverse end of the fill band.'
          : 'Shots after which the block is warm enough for every thin part at nominal; at the adverse end shots alone do not warm it enough.',
        formula: 'n with T* + (T₀ − T*)·qⁿ = T needed',
        inputs: [figureInput('from shot to shot', heat.pace, 's')],
        sources: [SOURCES.energy],
      },
      band(nominal, nominal, Number.isFinite(adverse) ? adverse : nominal),
    ),
  ];
}

interface ColdParts {
  readonly given: Case;
  readonly studies: readonly FillStudy[];
  readonly heat: HeatStudy;
  readonly first: FirstShot;
  readonly speak: Speaker;
}

function thinNames(studies: readonly FillStudy[], below: (study: FillStudy) => boolean): string {
  return listed(studies.filter(below).map(({ label }) => label));
}

const shortCold = (studies: readonly FillStudy[]) => thinNames(studies, ({ cold }) => cold.value < 1);

function cureOf(adverse: number, warmUps: number, speak: Speaker): string {
  if (warmUps <= MOST_WARM_UPS)
    return `about ${warmUps} warm-up ${warmUps === 1 ? 'shot cures' : 'shots cure'} it`;
  if (Number.isFinite(adverse)) return `a block warmed to ${speak.end('fill.mold.needed', 'high')} cures it`;
  return 'a warm block and a hotter pour help';
}

/** What stiff plastic or a light push still asks for. */
function atWorst(warmUps: number): string {
  return Number.isFinite(warmUps)
    ? `; with stiff plastic or a light push it takes about ${warmUps}.`
    : '. With stiff plastic or a light push it may still come short: pour hotter, push harder.';
}

/** What the maker tells to do before the first shot, and how the mold fills then. */
function toldSentence({ studies, heat, first, speak }: ColdParts): string {
  const n = shotsTo(heat, first.mold.value);
  const how = n <= MOST_WARM_UPS ? `with about ${n} warm-up shots or on a hot plate` : 'on a hot plate';
  const short = listed(first.short);
  const names = shortCold(studies);
  const cold = names ? `in a cold mold the ${names} come${verb(names)} short` : 'a cold one should fill too';
  const worst =
    first.shortAtWorst.length > 0
      ? ` With stiff plastic or a light push the ${listed(first.shortAtWorst)} may still come short: pour hotter, push harder.`
      : '';
  const there = short
    ? `Even there the ${short} come${verb(short)} short.`
    : `There it should fill; ${cold}.${worst}`;
  return `Warm the mold to ${speak.end('fill.mold.first', 'value')} before the first shot, ${how}. ${there}`;
}

const verb = (names: string) => (names.endsWith('s') || names.includes(' and ') ? '' : 's');

/** The short answer to "will it shoot cold?". */
function coldCode({ studies, heat, first }: ColdParts): ColdVerdict['code'] {
  if (studies.every(({ cold }) => cold.low >= 1)) return 'fills cold';
  if (studies.every(({ cold }) => cold.value >= 1)) return 'likely fills cold';
  if (!Number.isFinite(first.needed)) return 'too thin';
  const target = first.warmed ? first.mold.value : first.needed;
  const filled = !first.warmed || first.short.length === 0;
  return filled && shotsTo(heat, target) <= MOST_WARM_UPS ? 'warm it first' : 'needs a warm mold';
}

/** What a sheet says that tells nothing of a warmed mold, by code. */
const UNTOLD: Readonly<Record<ColdVerdict['code'], (parts: ColdParts) => string>> = {
  'fills cold': ({ speak }) => {
    const least = speak.has('fill.reserve.cold')
      ? ` with a reserve of ${speak.say('fill.reserve.cold')}`
      : '';
    return `Fills from a cold mold at ${speak.end('pour.nominal', 'value')}${least}, even at the adverse end of what is known about plastisol and push.`;
  },
  'likely fills cold': ({ studies, heat, speak }) => {
    const adverse = Math.max(0, ...studies.map(({ neededAdverse }) => neededAdverse));
    const shortAtWorst = thinNames(studies, ({ cold }) => cold.low < 1);
    return `Should fill from a cold mold at ${speak.end('pour.nominal', 'value')}. With stiff plastisol or a light push the ${shortAtWorst} may come short at first: ${cureOf(adverse, shotsTo(heat, adverse), speak)}.`;
  },
  'too thin': ({ studies }) =>
    `The ${shortCold(studies)} will probably come short at any mold temperature: too thin for its length with this compound and a hand injector.`,
  'warm it first': ({ studies, heat, first, speak }) => {
    const adverse = Math.max(0, ...studies.map(({ neededAdverse }) => neededAdverse));
    const n = shotsTo(heat, first.needed);
    const names = shortCold(studies);
    return `The ${names} come${verb(names)} short in a cold mold. About ${n} warm-up ${n === 1 ? 'shot brings' : 'shots bring'} the block to ${speak.end('fill.mold.needed', 'value')}, where it fills${atWorst(shotsTo(heat, adverse))}`;
  },
  'needs a warm mold': ({ studies, heat, first, speak }) => {
    const n = shotsTo(heat, first.needed);
    const names = shortCold(studies);
    return `The ${names} need${verb(names)} a block warmed to ${speak.end('fill.mold.needed', 'value')} before you shoot, on a hot plate: ${Number.isFinite(n) ? `shots alone would take about ${n}` : 'shots alone do not warm it enough'}.`;
  },
};

/** "Will it shoot cold?", judged at the adverse end of the fill band, and what to do about it. */
export function coldVerdict(parts: ColdParts): ColdVerdict {
  const code = coldCode(parts);
  const told = parts.first.warmed && code !== 'too thin';
  return { code, sentence: told ? toldSentence(parts) : UNTOLD[code](parts) };
}

/** Which injector gives the shot in one push. */
export function injectorVerdict({ injector, catalogue, shot }: Case, speak: Speaker): InjectorVerdict {
  if (injector) {
    return {
      code: 'one push',
      sentence: `One push of a ${injector.name.toLowerCase()} fills the mold: the shot takes ${speak.say('shot.total')}, and at least ${Math.floor(100 * (injector.capacity / shot.total.high - 1))}% more would fit in it.`,
    };
  }
  const holding = catalogue.injectors.filter(({ capacity }) => capacity >= shot.total.high).length;
  return {
    code: 'none listed',
    sentence: `None of the ${catalogue.injectors.length} listed injectors gives ${speak.say('shot.total')} with room to spare${holding > 0 ? '; the largest just holds it' : ''}. Fill fewer cavities, or use two injectors in step.`,
  };
}

/** Whether the bait floats, bare and on its hook. */
export function floatVerdict(
  { plastisol }: Case,
  study: FloatStudy,
  hook: HookFit | null,
  speak: Speaker,
): FloatVerdict {
  const bare = {
    floats: `In ${plastisol.name.toLowerCase()} the bare bait floats`,
    sinks: `In ${plastisol.name.toLowerCase()} the bare bait sinks`,
    'may float or sink': `In ${plastisol.name.toLowerCase()} the bare bait may float or sink: its density straddles that of water`,
  }[study.code];
  const speed = speak.has('float.sinkSpeed') ? ` at ${speak.say('float.sinkSpeed')}` : '';
  const hooked =
    hook && study.withHook
      ? {
          floats: `it floats even on a ${sizeWords(hook.size)} hook`,
          sinks: `on a ${sizeWords(hook.size)} hook it sinks${speed}`,
          'may float or sink': `on a ${sizeWords(hook.size)} hook it may float or sink`,
        }[study.withHook]
      : '';
  return { code: study.code, sentence: `${bare}${hooked ? `; ${hooked}` : ''}. Fresh water, 20 °C (68 °F).` };
}
