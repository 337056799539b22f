import { placedCavities } from './cavity-layout.ts';
import { channelsOf } from './channel-layout.ts';
import { LEAST_WALL, type MoldLayout, type MoldTable, type PlacedCavity } from './mold-table.ts';
import { pinsOf } from './pin-layout.ts';
import { outlineBox } from './plan.ts';
import { ventsOf } from './vent-layout.ts';

const mm = (metres: number): string => `${Number((metres * 1e3).toFixed(1))} mm`;

/**
 * Where everything lies in a mold: cavities, gates, runner, sprue, vents and pins.
 *
 * @param mold - the mold [m, rad]
 * @returns the layout in the block's frame [m]
 * @throws {RangeError} in plain words when a cavity leaves too little wall, or there is no room
 *
 * Valid: channels and vents in the parting plane.
 * Cost: some 2 ms a cavity.
 * Source: own derivation.
 */
export function moldLayout(mold: MoldTable): MoldLayout {
  const cavities = placedCavities(mold);
  cavities.forEach((cavity, index) => checkWall(mold, cavity, index));
  const channels = channelsOf(mold, cavities);
  const pins = pinsOf(mold, cavities, channels);
  const { vents, notes } = ventsOf({ mold, cavities, channels, pins });
  return { cavities, ...channels, vents, pins, notes };
}

function checkWall({ block, cavities }: MoldTable, { outline }: PlacedCavity, index: number): void {
  const { min, max } = outlineBox(outline);
  const wall = Math.min(min[0], min[1], block.length - max[0], block.width - max[1]);
  const name = `cavity ${index + 1}`;
  if (wall < LEAST_WALL - 1e-9) {
    throw new RangeError(
      wall < 0
        ? `${name}: wants to lie inside the block, got ${mm(-wall)} beyond its edge; move it or make the block larger`
        : `${name}: wants ${mm(LEAST_WALL)} of metal to the block's edge, got ${mm(wall)}; move it or make the block larger`,
    );
  }
  let deep = 0;
  for (let i = 2; i < cavities[index]!.mesh.positions.length; i += 3) {
    deep = Math.max(deep, Math.abs(cavities[index]!.mesh.positions[i]!));
  }
  const floor = block.thickness / 2 - deep;
  if (floor < LEAST_WALL - 1e-9) {
    throw new RangeError(
      `${name}: wants ${mm(LEAST_WALL)} of metal under it, got ${mm(floor)}; make the block at least ${mm(2 * (deep + LEAST_WALL))} thick`,
    );
  }
}
