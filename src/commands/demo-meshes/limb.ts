import {
  sweepMesh,
  sweepOf,
  type AppendageKind,
  type Sweep,
  type Taper,
} from '../../core/solid/appendage.ts';
import type { Solid, Workshop } from '../../core/solid/kernel.ts';

/** A limb in the plane z = `up`: place of its root, heading [°], length, sizes and bend [mm, °]. */
export interface Limb {
  readonly kind: AppendageKind;
  readonly at: readonly [number, number];
  readonly up?: number;
  readonly heading: number;
  readonly length: number;
  readonly width: Taper;
  readonly thickness: Taper;
  readonly bend?: number;
}

const metres = ({ root, middle, tip }: Taper): Taper => ({
  root: root / 1e3,
  middle: middle === undefined ? undefined : middle / 1e3,
  tip: tip / 1e3,
});
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** The smooth shape of a limb [m]. */
export function limbSweep(limb: Limb): Sweep {
  const [at, across] = limb.at;
  return sweepOf({
    name: limb.kind,
    kind: limb.kind,
    root: { at: at / 1e3, across: across / 1e3, up: (limb.up ?? 0) / 1e3 },
    direction: radians(limb.heading),
    length: limb.length / 1e3,
    width: metres(limb.width),
    thickness: metres(limb.thickness),
    curl: radians(limb.bend ?? 0),
  });
}

/** Where a limb ends and where it points there [mm, °]. */
export function endOf(limb: Limb, share = 1): Pick<Limb, 'at' | 'heading'> {
  const sweep = limbSweep(limb);
  const [x, y] = sweep.pointAt(share * sweep.length);
  return { at: [x * 1e3, y * 1e3], heading: (sweep.headingAt(share * sweep.length) * 180) / Math.PI };
}

/** Solids of limbs, each with its mirror image across y = 0. */
export function pairs(shop: Workshop, limbs: readonly Limb[]): Solid[] {
  return limbs.flatMap((limb) => {
    const solid = single(shop, limb);
    return [solid, shop.place(solid, { mirrored: true })];
  });
}

/** Solid of one limb. */
export function single(shop: Workshop, limb: Limb): Solid {
  return shop.solid(sweepMesh(limbSweep(limb), 12, 20));
}
