/** Words of a text, one after the other. */
export interface TextScanner {
  /** The next word; empty at the end. */
  next(): string;
  /** Goes on behind the end of the line. */
  skipLine(): void;
  /** Line of the last word, from 1. */
  line(): number;
}

/**
 * Bytes as text, one character a byte, so that no byte can be wrong.
 *
 * @param bytes - any bytes
 * @returns as many characters as bytes [-]
 *
 * Cost: one copy.
 * Source: ISO/IEC 8859-1.
 */
export function latin1Text(bytes: Uint8Array): string {
  return new TextDecoder('latin1').decode(bytes);
}

/**
 * A reader of words parted by white space.
 *
 * @param text - any text
 * @returns a reader at the start of it; its lines count from 1 [-]
 *
 * Cost: one pass over the text for all words together.
 * Source: definition.
 */
export function textScanner(text: string): TextScanner {
  let at = 0;
  let start = 0;
  return {
    next() {
      while (at < text.length && text.charCodeAt(at) <= 32) at++;
      start = at;
      while (at < text.length && text.charCodeAt(at) > 32) at++;
      return text.slice(start, at);
    },
    skipLine() {
      const end = text.indexOf('\n', at);
      at = end < 0 ? text.length : end + 1;
    },
    line() {
      let line = 1;
      for (let end = text.indexOf('\n'); end >= 0 && end < start; end = text.indexOf('\n', end + 1)) line++;
      return line;
    },
  };
}

/**
 * A decimal number as mesh files write it: sign, digits, point, exponent.
 *
 * @param word - without white space
 * @returns the number, NaN when the word is none, hexadecimal or empty [-]
 *
 * Cost: linear in the word.
 * Source: definition.
 */
export function numberOf(word: string): number {
  // Number() also reads "0x10", "0b1" and "".
  if (word === '' || /[xXoObB]/u.test(word)) return NaN;
  return Number(word);
}
