/** A node of the tree that satori sets. */
export interface SatoriNode {
  readonly type: string;
  readonly key: null;
  readonly props: Readonly<Record<string, unknown>>;
}

/** A box with a style, in a row unless that says otherwise. */
export const box = (
  style: Readonly<Record<string, string | number>>,
  ...children: readonly (SatoriNode | string)[]
): SatoriNode => ({
  type: 'div',
  key: null,
  props: { style: { display: 'flex', ...style }, children: children.length === 1 ? children[0] : children },
});
