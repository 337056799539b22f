import type { Plugin } from 'vite';
import { pageStyle } from '../drawing/lines.ts';
import { tokenStyles } from './tokens.ts';

const NAME = 'virtual:tokens.css';

/** Gives pages the style sheet that `tokens.ts` and the line types of the drawings spell out, always fresh. */
export function tokensPlugin(): Plugin {
  return {
    name: 'partline-tokens',
    resolveId: (id) => (id === NAME ? NAME : null),
    load: (id) => (id === NAME ? `${tokenStyles()}\n${pageStyle()}` : null),
  };
}
