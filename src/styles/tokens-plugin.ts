import type { Plugin } from 'vite';
import { pageStyle } from '../drawing/lines.ts';
import { tokenStyles, type Look } from './tokens.ts';

/**
 * Gives pages the style sheets that `tokens.ts` and the line types of the drawings spell out, always fresh, in the look
 * of the shop; drawings and cards are told its accent.
 */
export function tokensPlugin(look: Look): Plugin {
  const sheets: Readonly<Record<string, () => string>> = {
    'virtual:tokens.css': () => tokenStyles(look),
    'virtual:drawing.css': pageStyle,
  };
  return {
    name: 'partline-tokens',
    config: () => ({ define: look.accent ? { PARTLINE_ACCENT: JSON.stringify(look.accent) } : {} }),
    resolveId: (id) => (id in sheets ? id : null),
    load: (id) => sheets[id]?.() ?? null,
  };
}
