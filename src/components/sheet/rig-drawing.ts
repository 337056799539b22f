import type { Drawing, DrawingOptions } from '../../drawing/drawing.ts';
import { hookedDrawing } from '../../drawing/hooked.ts';
import type { RigAdvice, Sheet } from '../../sheet/sheet.ts';

/** Last part of the address of a rig's drawing: `tail-on-a-jig`. */
export const rigName = (rig: string) => rig.toLowerCase().replaceAll(' ', '-');

/** The hook of a rig drawn in the bait; a file of its own carries the title block. */
export function rigDrawing(
  sheet: Sheet,
  { best, rig, section, form }: RigAdvice,
  options: DrawingOptions,
): Drawing {
  const { bait, geometry, mold, revision, shop } = sheet;
  const size = best.hook.sizes.find((one) => one.size === best.size);
  if (!size) throw new RangeError(`rigDrawing: wants a size of ${best.hook.id}, got "${best.size}"`);
  const hookName = `${best.size} ${best.hook.name.toLowerCase()}`;
  return hookedDrawing(
    {
      name: bait.name,
      geometry,
      lies: bait.lies,
      section,
      hookName,
      hook: size,
      form,
      rig,
      height: best.fit.height,
      squeezed: best.fit.squeezed.value,
      clearance: best.fit.clearance.value,
      trim: best.fit.trim,
      projection: shop.units === 'us' ? 'third' : 'first',
      ...(options.standalone && {
        titleBlock: {
          owner: shop.name,
          number: mold.stock,
          revision: revision.id.toUpperCase(),
          date: revision.date,
          title: `${bait.name}, ${rig}`,
          documentType: 'Rigging drawing',
        },
      }),
    },
    options,
  );
}
