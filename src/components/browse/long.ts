/** Molds that can be looked over at once: one screen of names, a table that a hand can push along. */
const MOST = 24;

/** Whether there are too many molds to show every one of them for each thing that is said of all. */
export const isLong = (sheets: readonly unknown[]): boolean => sheets.length > MOST;
