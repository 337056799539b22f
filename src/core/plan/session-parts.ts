import type { Band } from '../quantity/band.ts';
import type { Rotation } from './rotation.ts';

/** What a session has to know of a mold [SI]. */
export interface PlanMold {
  readonly id: string;
  readonly name: string;
  readonly cavities: number;
  /** Whole shot, measured hot [m³]. */
  readonly shot: Band;
  /** Sprue, runners and gates of it [m³]. */
  readonly channels: number;
  /** From the shot until it can be opened, in a run [s]. */
  readonly closed: Band;
  /** Open, lift out, close, draw, shoot [s]. */
  readonly handling: Band;
  /** Further rest that keeps the block from growing hotter and hotter [s]. */
  readonly pause: number;
  /** Shots that warm a cold block before its thin parts fill. */
  readonly warmUps: number;
  /** True when the block wants warming by other means than shots. */
  readonly preheat: boolean;
  /** Share of a bait's volume ahead of the station where a two-colour bait changes colour [1]. */
  readonly split?: number | undefined;
  /** Which part of a two-colour bait the gate feeds. */
  readonly gate?: 'nose' | 'tail' | 'side' | undefined;
}

/** How many baits of a mold. */
export interface PlanOrder {
  readonly mold: PlanMold;
  readonly baits: number;
}

/** A session as it is wanted [SI]. */
export interface PlanRequest {
  readonly orders: readonly PlanOrder[];
  /** Cured density of the compound, without what is added here [kg/m³]. */
  readonly density: Band;
  /** Volume of the injector owned [m³]. */
  readonly capacity: number;
  /** Left in the cup at the end, as liquid at 20 °C [m³]. */
  readonly heel: number;
  /** Share of what is heated that comes from old sprues [1]. */
  readonly remelt: number;
  /** Mass fractions stirred in [1]. */
  readonly salt: number;
  readonly microballoons: number;
  /** Liquid compound on the shelf [m³]; left out when nobody said. */
  readonly shelf?: number | undefined;
}

/** What one mold takes in a session. */
export interface MoldPlan {
  readonly id: string;
  readonly baits: number;
  /** Cycles that make baits, and those before them that only warm the block. */
  readonly shots: number;
  readonly warmUps: number;
  /** Hot melt of one shot [m³]. */
  readonly shot: Band;
  /** Whole shots in one filling of the injector; 0 when it does not hold one. */
  readonly perFilling: number;
  /** Fillings: one a shot, so that no melt waits in the injector; more when one does not hold a shot. */
  readonly fillings: number;
  /** Hot melt of one shot for each colour, from the nose [m³]; null when the bait has one. */
  readonly colours: readonly [ahead: Band, behind: Band] | null;
}

/** Where the compound of a session goes [kg]: what goes in is what comes out. */
export interface Balance {
  readonly raw: Band;
  readonly remelted: Band;
  readonly heated: Band;
  readonly baits: Band;
  readonly sprues: Band;
  /** Baits of warm-up shots, to be melted again. */
  readonly scrap: Band;
  readonly clinging: Band;
  readonly heel: Band;
}

/** What is measured into the cup. */
export interface Measured {
  /** Liquid compound at 20 °C [m³]. */
  readonly liquid: Band;
  /** [kg] */
  readonly salt: Band;
  readonly microballoons: Band;
  /** Glitter, and liquid colour, by common practice [m³]. */
  readonly glitter: Band;
  readonly colour: Band;
}

/** A session, planned. */
export interface SessionPlan {
  readonly molds: readonly MoldPlan[];
  readonly baits: number;
  readonly shots: number;
  readonly fillings: number;
  /** Hot melt that goes through the injector [m³]. */
  readonly hot: Band;
  readonly balance: Balance;
  readonly measured: Measured;
  /** `enough` at the high end, `barely` at the nominal, else `short`; null when no shelf was given. */
  readonly shelf: 'enough' | 'barely' | 'short' | null;
  /** By the nominal waits, then by the shortest and the longest [s]. */
  readonly time: Band;
  readonly rotation: Rotation;
}
