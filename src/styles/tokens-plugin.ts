import type { Plugin } from 'vite';
import { pageStyle } from '../drawing/lines.ts';
import { tokenStyles, type Look } from './tokens.ts';

const NAME = 'virtual:tokens.css';

/**
 * Gives pages the style sheet that `tokens.ts` and the line types of the drawings spell out, always fresh, in the look
 * of the shop; drawings and cards are told its accent.
 */
export function tokensPlugin(look: Look): Plugin {
  return {
    name: 'partline-tokens',
    config: () => ({ define: look.accent ? { PARTLINE_ACCENT: JSON.stringify(look.accent) } : {} }),
    resolveId: (id) => (id === NAME ? NAME : null),
    load: (id) => (id === NAME ? `${tokenStyles(look)}\n${pageStyle()}` : null),
  };
}
