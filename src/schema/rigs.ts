/** Rigs that baits are made for and hooks are used on. */
export const RIGS = [
  'Texas',
  'Carolina',
  'shaky head',
  'jig trailer',
  'drop shot',
  'weightless',
  'jig head',
  'tail on a jig',
] as const;
