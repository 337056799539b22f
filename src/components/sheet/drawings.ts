import { baitDrawing } from '../../drawing/bait.ts';
import { curvesDrawing } from '../../drawing/curves.ts';
import type { Drawing } from '../../drawing/drawing.ts';
import type { Layout } from '../../drawing/layout.ts';
import type { Scheme } from '../../drawing/lines.ts';
import { fillDrawing } from './fill-drawings.ts';
import { rigDrawing } from './rig-drawing.ts';
import { moldPlanDrawing } from '../../drawing/mold-plan.ts';
import { moldSectionDrawing } from '../../drawing/mold-section.ts';
import { thicknessMap } from '../../drawing/thickness-map.ts';
import type { TitleBlock } from '../../drawing/title-block.ts';
import type { RigAdvice, Sheet } from '../../sheet/sheet.ts';

/** How a drawing of a sheet is put into a file of its own. */
interface SheetDrawingOptions {
  readonly layout: Layout;
  readonly prefix: string;
  readonly standalone?: Scheme;
}

/** Letter of the mold's section in its plan. */
const LETTER = 'M';

/** What each drawing is called in title blocks and lists of files. */
export const DRAWING_WORDS = {
  bait: 'Bait drawing',
  mold: 'Mold half, plan',
  section: 'Mold section',
  walls: 'Wall thickness map',
  curves: 'Section areas and thickness',
  'fill-cold': 'Fill map, cold mold',
  'fill-warm': 'Fill map, warm mold',
  'fill-adverse': 'Fill map, adverse end',
  window: 'Operating window',
  warming: 'Block temperature',
} as const;

/** One of the drawings of a sheet. */
export type DrawingName = keyof typeof DRAWING_WORDS;

/** The drawings that a sheet has: no map of the adverse end where every part fills there. */
export function drawingsOf({ filling }: Pick<Sheet, 'filling'>): DrawingName[] {
  const all = Object.keys(DRAWING_WORDS) as DrawingName[];
  return all.filter((name) => name !== 'fill-adverse' || filling.model.adverse !== null);
}

/** Drawings that speak of the bait alone, whatever mold it is shot in. */
const OF_BAIT: ReadonlySet<DrawingName> = new Set(['bait', 'walls', 'curves']);

/** What all drawings of a sheet share. */
function shared({ bait, shop, title }: Sheet, drawing: DrawingName) {
  return {
    name: OF_BAIT.has(drawing) ? bait.name : title,
    projection: shop.units === 'us' ? 'third' : 'first',
  } as const;
}

/** What the title block of a drawing says. */
function titleBlockOf({ shop, mold, revision }: Sheet, title: string, documentType: string): TitleBlock {
  return {
    owner: shop.name,
    number: mold.stock,
    revision: revision.id.toUpperCase(),
    date: revision.date,
    title,
    documentType,
  };
}

/** One drawing of a sheet from its solids, without frame and title block. */
function sheetDrawing(sheet: Sheet, drawing: DrawingName, options: SheetDrawingOptions): Drawing {
  const { bait, geometry, halves, mold, walls } = sheet;
  const facts = shared(sheet, drawing);
  switch (drawing) {
    case 'bait':
      return baitDrawing(
        { ...facts, geometry, edges: sheet.edges, lies: bait.lies, cuts: sheet.cuts },
        options,
      );
    case 'mold': {
      const cut = { x: halves.section.x, letter: LETTER };
      return moldPlanDrawing({ ...facts, layout: halves.layout, mold, cut }, options);
    }
    case 'section':
      return moldSectionDrawing({ ...facts, ...halves.section, letter: LETTER, block: mold.block }, options);
    case 'walls': {
      const thinnest = geometry.features.map((feature) => feature.thinnest.thickness);
      return thicknessMap(
        { ...facts, plan: geometry.plan, grid: walls, thinnest: Math.min(...thinnest) },
        options,
      );
    }
    case 'curves':
      return curvesDrawing({ ...facts, geometry }, options);
    default:
      return fillDrawing(sheet, drawing, facts, options);
  }
}

/** One file of a drawing: a view is bare, for a page; the other carries frame and title block. */
export interface DrawingFile {
  readonly drawing: DrawingName;
  readonly layout: Layout;
  readonly view: boolean;
}

/** Last part of the address of a drawing's file; the bait's own drawing has the shortest. */
export function drawingFile({ drawing, layout, view }: DrawingFile): string {
  const parts = ['drawing', drawing === 'bait' ? '' : drawing, view ? 'view' : '', layout];
  return `${parts.filter(Boolean).join('-')}.svg`;
}

/** A drawing in one layout as pages and files need it: plain data. */
export interface DrawnLayout extends Pick<Drawing, 'title' | 'desc' | 'width' | 'height' | 'dimensions'> {
  /** SVG text: bare for a page, and framed with a title block. */
  readonly view: string;
  readonly framed: string;
}

/** A rig as its page and its files need it: a compact view, and a wide sheet with frame and title block. */
export type DrawnRig = Omit<DrawnLayout, 'dimensions'>;

/** All drawings of a sheet. */
export interface DrawnSheets {
  readonly sheets: Readonly<Partial<Record<DrawingName, Readonly<Record<Layout, DrawnLayout>>>>>;
  /** Hooks drawn in the bait, by the name of the rig. */
  readonly rigs: Readonly<Record<string, DrawnRig>>;
}

/** Drawings of a bait by what they show, in the order in which they were asked for. */
type OfBait = (what: string, draw: () => Drawing) => Drawing;

let last: { readonly key: string; readonly made: Map<string, Drawing> } | undefined;

/** Tells plain data from other data: the same text for equal data. */
type Digest = (data: unknown) => string;

/** Drawings of the bait of a sheet: those of the sheet before, when that speaks of the very same bait. */
function drawingsOfBait(sheet: Sheet, digest: Digest): OfBait {
  const { bait, cuts, edges, geometry, rigs, walls } = sheet;
  const key = digest([shared(sheet, 'bait'), bait.lies, cuts, edges, geometry, rigs, walls]);
  if (last?.key !== key) last = { key, made: new Map() };
  const { made } = last;
  return (what, draw) => {
    const drawing = made.get(what) ?? draw();
    made.set(what, drawing);
    return drawing;
  };
}

/** Draws all drawings of a sheet. */
export function drawnSheets(sheet: Sheet, digest: Digest): DrawnSheets {
  const ofBait = drawingsOfBait(sheet, digest);
  const inLayout = (drawing: DrawingName, layout: Layout): DrawnLayout => {
    const draw = () => sheetDrawing(sheet, drawing, { layout, prefix: 'drawing', standalone: 'auto' });
    const bare = OF_BAIT.has(drawing) ? ofBait(`${drawing} ${layout}`, draw) : draw();
    const { title, desc, width, height, dimensions, svg: view } = bare;
    const block = titleBlockOf(sheet, shared(sheet, drawing).name, DRAWING_WORDS[drawing]);
    return { title, desc, width, height, dimensions, view, framed: bare.titled(block).svg };
  };
  const both = (drawing: DrawingName) => ({
    wide: inLayout(drawing, 'wide'),
    compact: inLayout(drawing, 'compact'),
  });
  const drawnRig = (advice: RigAdvice): DrawnRig => {
    const { rig } = advice;
    const bare = (layout: Layout) => ofBait(`${rig} ${layout}`, () => rigDrawing(sheet, advice, layout));
    const { title, desc, width, height, svg: view } = bare('compact');
    const block = titleBlockOf(sheet, `${sheet.bait.name}, ${rig}`, 'Rigging drawing');
    return { title, desc, width, height, view, framed: bare('wide').titled(block).svg };
  };
  return {
    sheets: Object.fromEntries(drawingsOf(sheet).map((drawing) => [drawing, both(drawing)])),
    rigs: Object.fromEntries(sheet.rigs.map((advice) => [advice.rig, drawnRig(advice)])),
  };
}

/** Every file of every drawing of a sheet. */
export function drawingFiles(sheet: Pick<Sheet, 'filling'>): DrawingFile[] {
  return drawingsOf(sheet).flatMap((drawing) =>
    (['wide', 'compact'] as const).flatMap((layout) =>
      [false, true].map((view) => ({ drawing, layout, view })),
    ),
  );
}

/** One drawing of a sheet, whose drawings are known. */
export function drawnOf(drawn: DrawnSheets | undefined, drawing: DrawingName, layout: Layout): DrawnLayout {
  const found = drawn?.sheets[drawing]?.[layout];
  if (!found) throw new RangeError(`drawnOf: this sheet has no "${drawing}"`);
  return found;
}

/** One rig of a sheet, whose drawings are known. */
export function drawnRigOf(drawn: DrawnSheets | undefined, rig: string): DrawnRig {
  const found = drawn?.rigs[rig];
  if (!found) throw new RangeError(`drawnRigOf: this sheet has no "${rig}"`);
  return found;
}
