/** A file about one mold or one bait that is no page. */
export interface OwnFile {
  /** Within the folder of the mold or bait. */
  readonly name: string;
  /** Its media type. */
  readonly type: string;
  readonly make: () => string | Uint8Array | Promise<string | Uint8Array>;
}
