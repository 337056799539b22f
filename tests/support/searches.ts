import type { Vec3 } from '../../src/core/mesh/mesh.ts';

/** Point number `i` of an even cloud in the cube from −reach to reach [unit of `reach`]. */
export function seededPoint(i: number, reach: number): Vec3 {
  const draw = (seed: number): number => {
    const wild = Math.sin(seed * 12.9898 + 4.1414) * 43758.5453;
    return reach * (2 * (wild - Math.floor(wild)) - 1);
  };
  return [draw(3 * i + 1), draw(3 * i + 2), draw(3 * i + 3)];
}

/** A list that counts how often an entry of it is read, or of several that belong together the first. */
export function countedReads<List extends object>(
  list: List,
  together = 1,
): { array: List; reads: () => number } {
  let count = 0;
  const array = new Proxy(list, {
    get: (target, key) => {
      if (typeof key === 'string' && /^\d+$/u.test(key) && Number(key) % together === 0) count++;
      return Reflect.get(target, key, target) as unknown;
    },
  });
  return { array, reads: () => count };
}
