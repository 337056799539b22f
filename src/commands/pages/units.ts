import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { diskStore } from '../../io/cache.ts';
import { digestOf, sha256 } from '../../io/digest.ts';
import { fingerprint } from '../../io/fingerprint.ts';
import { programId } from '../../io/program-id.ts';
import { contentFolder, PROJECT_ROOT } from '../../io/settings.ts';
import type { Catalogue } from '../../schema/collections.ts';
import { PUBLISHED } from '../../sheet/analyse.ts';
import type { OwnTask } from '../../site/own/worker.ts';

/** All pages and files of one mold or one bait, and what decides every byte of them. */
export interface Unit extends OwnTask {
  readonly key: string;
}

/** What a build is to make: the units of a site, and what decides the whole of it. */
export interface Plan {
  /** Id of the program that builds. */
  readonly program: string;
  /** Digest of the program, of Node.js and of the kind of machine, whose libraries draw pictures. */
  readonly machine: string;
  readonly units: readonly Unit[];
  readonly key: string;
}

/** Guides of the program's own, which catalogues without any show. */
export const GUIDES_THAT_COME_ALONG = join(PROJECT_ROOT, 'content', 'guides');

/** Digest of a program, of Node.js and of the kind of machine. */
export const machineOf = (program: string): string =>
  sha256(program, process.version, process.platform, process.arch);

/** Where the folder of a unit lies in a site. */
export const unitPath = ({ kind, id }: Pick<Unit, 'kind' | 'id'>): string => `${kind}/${id}`;

async function photoDigests({ listing }: Catalogue['molds'][number]): Promise<string[]> {
  const store = diskStore();
  return Promise.all(listing.photos.map(({ file }) => fingerprint(join(contentFolder(), file), store)));
}

/**
 * Pages of a mold speak of its own group of molds and of what all share, both in the address of its sheet, and of its
 * photos; they look at nothing else.
 */
async function moldUnit(mold: Catalogue['molds'][number], address: string, machine: string): Promise<Unit> {
  const key = sha256('mold', machine, address, mold.id, ...(await photoDigests(mold)));
  return { kind: 'molds', id: mold.id, mold: mold.id, address, key };
}

function baitUnit({ id, bait }: Catalogue['molds'][number], address: string, machine: string): Unit {
  return { kind: 'baits', id: bait, mold: id, address, key: sha256('bait', machine, address, bait) };
}

/** Bytes that only pages about the whole catalogue print: its guides, those that come along, and the logo. */
async function sitewide({ shop }: Catalogue): Promise<string> {
  const folders = [join(contentFolder(), 'guides'), GUIDES_THAT_COME_ALONG];
  const read = async (folder: string) => {
    const names = (await readdir(folder).catch(() => [])).sort();
    return Promise.all(names.map(async (name) => [name, await readFile(join(folder, name))] as const));
  };
  const guides = (await Promise.all(folders.map(read))).flat(2);
  const { logo } = shop.look;
  return sha256(logo ? await fingerprint(join(contentFolder(), logo), diskStore()) : 'none', ...guides);
}

function entriesDigest({ shop, ...collections }: Catalogue): string {
  const entries = Object.entries(collections).flatMap(([name, all]) => [name, ...all.map(digestOf)]);
  return sha256(digestOf(shop), ...entries);
}

/**
 * What there is to build of a catalogue.
 *
 * @param catalogue - read, checked and worked out
 * @param addresses - of the sheets, by mold
 */
export async function planOf(catalogue: Catalogue, addresses: ReadonlyMap<string, string>): Promise<Plan> {
  const program = await programId();
  const machine = machineOf(program);
  const published = catalogue.molds
    .filter(({ status }) => PUBLISHED.has(status))
    .sort((a, b) => (a.id < b.id ? -1 : 1));
  const addressed = published.map((mold) => ({ mold, address: addresses.get(mold.id) ?? '' }));
  const molds = await Promise.all(addressed.map(({ mold, address }) => moldUnit(mold, address, machine)));
  const firsts = new Map([...addressed].reverse().map((one) => [one.mold.bait, one]));
  const baits = [...firsts.values()].map(({ mold, address }) => baitUnit(mold, address, machine));
  const units = [...molds, ...baits];
  const whole = [entriesDigest(catalogue), await sitewide(catalogue)];
  return { program, machine, units, key: sha256('site', machine, ...whole, ...units.map(({ key }) => key)) };
}
