import { analysisTools } from '../../io/analysis-tools.ts';
import type { BaitGeometry } from '../../core/section/geometry.ts';
import { LEAST_WALL } from '../../core/solid/mold-table.ts';
import type { Catalogue } from '../../schema/collections.ts';
import { geometryOf } from '../../sheet/geometry.ts';
import { chosen, headed, mm, named, Refusal, type Draft, type Wish } from './draft.ts';

const SPRUE_LENGTH = 0.014;
const RUNNER = 0.006;
const GATE_LENGTH = 0.003;
/** Metal left around and between cavities [m]. */
const WALL = 3 * LEAST_WALL;
/** More cavities than this lie in two rows. */
const ONE_ROW = 3;

/** A mold of the bait that its id begins with, its block cut to the measured size of the bait. */
export async function moldDraft(wish: Wish, catalogue: Catalogue): Promise<Draft> {
  const { id, folder, options } = wish;
  if (catalogue.injectors.length === 0)
    throw new Refusal('there are no injectors yet — write one first: npm run new -- injector ID');
  const bait = chosen(catalogue, 'baits', options.bait, id);
  const revision = revisionOf(bait, options.revision);
  const count = cavitiesOf(id, options.cavities);
  const result = await geometryOf(bait, revision, analysisTools(folder));
  if ('problem' in result) throw new Refusal(`${bait.id}: ${result.problem.message} — run npm run check`);
  const text = moldText({ id, bait: bait.id, revision: revision.id, count, geometry: result.geometry });
  return {
    text: headed('molds', folder, text.replace('STOCK', stockFor(id, catalogue))),
    notes: ['the block is just large enough: put in its real size, sprue, runner, gate and vents'],
  };
}

/** The revision that an option names, or the last one. */
export function revisionOf(
  bait: Catalogue['baits'][number],
  asked: string | undefined,
): Catalogue['baits'][number]['revisions'][number] {
  const found = asked === undefined ? bait.revisions.at(-1) : bait.revisions.find(({ id }) => id === asked);
  if (found) return found;
  const known = bait.revisions.map(({ id }) => id).join(', ');
  throw new Refusal(`--revision: ${bait.id} has no revision "${asked}" — choose from: ${known}`);
}

/** How many cavities: as asked, else the number that ends the id, else two. */
function cavitiesOf(id: string, asked: string | undefined): number {
  const text = asked ?? /-(\d{1,2})$/u.exec(id)?.[1] ?? '2';
  const count = Number(text);
  if (Number.isInteger(count) && count >= 1 && count <= 48) return count;
  throw new Refusal(`--cavities: "${text}" cannot be — give a whole number from 1 to 48`);
}

/** A stock number from the id that no other mold has. */
function stockFor(id: string, { molds }: Catalogue): string {
  const taken = new Set(molds.map(({ stock }) => stock));
  const plain = id.toUpperCase().slice(0, 20).replace(/-+$/u, '').padEnd(2, '0');
  for (let n = 1; ; n++) {
    const stock = n === 1 ? plain : `${plain}-${n}`;
    if (!taken.has(stock)) return stock;
  }
}

const upTo5 = (metres: number): number => Math.ceil(metres / 0.005) * 0.005;

interface MoldFacts {
  readonly id: string;
  readonly bait: string;
  readonly revision: string;
  readonly count: number;
  readonly geometry: BaitGeometry;
}

function blockFor({ count, geometry: { box } }: Omit<MoldFacts, 'id' | 'bait' | 'revision'>) {
  const [long, wide] = [box.max[0] - box.min[0], box.max[1] - box.min[1]];
  const deep = Math.max(box.max[2], -box.min[2]);
  const reach = RUNNER / 2 + GATE_LENGTH + long + WALL;
  const oneRow = count <= ONE_ROW;
  const stacked = oneRow ? count : Math.ceil(count / 2);
  return {
    length: upTo5(oneRow ? SPRUE_LENGTH + reach : 2 * reach),
    width: upTo5(stacked * wide + (stacked + 1) * WALL + (oneRow ? 0 : SPRUE_LENGTH)),
    thickness: upTo5(Math.max(0.025, 2 * (deep + 0.008))),
  };
}

function moldText(facts: MoldFacts): string {
  const { id, bait, revision, count, geometry } = facts;
  const block = blockFor(facts);
  const gate = Math.min(0.004, geometry.thickest.thickness / 2);
  const cavities = Array.from({ length: count }, () => `  - { revision: ${revision} }`).join('\n');
  return `name: ${named(id)}
stock: STOCK
status: development # "final" publishes it
bait: ${bait}
cavities:
${cavities}
block: { length: ${mm(block.length)}, width: ${mm(block.width)}, thickness: ${mm(block.thickness)}, alloy: 6061-T6 }
sprue: { mouth: 11 mm, end: 7 mm, length: ${mm(SPRUE_LENGTH)} }
runner: { diameter: ${mm(RUNNER)} }
gate: { width: ${mm(gate)}, depth: ${mm(gate / 2)}, length: ${mm(GATE_LENGTH)} }
vents:
  - { tier: edge, depth: 0.0015 in, width: 3 mm, land: 2 mm, count: 3 }
`;
}
