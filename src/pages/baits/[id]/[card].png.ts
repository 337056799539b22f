import type { APIRoute, GetStaticPaths } from 'astro';
import { baitCardFacts } from '../../../card/facts.ts';
import type { CardSize } from '../../../card/layout.ts';
import type { Sheet } from '../../../sheet/sheet.ts';
import { siteData } from '../../../site/site-data.ts';
import { cardFile } from '../../_cards.ts';

interface Props {
  sheet: Sheet;
  size: CardSize;
}

const FILES = [
  { card: 'card', size: 'wide' },
  { card: 'card-square', size: 'square' },
] as const;

export const getStaticPaths = (async () => {
  const { sheets } = await siteData();
  const ofBait = new Map([...sheets].reverse().map((sheet) => [sheet.bait.id, sheet]));
  return [...ofBait].flatMap(([id, sheet]) =>
    FILES.map(({ card, size }) => ({ params: { id, card }, props: { sheet, size } })),
  );
}) satisfies GetStaticPaths;

/** Cards of a bait, from the first of its molds. */
export const GET: APIRoute<Props> = ({ props: { sheet, size } }) => cardFile(baitCardFacts(sheet), size);
