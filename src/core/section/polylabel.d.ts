declare module 'polylabel' {
  /** Pole of inaccessibility of a polygon: outer ring, then holes; `distance` is its distance from them. */
  export default function polylabel(
    polygon: readonly (readonly (readonly number[])[])[],
    precision?: number,
  ): number[] & { distance: number };
}
