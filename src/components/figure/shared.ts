import type { Figure, FigureInput, Source } from '../../core/quantity/figure.ts';

const same = (a: FigureInput, b: FigureInput) =>
  a.name === b.name && a.unit === b.unit && a.value === b.value && a.low === b.low && a.high === b.high;

const isShared = (input: FigureInput, figures: readonly Figure[]) =>
  figures.every(({ inputs }) => inputs.some((other) => same(input, other)));

/** Inputs that all figures of a table have in common. */
export function sharedInputs(figures: readonly Figure[]): FigureInput[] {
  return (figures[0]?.inputs ?? []).filter((input) => isShared(input, figures));
}

/** Inputs in which one figure of a table differs from the others. */
export function ownInputs({ inputs }: Figure, figures: readonly Figure[]): FigureInput[] {
  return inputs.filter((input) => !isShared(input, figures));
}

/** Sources in their order, each once. */
export function eachOnce(sources: readonly Source[]): Source[] {
  const known = new Map(sources.map((source) => [`${source.title}|${source.kind}|${source.note}`, source]));
  return [...known.values()];
}
