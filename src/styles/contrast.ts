function channel(hex: string, at: number): number {
  const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
}

/**
 * Contrast ratio of two colours, 1 to 21.
 * Source: WCAG 2.2, relative luminance and contrast ratio.
 */
export function contrast(one: string, other: string): number {
  const [dim = 0, bright = 0] = [one, other]
    .map((hex) => 0.2126 * channel(hex, 1) + 0.7152 * channel(hex, 3) + 0.0722 * channel(hex, 5))
    .sort((a, b) => a - b);
  return (bright + 0.05) / (dim + 0.05);
}
