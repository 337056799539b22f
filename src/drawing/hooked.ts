import type { Vec2 } from '../core/mesh/mesh.ts';
import type { BaitGeometry, Outline } from '../core/section/geometry.ts';
import { dimension, statedDimension, type DrawnDimension } from './bait-facts.ts';
import { capital } from './bait-views.ts';
import { horizontal } from './dimension.ts';
import { finished, type Drawing, type DrawingOptions } from './drawing.ts';
import {
  hookShape,
  wireRing,
  type HookedBody,
  type HookLie,
  type HookShape,
  type HookSizes,
} from './hook-shape.ts';
import { LAYOUTS, type LayoutSizes } from './layout.ts';
import { leaders, type Note } from './leader.ts';
import { area, circle, joined, moved, type Picture, type Point } from './picture.ts';
import { largestScale, type Scale } from './scale.ts';
import type { Projection, TitleBlock } from './title-block.ts';
import { extent, extremes, onPaper, outlineOnPaper } from './view.ts';

/** What a drawing of a rigged bait is made from. */
export interface HookedInput {
  readonly name: string;
  readonly geometry: Pick<BaitGeometry, 'plan' | 'across' | 'box'>;
  readonly lies: 'on its belly' | 'on its side';
  /** As people say it: "3/0 extra wide gap hook". */
  readonly hookName: string;
  readonly hook: HookSizes;
  readonly rig: string;
  /** Room between point and squeezed body [m]; below 0 the point is buried. */
  readonly clearance?: number | undefined;
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
}

const LIE_OF: Readonly<Record<string, HookLie>> = {
  Texas: 'weedless',
  Carolina: 'weedless',
  weightless: 'weedless',
  'shaky head': 'weedless',
  'jig trailer': 'threaded',
  'jig head': 'threaded',
  'drop shot': 'through the nose',
};

/** The outline that is the side view of a bait as it swims [m]. */
export function sideOutline({ geometry, lies }: Pick<HookedInput, 'geometry' | 'lies'>): Outline {
  return lies === 'on its belly' ? geometry.across : geometry.plan;
}

/** Where an outline is crossed by the upright line at x, from low to high. */
function crossings(outline: Outline, x: number): number[] {
  return outline
    .flatMap((ring) =>
      ring.flatMap(([bx, by], index) => {
        const [ax, ay] = ring.at(index - 1) ?? [bx, by];
        return ax > x === bx > x ? [] : [ay + ((by - ay) * (x - ax)) / (bx - ax)];
      }),
    )
    .sort((a, b) => a - b);
}

/** The body of a side view: of the stretches over a station the one nearest to the axis, a tail left out. */
function bodyOf(outline: Outline): HookedBody {
  const { min } = extent(outline);
  const tip = outline.flat().filter(([x]) => x - min[0] < 1e-4);
  const stretchAt = (x: number): readonly [number, number] => {
    const ys = crossings(outline, Math.max(x, min[0] + 2e-4));
    const pairs = Array.from(
      { length: Math.floor(ys.length / 2) },
      (_, i) => [ys[2 * i] ?? 0, ys[2 * i + 1] ?? 0] as const,
    );
    const away = ([low, high]: readonly [number, number]) =>
      low <= 0 && high >= 0 ? 0 : Math.min(Math.abs(low), Math.abs(high));
    return pairs.sort((a, b) => away(a) - away(b))[0] ?? [0, 0];
  };
  const nose: Vec2 = [min[0], tip.reduce((sum, [, y]) => sum + y, 0) / Math.max(1, tip.length)];
  return { nose, bellyAt: (x) => stretchAt(x)[0], backAt: (x) => stretchAt(x)[1] };
}

/** The wire outside the body in ink, inside it as a hidden outline. */
function hookPicture(shape: HookShape, hook: HookSizes, scale: Scale, body: Picture): Picture {
  const paper = shape.line.map((point) => onPaper(point, scale));
  const wire = Math.max(hook.wire * 1000 * scale.factor, 0.5);
  const ring = wireRing(paper, wire);
  const eye = onPaper(shape.eye.at, scale);
  const radius = Math.max(shape.eye.radius * 1000 * scale.factor, 0.9);
  return joined([
    area('visibleEdge', 'ink', [ring]),
    body,
    area('hidden', 'none', [ring]),
    circle('visible', 'none', eye, radius),
  ]);
}

interface Facts {
  readonly gape: DrawnDimension;
  readonly length: DrawnDimension;
  readonly wire: DrawnDimension;
  readonly height: DrawnDimension;
  readonly clearance?: DrawnDimension | undefined;
}

function factsOf({ hook, clearance }: HookedInput, shape: HookShape, body: HookedBody): Facts {
  const where = 'hook in the bait';
  const x = shape.point[0];
  return {
    gape: statedDimension(hook.gape, { key: 'gape', label: 'Gape of the hook', where }),
    length: statedDimension(hook.length, { key: 'hook-length', label: 'Length of the hook', where }),
    wire: statedDimension(hook.wire, { key: 'wire', label: 'Wire of the hook', where }),
    height: dimension(body.backAt(x) - body.bellyAt(x), {
      key: 'height-at-point',
      label: 'Body height at the point',
      where,
    }),
    ...(clearance !== undefined && {
      clearance: dimension(clearance, {
        key: 'clearance',
        label: 'Room between point and squeezed body',
        where,
      }),
    }),
  };
}

function notesOf(facts: Facts, shape: HookShape, body: HookedBody, scale: Scale): Note[] {
  const x = shape.point[0];
  const gape = { at: onPaper(shape.point, scale), text: `gape ${facts.gape.shown}` };
  const middle = (body.backAt(x) + body.bellyAt(x)) / 2;
  const height = { at: onPaper([x - 0.002, middle], scale), text: `body ${facts.height.shown} high` };
  const room = facts.clearance && {
    at: onPaper(shape.bend, scale),
    text: `clearance ${facts.clearance.shown}`,
  };
  return [gape, height, ...(room ? [room] : [])];
}

function scaleFor(outline: Outline, shape: HookShape, sizes: LayoutSizes, intermediate: boolean) {
  const all = extent([...outline, shape.line]);
  const width = (all.max[0] - all.min[0]) * 1000;
  const height = (all.max[1] - all.min[1]) * 1000;
  const fits = (factor: number) =>
    width * factor <= sizes.width - 2 * sizes.margin - 8 && height * factor <= sizes.views;
  const scale = largestScale(fits, { intermediate, most: 2 });
  return { scale, nose: sizes.width / 2 - ((all.min[0] + all.max[0]) / 2) * 1000 * scale.factor };
}

/**
 * A bait as it is rigged: side view with the hook drawn to scale in it, dashed where it lies inside the body.
 *
 * @param input - outlines and hook sizes [m], rig
 * @param options - layout, id prefix, colours of a file of its own
 */
export function hookedDrawing(input: HookedInput, options: DrawingOptions): Drawing {
  const sizes = LAYOUTS[options.layout];
  const outline = sideOutline(input);
  const body = bodyOf(outline);
  const shape = hookShape(input.hook, LIE_OF[input.rig] ?? 'weedless', body);
  const { scale, nose } = scaleFor(outline, shape, sizes, options.layout === 'compact');
  const rings = outlineOnPaper(outline, scale);
  const hook = hookPicture(shape, input.hook, scale, area('visible', 'plastic', rings));
  const facts = factsOf(input, shape, body);
  const drawn = extent([...rings, ...hook.paths.flatMap(({ runs }) => runs)]);
  const room = { left: sizes.margin - nose, right: sizes.width - sizes.margin - nose, size: sizes.text };
  const notes = leaders(notesOf(facts, shape, body, scale), { ...room, edge: drawn.min[1], side: 'above' });
  const wire = extremes([shape.line.map((point) => onPaper(point, scale))], 0);
  const lengthwise = (from: Point, to: Point, text: string, row: number) =>
    horizontal({ from, to, line: drawn.max[1] + 4 + sizes.text + row * 7, text, size: sizes.text });
  const ends = extremes(rings, 0);
  const { box } = input.geometry;
  const whole = dimension(box.max[0] - box.min[0], {
    key: 'length',
    label: 'Overall length',
    where: 'hook in the bait',
    figure: 'bait.length',
  });
  const upright = LIE_OF[input.rig] === 'through the nose';
  const picture = joined([
    hook,
    notes.picture,
    ...(upright ? [] : [lengthwise(wire.low, wire.high, facts.length.shown, 0)]),
    lengthwise(ends.low, ends.high, whole.shown, upright ? 0 : 1),
  ]);
  const dimensions = [
    whole,
    facts.length,
    facts.gape,
    facts.wire,
    facts.height,
    ...(facts.clearance ? [facts.clearance] : []),
  ];
  const said = dimensions.map(({ label, shown }) => `${label} ${shown} mm.`).join(' ');
  return finished(
    {
      title: `${input.name}: ${input.rig} rig with a ${input.hookName}, scale ${scale.text}`,
      desc: `Side view of the bait with the hook to scale in it, dashed where it lies inside the body. ${said} The hook is drawn from its sizes; its form is generic.`,
      blocks: [{ caption: `${capital(input.rig)} rig, ${input.hookName}`, picture: moved(picture, nose, 0) }],
      scale: scale.text,
      dimensions,
      projection: input.projection,
      titleBlock: input.titleBlock,
    },
    options,
  );
}
