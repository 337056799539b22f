declare module 'subset-font' {
  /** Cuts a font down to the letters of `text`. */
  export default function subsetFont(
    font: Uint8Array,
    text: string,
    options: {
      readonly targetFormat: 'woff2' | 'sfnt';
      readonly noHinting?: boolean;
      readonly keepFeatures?: readonly string[];
    },
  ): Promise<Uint8Array>;
}
