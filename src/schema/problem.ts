/** Where something stands inside an entry: keys and list positions from the outside in. */
export type Path = readonly (string | number)[];

/** One mistake of an author, at its place in a file. Lines and columns count from 1. */
export interface Problem {
  /** As shown: relative to the project where it lies inside. */
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** What is wrong. */
  readonly message: string;
  /** What to do. */
  readonly remedy: string;
}

/** One mistake found after reading, by its place in an entry; `src/io` turns it into file, line and column. */
export interface EntryProblem {
  readonly collection: string;
  readonly id: string;
  readonly path: Path;
  readonly message: string;
  readonly remedy: string;
}
