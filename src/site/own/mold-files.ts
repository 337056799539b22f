import { replies } from '../../answer/reply.ts';
import { cardFacts } from '../../card/facts.ts';
import { cardPng } from '../../card/png.ts';
import { sheetMarkdown } from '../../components/export/markdown.ts';
import { drawingFile, drawingFiles, drawnOf, drawnRigOf } from '../../components/sheet/drawings.ts';
import { rigFile } from '../../components/sheet/rig-drawing.ts';
import { setupData } from '../../sheet/fill-setup.ts';
import { planData } from '../../sheet/plan-data.ts';
import type { Sheet } from '../../sheet/sheet.ts';
import { specOf } from '../../sheet/spec.ts';
import type { Shared } from '../analysis/groups.ts';
import { cardFonts } from '../card-fonts.ts';
import { drawingsOfSheet } from '../drawn.ts';
import { pictureBytes, picturePaths } from '../pictures.ts';
import type { OwnFile } from './own-file.ts';

function json(name: string, make: () => unknown): OwnFile {
  return { name, type: 'application/json', make: () => JSON.stringify(make()) };
}

function dataFiles(sheet: Sheet, shared: Shared): OwnFile[] {
  return [
    json('spec.json', () => specOf(sheet)),
    json('setup.json', () => setupData(sheet)),
    json('plan.json', () => planData(shared, [sheet])),
    json('answers.json', () => ({
      format: 'partline-answers/1',
      mold: sheet.id,
      replies: replies(sheet),
    })),
    { name: 'sheet.md', type: 'text/markdown; charset=utf-8', make: () => sheetMarkdown(sheet) },
  ];
}

function cardFiles(sheet: Sheet): OwnFile[] {
  const card = (name: string, size: 'wide' | 'square'): OwnFile => ({
    name,
    type: 'image/png',
    make: async () => cardPng(cardFacts(sheet), size, await cardFonts()),
  });
  return [card('card.png', 'wide'), card('card-square.png', 'square')];
}

const svg = (name: string, make: OwnFile['make']): OwnFile => ({ name, type: 'image/svg+xml', make });

function drawings(sheet: Sheet): OwnFile[] {
  let read: ReturnType<typeof drawingsOfSheet> | undefined;
  const all = () => (read ??= drawingsOfSheet(sheet));
  const drawn = drawingFiles(sheet).map((file) =>
    svg(drawingFile(file), async () => {
      const { view, framed } = drawnOf(await all(), file.drawing, file.layout);
      return file.view ? view : framed;
    }),
  );
  const rigs = sheet.rigs.flatMap(({ rig }) =>
    [false, true].map((view) =>
      svg(`rig-${rigFile(rig, view)}.svg`, async () => {
        const drawn = drawnRigOf(await all(), rig);
        return view ? drawn.view : drawn.framed;
      }),
    ),
  );
  return [...drawn, ...rigs];
}

async function pictures(sheet: Sheet): Promise<OwnFile[]> {
  const paths = await picturePaths(sheet);
  let made: ReturnType<typeof pictureBytes> | undefined;
  return paths.map((path) => ({
    name: path.slice(path.lastIndexOf('/') + 1),
    type: 'image/webp',
    make: async () => (await (made ??= pictureBytes(sheet))).get(path) ?? '',
  }));
}

/** Every file of a mold besides its pages: data, cards, drawings, pictures. */
export async function moldFiles(sheet: Sheet, shared: Shared): Promise<OwnFile[]> {
  return [...dataFiles(sheet, shared), ...cardFiles(sheet), ...drawings(sheet), ...(await pictures(sheet))];
}
