// Numbers as authors write them, in SI. Factors: NIST SP 811 (2008), Appendix B.
const FACTORS: Record<string, number> = {
  mm: 1e-3,
  cm: 1e-2,
  m: 1,
  in: 0.0254,
  thou: 25.4e-6,
  mL: 1e-6,
  L: 1e-3,
  'fl oz': 29.5735295625e-6,
  g: 1e-3,
  kg: 1,
  'g/cm3': 1000,
  'g/cm³': 1000,
  'kg/m3': 1,
  'kg/m³': 1,
  'W/(m·K)': 1,
  'J/(kg·K)': 1,
  'm/s': 1,
  'm2/s': 1,
  'm²/s': 1,
  '1/K': 1,
  'Pa·s': 1,
  'kJ/mol': 1000,
};

/** A quantity as text in SI: "0.0015 in" is 3.81e-5, "330 °F" is 438.7. */
export function si(text: unknown): number {
  const match = /^\s*([-+]?[\d.]+(?:e[-+]?\d+)?)\s*(.+?)\s*$/iu.exec(String(text));
  if (!match) throw new Error(`cannot read ${String(text)}`);
  const number = Number(match[1]);
  const unit = match[2] ?? '';
  if (unit === '°C') return number + 273.15;
  if (unit === '°F') return (number - 32) / 1.8 + 273.15;
  const factor = FACTORS[unit];
  if (factor === undefined) throw new Error(`no factor for ${unit}`);
  return number * factor;
}
