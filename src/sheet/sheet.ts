import type { Chance } from '../core/action/onset.ts';
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

/** What kind of hazard a caution is about. */
export type HazardType =
  | 'hot liquid'
  | 'steam'
  | 'toxic gas'
  | 'fire'
  | 'pressure'
  | 'hot surface'
  | 'information'
  | 'damage to the mold';

/** One caution: type of hazard, consequence, how to avoid it; never folded away. */
export interface Caution {
  /** Permanent anchor on the page. */
  readonly key: string;
  readonly type: HazardType;
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
  /** How customers put it, for finding it by their own words. */
  readonly words: readonly string[];
  /** Paragraph of a guide that goes further: `venting/#why-deeper-does-not-help`. */
  readonly guide: string;
}

/** One reason for a fault, with the figures of this mold that speak for or against it. */
export interface FaultCause {
  readonly cause: string;
  readonly why: string;
  readonly cure: string;
}

/** Something wrong with a bait as it comes out, and its causes, the likeliest for this mold first. */
export interface Fault {
  /** Permanent anchor on the page. */
  readonly key: string;
  readonly name: string;
  /** What the customer sees. */
  readonly looks: string;
  readonly causes: readonly FaultCause[];
  readonly figures: readonly string[];
  readonly words: readonly string[];
  readonly guide: string;
}

/** Retrieves that the action is told for. */
export type RetrieveName = 'slow' | 'medium' | 'fast';

/** When the water moves one thin part. */
export interface FeatureAction {
  readonly feature: FeatureMeasure;
  readonly label: string;
  /** What moves it, in a sentence. */
  readonly manner: string;
  readonly onset: Figure;
  readonly flutter: Figure;
  readonly beat: Figure;
  readonly retrieves: readonly {
    readonly name: RetrieveName;
    /** [m/s] */
    readonly speed: number;
    readonly chance: Chance;
    readonly cauchy: Figure;
    readonly step: Figure;
  }[];
  /** The same part in every listed compound, firmest first; chances at slow, medium and fast. */
  readonly compounds: readonly {
    readonly plastisol: Entry<Plastisol>;
    readonly onset: Figure;
    readonly chances: readonly Chance[];
  }[];
}

/** What the thin parts do in the water, and the compound that suits them. */
export interface SheetAction {
  readonly features: readonly FeatureAction[];
  /** The least of all parts, by retrieve. */
  readonly least: readonly { readonly name: RetrieveName; readonly chance: Chance }[];
  /** The firmest compound that still moves at the slow retrieve; null without a thin part. */
  readonly compound: {
    readonly plastisol: Entry<Plastisol>;
    readonly moves: boolean;
    readonly sentence: string;
  } | null;
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
  readonly action: SheetAction;
  readonly injectors: readonly InjectorFit[];
  readonly hooks: readonly HookFit[];
  readonly bestHook: HookFit | null;
  readonly batches: readonly BatchRow[];
  readonly cautions: readonly Caution[];
  readonly answers: readonly Answer[];
  readonly faults: readonly Fault[];
  readonly trials: readonly Entry<Trial>[];
  /** Other published molds of the same bait. */
  readonly siblings: readonly Entry<Mold>[];
  /** For the maker, shown by `npm run check`, never published. */
  readonly warnings: readonly string[];
}
