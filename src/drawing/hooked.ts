import type { HookForm, HookSizes } from '../core/rigging/hook-form.ts';
import type { Lies } from '../core/rigging/side-body.ts';
import type { BaitGeometry, Outline } from '../core/section/geometry.ts';
import { dimension, statedDimension, type DrawnDimension } from './bait-facts.ts';
import { capital } from './bait-views.ts';
import { horizontal, upright } from './dimension.ts';
import { finished, type Drawing, type DrawingOptions } from './drawing.ts';
import { LAYOUTS, type LayoutSizes } from './layout.ts';
import { leaders, type Note } from './leader.ts';
import { area, circle, EMPTY, joined, lines, moved, type Picture, type Point } from './picture.ts';
import { largestScale, type Scale } from './scale.ts';
import type { Projection, TitleBlock } from './title-block.ts';
import { extent, extremes, onPaper, outlineOnPaper } from './view.ts';
import { wireRing } from './wire.ts';

/** What a drawing of a rigged bait is made from. */
export interface HookedInput {
  readonly name: string;
  readonly geometry: Pick<BaitGeometry, 'plan' | 'across'>;
  readonly lies: Lies;
  /** The bait cut in the plane of the hook (x, up) [m]. */
  readonly section: Outline;
  /** As people say it: "3/0 extra wide gap hook". */
  readonly hookName: string;
  readonly hook: HookSizes;
  /** The hook as it lies in the section. */
  readonly form: HookForm;
  readonly rig: string;
  /** Height of the body between shank and point, at rest and squeezed [m]. */
  readonly height: number;
  readonly squeezed: number;
  /** Room between point and squeezed body [m]; below 0 the point is buried. */
  readonly clearance: number;
  /** Where the bait is cut off, from the nose [m]; 0 when it stays whole. */
  readonly trim: number;
  readonly projection: Projection;
  readonly titleBlock?: TitleBlock | undefined;
}

/** The outline that is the side view of a bait as it swims [m]. */
export function sideOutline({ geometry, lies }: Pick<HookedInput, 'geometry' | 'lies'>): Outline {
  return lies === 'on its belly' ? geometry.across : geometry.plan;
}

/** The wire outside the body in ink, inside it as a hidden outline. */
function hookPicture({ form, hook }: HookedInput, scale: Scale, body: Picture): Picture {
  const paper = form.line.map((point) => onPaper(point, scale));
  const wire = Math.max(hook.wire * 1000 * scale.factor, 0.5);
  const ring = wireRing(paper, wire);
  const radius = Math.max(form.eye.radius * 1000 * scale.factor, 0.9);
  return joined([
    area('visibleEdge', 'ink', [ring]),
    body,
    area('hidden', 'none', [ring]),
    circle('visible', 'none', onPaper(form.eye.at, scale), radius),
  ]);
}

interface Facts {
  readonly gape: DrawnDimension;
  readonly length: DrawnDimension;
  readonly wire: DrawnDimension;
  readonly height: DrawnDimension;
  readonly squeezed: DrawnDimension;
  readonly clearance: DrawnDimension;
  readonly trim: DrawnDimension | null;
  readonly whole: DrawnDimension;
}

function factsOf(input: HookedInput): Facts {
  const { hook, height, squeezed, clearance, trim } = input;
  const where = 'hook in the bait';
  const real = extent(sideOutline(input));
  return {
    gape: statedDimension(hook.gape, { key: 'gape', label: 'Gape of the hook', where }),
    length: statedDimension(hook.length, { key: 'hook-length', label: 'Length of the hook', where }),
    wire: statedDimension(hook.wire, { key: 'wire', label: 'Wire of the hook', where }),
    height: dimension(height, {
      key: 'height-at-point',
      label: 'Greatest body height at the point',
      where,
    }),
    squeezed: dimension(squeezed, {
      key: 'squeezed',
      label: 'Squeezed height to clear',
      where,
    }),
    clearance: dimension(clearance, {
      key: 'clearance',
      label: 'Room between point and squeezed body',
      where,
    }),
    trim: trim > 0 ? dimension(trim, { key: 'trim', label: 'Cut off ahead of the hook', where }) : null,
    whole: dimension(real.max[0] - real.min[0], {
      key: 'length',
      label: 'Overall length',
      where,
      figure: 'bait.length',
    }),
  };
}

/** The squeezed back as a thin-dashed line near the point, and arrows across the room above it; a note has the value. */
function clearancePicture(input: HookedInput, scale: Scale, size: number): Picture {
  const { form, hook, squeezed } = input;
  if (form.lie === 'through the nose') return EMPTY;
  const { foot, point } = form;
  const level = foot[1] + squeezed;
  const [left, right] = [-0.6, 0.6].map((part) => onPaper([point[0] + part * hook.gape, level], scale));
  const to = onPaper(point, scale);
  const arrows = upright({
    from: onPaper([point[0], level], scale),
    to,
    line: clearanceLine(input, scale),
    text: '',
    size,
  });
  return joined([lines('phantom', [left!, right!]), { ...arrows, labels: [] }]);
}

/** Where the clearance is measured on paper: just behind the bend [mm]. */
function clearanceLine({ form, hook }: HookedInput, scale: Scale): number {
  return onPaper([form.foot[0] + hook.bite, 0], scale)[0] + 3;
}

function trimPicture({ trim, section }: HookedInput, scale: Scale): Picture {
  if (trim <= 0) return EMPTY;
  const { min, max } = extent(section);
  const ends = [min[1] - 0.002, max[1] + 0.002].map((y) => onPaper([min[0] + trim, y], scale));
  return lines('cutting', ends);
}

function notesOf(input: HookedInput, facts: Facts, scale: Scale): Note[] {
  const { form, trim, section, squeezed } = input;
  const gape = { at: onPaper(form.point, scale), text: `gape ${facts.gape.shown}` };
  const cut = facts.trim && {
    at: onPaper([extent(section).min[0] + trim, 0], scale),
    text: `cut here, ${facts.trim.shown}`,
  };
  if (form.lie === 'through the nose') return [gape];
  const middle = onPaper([0, (form.foot[1] + squeezed + form.point[1]) / 2], scale)[1];
  const inBody = onPaper([form.point[0] - 0.004, form.foot[1] + squeezed / 2], scale);
  return [
    { at: [clearanceLine(input, scale), middle], text: `clearance ${facts.clearance.shown}` },
    gape,
    ...(cut ? [cut] : []),
    { at: inBody, text: `squeezed ${facts.squeezed.shown}` },
  ];
}

function scaleFor(input: HookedInput, sizes: LayoutSizes, intermediate: boolean) {
  const all = extent([...sideOutline(input), input.form.line]);
  const width = (all.max[0] - all.min[0]) * 1000;
  const height = (all.max[1] - all.min[1]) * 1000;
  const fits = (factor: number) =>
    width * factor <= sizes.width - 2 * sizes.margin - 8 && height * factor <= sizes.views;
  const scale = largestScale(fits, { intermediate, most: 2 });
  return { scale, nose: sizes.width / 2 - ((all.min[0] + all.max[0]) / 2) * 1000 * scale.factor };
}

/** Length of the hook and of the bait under the view; a hook that stands upright has none along the bait. */
function lengthsPicture(
  input: HookedInput,
  facts: Facts,
  scale: Scale,
  under: number,
  size: number,
): Picture {
  const upstanding = input.form.lie === 'through the nose';
  const wire = extremes([input.form.line.map((point) => onPaper(point, scale))], 0);
  const ends = extremes(outlineOnPaper(sideOutline(input), scale), 0);
  const along = (from: Point, to: Point, text: string, row: number) =>
    horizontal({ from, to, line: under + 4 + size + row * 7, text, size });
  return joined([
    ...(upstanding ? [] : [along(wire.low, wire.high, facts.length.shown, 0)]),
    along(ends.low, ends.high, facts.whole.shown, upstanding ? 0 : 1),
  ]);
}

function pictureOf(
  input: HookedInput,
  facts: Facts,
  scale: Scale,
  room: LayoutSizes & { nose: number },
): Picture {
  const silhouette = area('visibleEdge', 'sheet', outlineOnPaper(sideOutline(input), scale));
  const section = area('visible', 'plastic', outlineOnPaper(input.section, scale));
  const hook = hookPicture(input, scale, joined([silhouette, section]));
  const clearance = clearancePicture(input, scale, room.text);
  const drawn = extent([...hook.paths, ...clearance.paths].flatMap(({ runs }) => runs));
  const notes = leaders(notesOf(input, facts, scale), {
    left: room.margin - room.nose,
    right: room.width - room.margin - room.nose,
    edge: drawn.min[1],
    side: 'above',
    size: room.text,
  });
  return joined([
    hook,
    trimPicture(input, scale),
    clearance,
    notes.picture,
    lengthsPicture(input, facts, scale, drawn.max[1], room.text),
  ]);
}

/**
 * A bait as it is rigged: cut in the plane of the hook, the hook drawn to scale in it, dashed where it lies inside
 * the body, and the room between its point and the squeezed body dimensioned.
 *
 * @param input - outlines, hook and stations [m], rig
 * @param options - layout, id prefix, colours of a file of its own
 */
export function hookedDrawing(input: HookedInput, options: DrawingOptions): Drawing {
  const sizes = LAYOUTS[options.layout];
  const { scale, nose } = scaleFor(input, sizes, options.layout === 'compact');
  const facts = factsOf(input);
  const picture = pictureOf(input, facts, scale, { ...sizes, nose });
  const dimensions = [
    facts.whole,
    facts.length,
    facts.gape,
    facts.wire,
    ...(input.form.lie === 'through the nose' ? [] : [facts.height, facts.squeezed, facts.clearance]),
    ...(facts.trim ? [facts.trim] : []),
  ];
  const said = dimensions.map(({ label, shown }) => `${label} ${shown} mm.`).join(' ');
  return finished(
    {
      title: `${input.name}: ${input.rig} rig with a ${input.hookName}, scale ${scale.text}`,
      desc: `The bait cut in the plane of the hook, with the hook to scale in it, dashed where it lies inside the body. ${said} The hook is drawn from its sizes; its form is generic.`,
      blocks: [{ caption: `${capital(input.rig)}, ${input.hookName}`, picture: moved(picture, nose, 0) }],
      scale: scale.text,
      dimensions,
      projection: input.projection,
      titleBlock: input.titleBlock,
    },
    options,
  );
}
