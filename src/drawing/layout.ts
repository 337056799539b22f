/** How much paper a drawing takes: beside text on a wide screen and on paper, or on a phone. */
export type Layout = 'wide' | 'compact';

/** Sizes of a layout [mm]. */
export interface LayoutSizes {
  readonly width: number;
  readonly margin: number;
  /** Lettering of dimensions and names. */
  readonly text: number;
  /** Captions. */
  readonly small: number;
  /** Room kept at the right of a view for an upright dimension. */
  readonly beside: number;
  /** Most height that the two views together may take. */
  readonly views: number;
  /** Largest width and height of a cross-section. */
  readonly section: { readonly width: number; readonly height: number };
}

/**
 * `wide` is A4 with 10 mm left and right; `compact` shown 330 px wide sets 3.5 mm lettering at 12 px.
 * Source: ISO 3098-1:2015 lettering heights 2.5 and 3.5 mm.
 */
export const LAYOUTS: Readonly<Record<Layout, LayoutSizes>> = {
  wide: {
    width: 190,
    margin: 5,
    text: 3.5,
    small: 2.8,
    beside: 20,
    views: 110,
    section: { width: 40, height: 36 },
  },
  compact: {
    width: 94,
    margin: 3,
    text: 3.5,
    small: 2.8,
    beside: 19,
    views: 75,
    section: { width: 38, height: 30 },
  },
};
