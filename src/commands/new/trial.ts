import type { Revision } from '../../schema/bait.ts';
import type { Catalogue } from '../../schema/collections.ts';
import { chosen, headed, Refusal, type Draft, type Wish } from './draft.ts';
import { revisionOf } from './mold.ts';

const namesOf = ({ sections, mesh }: Revision): string[] =>
  (sections?.appendages ?? mesh?.features ?? []).map(({ name }) => name);

/** A water test of the last revision, with a line for each of its features. */
export function trialDraft({ id, folder, options, today }: Wish, catalogue: Catalogue): Draft {
  const bait = chosen(catalogue, 'baits', options.bait, id);
  const revision = revisionOf(bait, options.revision);
  const features = namesOf(revision);
  if (features.length === 0) {
    throw new Refusal(
      `${bait.id} ${revision.id} has no named feature to watch — name one in baits/${bait.id}.yaml first`,
    );
  }
  const text = `date: '${today}'
bait: ${bait.id}
revision: ${revision.id}
plastisol: ${bait.plastisol}
colour: watermelon
clarity: clear # clear, stained or muddy
rig: ${bait.rigs[0] ?? 'Texas'}
retrieve: 0.3 m/s
features:
  # moved, moved only fast, stopped below a speed, did not move
${features.map((name) => `  - { name: ${name}, moved: moved }`).join('\n')}
passed: false
`;
  return {
    text: headed('trials', folder, text),
    notes: ['every answer in it is a placeholder: put in what you saw'],
  };
}
