import type { Chance } from '../core/action/onset.ts';
import type { Band } from '../core/quantity/band.ts';
import type { Figure } from '../core/quantity/figure.ts';
import type { PlanMold } from '../core/plan/session-parts.ts';
import type { GapeFit } from '../core/rigging/hook-fit.ts';
import type { HookForm } from '../core/rigging/hook-form.ts';
import type { BaitGeometry, FeatureMeasure, Outline } from '../core/section/geometry.ts';
import type { Bait, Entry, Hook, Injector, Mold, Plastisol, Shop } from '../schema/collections.ts';
import type { Revision } from '../schema/bait.ts';
import type { Cut } from './cuts.ts';
import type { BaitEdges } from './edge-study.ts';
import type { SheetFilling } from './fill-sheet.ts';
import type { MoldStudy } from './mold-study.ts';
import type { WallMap } from './wall-study.ts';
import type { Ledger } from '../schema/published.ts';
import type { ShownRevision, TrialStudy } from './trial-study.ts';

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

/** One part's chance to fill. */
export interface FeatureFill {
  /** Of the feature; `body` where a bait has no thin part. */
  readonly name: string;
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
  /** Stations and shares that the verdict rests on [m, 1]. */
  readonly fit: GapeFit;
}

/** The hook to use on one rig, and how it lies in the bait. */
export interface RigAdvice {
  readonly rig: string;
  readonly best: HookFit;
  /** Smallest and largest size of the pattern that will do. */
  readonly from: string;
  readonly to: string;
  /** What fails one size below and one size above; null where the pattern ends. */
  readonly below: string | null;
  readonly above: string | null;
  /** Where to enter, where it comes out, and how to keep the bait straight. */
  readonly steps: readonly string[];
  /** Entry, where the shank leaves the body, point, and where to cut; from the nose. */
  readonly stations: readonly Figure[];
  /** The bait cut in the plane of the hook, and the hook in it [m]. */
  readonly section: Outline;
  readonly form: HookForm;
}

/** What a bait does in one water under one load, let go. */
export interface FloatCell {
  readonly water: 'fresh' | 'salt';
  readonly load: 'bare' | 'hooked' | 'weighted';
  readonly code: FloatVerdict['code'];
  /** On its flat; null where the nominal does not sink. */
  readonly speed: (Band & { readonly unit: 'cm/s' }) | null;
}

/** Floating of a bait shot in one compound. */
export interface FloatRow {
  readonly name: string;
  readonly density: Band & { readonly unit: 'g/cm3' };
  readonly cells: readonly FloatCell[];
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
  /** The onset put right by the water tests; null without one. */
  readonly tested: Figure | null;
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
  /** What the mold makes: the whole bait, or its rear part. */
  readonly makes: string;
  readonly bait: Entry<Bait>;
  readonly revision: Revision;
  readonly plastisol: Entry<Plastisol>;
  readonly geometry: BaitGeometry;
  /** Cross-sections that the bait's drawing shows. */
  readonly cuts: readonly Cut[];
  /** Inner edges that the bait's drawing shows. */
  readonly edges: BaitEdges;
  /** Layout of the mold, its hollows and a section through it. */
  readonly halves: MoldStudy;
  /** Wall thickness over the plan. */
  readonly walls: WallMap;
  /** By key; holds at least `REQUIRED_FIGURES`. */
  readonly figures: Readonly<Record<string, Figure>>;
  readonly verdicts: {
    readonly cold: ColdVerdict;
    readonly float: FloatVerdict;
    readonly injector: InjectorVerdict;
  };
  readonly features: readonly FeatureFill[];
  /** Pictures, plots and set-ups of the filling. */
  readonly filling: SheetFilling;
  readonly action: SheetAction;
  readonly injectors: readonly InjectorFit[];
  readonly hooks: readonly HookFit[];
  readonly bestHook: HookFit | null;
  /** Rigs of what the mold makes, whether or not a listed hook fits, the usual one first. */
  readonly rigNames: readonly string[];
  /** One for each rig of the bait that a listed hook fits, the usual one first. */
  readonly rigs: readonly RigAdvice[];
  /** What the planner has to know of the mold. */
  readonly plan: PlanMold;
  /** By compound, its own first. */
  readonly floating: readonly FloatRow[];
  /** How it lies in the water and on the bottom. */
  readonly postures: readonly string[];
  readonly batches: readonly BatchRow[];
  readonly cautions: readonly Caution[];
  readonly answers: readonly Answer[];
  readonly faults: readonly Fault[];
  /** Revisions of the bait that may be shown, oldest first, and its water tests beside what was expected. */
  readonly family: readonly ShownRevision[];
  readonly trials: TrialStudy;
  /** What has been published of this mold; null before the first time. */
  readonly ledger: Ledger | null;
  /** Other published molds of the same bait. */
  readonly siblings: readonly Entry<Mold>[];
  /** For the maker, shown by `npm run check`, never published. */
  readonly warnings: readonly string[];
}
