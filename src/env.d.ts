/// <reference types="astro/client" />

declare module 'virtual:tokens.css';
declare module 'virtual:drawing.css';

declare namespace App {
  interface Locals {
    /** Set by a page that lists its sources once; figures on it then refer to them by number. */
    sourceNumbers?: import('./components/figure/source-numbers.ts').SourceNumbers;
    /** Set by the page of a mold: its drawings. */
    drawn?: import('./components/sheet/drawings.ts').DrawnSheets;
  }
}
