import { baitSchema, type Bait } from './bait.ts';
import { guideSchema, type Guide } from './guide.ts';
import { hookSchema, type Hook } from './hook.ts';
import { injectorSchema, type Injector } from './injector.ts';
import { moldSchema, type Mold } from './mold.ts';
import { plastisolSchema, type Plastisol } from './plastisol.ts';
import { shopSchema, type Shop } from './shop.ts';
import { trialSchema, type Trial } from './trial.ts';

/** Every collection of YAML entries: its folder below the catalogue and its schema. */
export const COLLECTIONS = {
  baits: baitSchema,
  molds: moldSchema,
  plastisols: plastisolSchema,
  hooks: hookSchema,
  injectors: injectorSchema,
  trials: trialSchema,
} as const;

export { guideSchema, shopSchema };

/** Name of a collection of YAML entries. */
export type CollectionName = keyof typeof COLLECTIONS;

/** An entry with its id: the file name without ending. */
export type Entry<Data> = { readonly id: string } & Data;

/** The whole catalogue, read and checked, every list sorted by id. */
export interface Catalogue {
  readonly shop: Shop;
  readonly baits: readonly Entry<Bait>[];
  readonly molds: readonly Entry<Mold>[];
  readonly plastisols: readonly Entry<Plastisol>[];
  readonly hooks: readonly Entry<Hook>[];
  readonly injectors: readonly Entry<Injector>[];
  readonly trials: readonly Entry<Trial>[];
}

export type { Bait, Guide, Hook, Injector, Mold, Plastisol, Shop, Trial };
