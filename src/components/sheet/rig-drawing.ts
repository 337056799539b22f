import type { Drawing } from '../../drawing/drawing.ts';
import { hookedDrawing } from '../../drawing/hooked.ts';
import type { Layout } from '../../drawing/layout.ts';
import type { RigAdvice, Sheet } from '../../sheet/sheet.ts';

/** Part of the address of a rig's drawing: `tail-on-a-jig`, with `-view` for the bare view of a page. */
export const rigFile = (rig: string, view: boolean) =>
  `${rig.toLowerCase().replaceAll(' ', '-')}${view ? '-view' : ''}`;

/** The hook of a rig drawn in the bait, without frame and title block. */
export function rigDrawing(sheet: Sheet, { best, rig, section, form }: RigAdvice, layout: Layout): Drawing {
  const { bait, geometry, shop } = sheet;
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
    },
    { layout, prefix: 'rig', standalone: 'auto' },
  );
}
