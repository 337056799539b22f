import type { Figure } from '../core/quantity/figure.ts';
import type { BaitGeometry, FeatureMeasure } from '../core/section/geometry.ts';
import type { Bait, Entry, Hook, Injector, Mold, Plastisol, Shop, Trial } from '../schema/collections.ts';
import type { Revision } from '../schema/bait.ts';

/** Keys of the figures that every sheet has. */
export const REQUIRED_FIGURES = [
  'bait.length',
  'bait.width',
  'bait.height',
  'bait.volume',
  'bait.surface',
  'bait.projectedArea',
  'bait.thickestSection',
  'bait.thinnestFeature',
  'bait.density',
  'bait.mass',
  'shot.perCavity',
  'shot.runner',
  'shot.total',
  'shot.topOff',
  'shot.mass',
  'heat.demoldTime',
  'heat.riseFirstShot',
  'pour.low',
  'pour.nominal',
  'pour.high',
  'mold.clampForce',
  'mold.blockMass',
] as const;

/** Signal words in falling order of severity, after ANSI Z535.6 and ISO 3864. */
export type SignalWord = 'DANGER' | 'WARNING' | 'CAUTION' | 'NOTICE';

/** One caution: type of hazard, consequence, how to avoid it; never folded away. */
export interface Caution {
  /** Permanent anchor on the page. */
  readonly key: string;
  readonly signal: SignalWord;
  readonly hazard: string;
  readonly consequence: string;
  readonly avoid: readonly string[];
  readonly figures: readonly string[];
  readonly before: 'everything' | 'heating' | 'shooting' | 'opening' | 'afterwards';
}

/** A verdict: a short code for filters and one sentence for people. */
export interface Verdict<Code extends string> {
  readonly code: Code;
  readonly sentence: string;
}

export type ColdVerdict = Verdict<
  'fills cold' | 'likely fills cold' | 'warm it first' | 'needs a warm mold' | 'too thin'
>;
export type FloatVerdict = Verdict<'floats' | 'sinks' | 'may float or sink'>;
export type InjectorVerdict = Verdict<'one push' | 'none listed'>;

/** One thin feature's chance to fill. */
export interface FeatureFill {
  readonly feature: FeatureMeasure;
  readonly label: string;
  readonly reachCold: Figure;
  readonly reachWarm: Figure;
  readonly reserveCold: Figure;
  readonly reserveWarm: Figure;
}

/** One injector against the shot. */
export interface InjectorFit {
  readonly injector: Entry<Injector>;
  readonly holds: boolean;
  /** Whole mold shots in one filling of the injector. */
  readonly shots: number;
  readonly pressure: Figure;
}

/** One hook size against the bait. */
export interface HookFit {
  readonly hook: Entry<Hook>;
  readonly size: string;
  readonly rig: string;
  readonly verdict: 'best' | 'fits' | 'tight' | 'too small' | 'too large';
  readonly clearance: Figure;
  readonly ratio: Figure;
  readonly reason: string;
  /** Where the hook enters and leaves the body, along the bait [m]. */
  readonly entry: number;
  readonly exit: number;
}

/** Baits and compound for a batch. */
export interface BatchRow {
  readonly label: string;
  readonly baits: number;
  readonly shots: number;
  readonly compound: Figure;
}

/** The answer to one recurring question. */
export interface Answer {
  /** Permanent anchor: it never changes with the wording. */
  readonly key: string;
  readonly question: string;
  /** At most 60 words, with its figures in both unit systems. */
  readonly short: string;
  readonly long: readonly string[];
  readonly figures: readonly string[];
}

/** Everything a mold's pages, drawings, cards and files are printed from. */
export interface Sheet {
  readonly id: string;
  readonly title: string;
  readonly shop: Shop;
  readonly mold: Entry<Mold>;
  readonly bait: Entry<Bait>;
  readonly revision: Revision;
  readonly plastisol: Entry<Plastisol>;
  readonly geometry: BaitGeometry;
  /** By key; holds at least `REQUIRED_FIGURES`. */
  readonly figures: Readonly<Record<string, Figure>>;
  readonly verdicts: {
    readonly cold: ColdVerdict;
    readonly float: FloatVerdict;
    readonly injector: InjectorVerdict;
  };
  readonly features: readonly FeatureFill[];
  readonly injectors: readonly InjectorFit[];
  readonly hooks: readonly HookFit[];
  readonly bestHook: HookFit | null;
  readonly batches: readonly BatchRow[];
  readonly cautions: readonly Caution[];
  readonly answers: readonly Answer[];
  readonly trials: readonly Entry<Trial>[];
  /** Other published molds of the same bait. */
  readonly siblings: readonly Entry<Mold>[];
  /** For the maker, shown by `npm run check`, never published. */
  readonly warnings: readonly string[];
}
