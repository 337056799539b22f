// The relations of the site once more, from the published formulas and worked another way: series by summing,
// roots by halving an interval, Bessel functions by their integral. Plain numbers in SI; nothing is taken from src.

const GAS = 8.314462618; // CODATA 2018

/** Root of a function that changes sign between two ends. */
export function root(f: (x: number) => number, low: number, high: number): number {
  const rising = f(high) > 0;
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (f(middle) > 0 === rising) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

/** Error function by its Maclaurin series. */
export function erf(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; n < 200; n++) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}

/** J₀ by Bessel's integral, midpoint rule: exact to rounding for a periodic integrand. */
export function bessel0(x: number): number {
  let sum = 0;
  for (let i = 0; i < 200; i++) sum += Math.cos(x * Math.sin((Math.PI * (i + 0.5)) / 200));
  return sum / 200;
}

/** Mean excess temperature of a cylinder at a Fourier number; Carslaw & Jaeger (1959), 7.6. */
export function cylinderMean(fourier: number): number {
  let sum = 0;
  for (let n = 1; n <= 40; n++) {
    const about = (n - 0.25) * Math.PI;
    const lambda = root(bessel0, about - 0.6, about + 0.6);
    sum += (4 / lambda ** 2) * Math.exp(-(lambda ** 2) * fourier);
  }
  return sum;
}

/** Densities of the parts of a compound at 20 °C [kg/m³]; product data sheets, Titow, PVC Technology, 4th ed. */
const PLASTICISER: Record<string, number> = { DINP: 972, DEHT: 984, DOA: 925, ATBC: 1046, DEHP: 986 };

/** Rule of mixtures by mass [kg/m³]: resin 1400, salt 2165, hollow glass 200. */
export function compoundDensity(plasticiser: string, phr: number, salt: number, glass: number): number {
  const resin = 100 / (100 + phr);
  const base = resin / 1400 + (1 - resin) / (PLASTICISER[plasticiser] ?? NaN);
  return 1 / ((1 - salt - glass) * base + salt / 2165 + glass / 200);
}

/** Young's modulus from the recipe [Pa]: E₅₀(φ/φ₅₀)³ with Shore A 80 at 50 phr of DEHP, A. N. Gent (1958). */
export function recipeModulus(plasticiser: string, phr: number): number {
  const soften: Record<string, number> = { DEHP: 1, DINP: 1.06, DEHT: 1.03, DOA: 0.93, ATBC: 1 };
  const resinVolume = (p: number): number => 100 / 1400 / (100 / 1400 + p / 986);
  const gent = (0.0981e6 * (56 + 7.62336 * 80)) / (0.137505 * (254 - 2.54 * 80));
  return gent * (resinVolume(phr / (soften[plasticiser] ?? NaN)) / resinVolume(50)) ** 3;
}

/** Shore 00 of a modulus [Pa]: Hertz contact of the ball of ASTM D2240, scaled to meet Gent. */
export function shore00(modulus: number): number {
  const stiffness = (h: number): number => {
    const force = 0.203 + 0.00908 * h;
    const travel = 2.5e-3 * (1 - h / 100);
    return (1.3673 * 0.75 * 0.75 * force) / (Math.sqrt(1.19e-3) * travel ** 1.5);
  };
  return root((h) => stiffness(h) - modulus, 0, 99);
}

/** Fall of a bait's mean temperature until a gate of a × b freezes through [K]. */
export function topOffFall(
  pour: number,
  noFlow: number,
  mold: number,
  a: number,
  b: number,
  body: number,
): number {
  const theta = (pour - mold) / (noFlow - mold);
  const diffusedTime = Math.log((16 / Math.PI ** 2) * theta) / (Math.PI ** 2 * (1 / a ** 2 + 1 / b ** 2));
  return Math.min(pour - noFlow, (pour - mold) * (1 - cylinderMean(diffusedTime / (body / 2) ** 2)));
}

/** Time until the centre of a cylinder is down to a temperature [s]; Ballman & Shusman, Modern Plastics (1959). */
export function cylinderTime(
  diameter: number,
  diffusivity: number,
  melt: number,
  mold: number,
  eject: number,
): number {
  return (diameter ** 2 / (23.1327 * diffusivity)) * Math.log(1.60197 * ((melt - mold) / (eject - mold)));
}

/** The same of a slab [s]. */
export function slabTime(
  thickness: number,
  diffusivity: number,
  melt: number,
  mold: number,
  eject: number,
): number {
  return (
    (thickness ** 2 / (Math.PI ** 2 * diffusivity)) *
    Math.log((4 / Math.PI) * ((melt - mold) / (eject - mold)))
  );
}

/** Arrhenius viscosity [Pa·s] from its value at 175 °C. */
export function viscosityAt(reference: number, activation: number, temperature: number): number {
  return reference * Math.exp((activation / GAS) * (1 / temperature - 1 / 448.15));
}

/** Viscosity of air [Pa·s]; Sutherland (1893). */
export function airViscosity(temperature: number): number {
  return (1.716e-5 * (temperature / 273.15) ** 1.5 * 383.55) / (temperature + 110.4);
}

/** Density of water [kg/m³] at t °C; G. S. Kell, J. Chem. Eng. Data 20 (1975) 97. */
export function water(t: number): number {
  const above =
    999.83952 +
    t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
  return above / (1 + 16.87985e-3 * t);
}

/** Straight line through a table, level beyond its ends. */
function looked(table: readonly (readonly [number, number])[], x: number): number {
  const next = table.findIndex(([at]) => at >= x);
  if (next <= 0) return (next === 0 ? table[0] : table.at(-1))?.[1] ?? NaN;
  const [x0, y0] = table[next - 1] ?? [0, 0];
  const [x1, y1] = table[next] ?? [1, 0];
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}

/**
 * Speed of a cylinder that sinks on its side [m/s]; drag of finite cylinders: C. Matthews, Aeronautical Engineer's Data
 * Book (2002), p. 95; below Re 1000 after Sucker & Brauer (1975).
 */
export function sinkingSpeed(
  weight: number,
  area: number,
  length: number,
  density: number,
  viscosity: number,
): number {
  const diameter = area / length;
  const finite = looked(
    [
      [1, 0.63],
      [2, 0.68],
      [5, 0.74],
      [10, 0.82],
      [40, 0.98],
    ],
    length / diameter,
  );
  const endless = (re: number): number =>
    1.18 + 6.8 / re ** 0.89 + 1.96 / Math.sqrt(re) - (0.0004 * re) / (1 + 3.64e-7 * re * re);
  const pull = (v: number): number => {
    const re = (density * v * diameter) / viscosity;
    const drag = re < 1000 ? (finite * endless(re)) / endless(1000) : finite;
    return 0.5 * density * v * v * drag * area - weight;
  };
  return root(pull, 1e-3, 5);
}

/** Loss of a warm upright face to still air [W/(m²·K)]; Churchill & Chu (1975), air as an ideal gas, and radiation. */
export function faceLoss(height: number, surface: number, ambient: number, emissivity: number): number {
  const film = (surface + ambient) / 2;
  const conductivity = 0.0241 * (film / 273.15) ** 0.81;
  const kinematic = airViscosity(film) / (101_325 / (287.05 * film));
  const prandtl = 0.707;
  const rayleigh = ((9.80665 / film) * (surface - ambient) * height ** 3 * prandtl) / kinematic ** 2;
  const nusselt =
    (0.825 + (0.387 * rayleigh ** (1 / 6)) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27)) ** 2;
  const radiation = emissivity * 5.670374419e-8 * (surface + ambient) * (surface ** 2 + ambient ** 2);
  return (nusselt * conductivity) / height + radiation;
}

/** Hottest bare metal that skin stands [°C] for a time [s]; ASTM C1055, the reversible curve, from memory. */
export function touchLimit(seconds: number): number {
  const x = Math.log(1000 * seconds);
  return 39.468 - 0.41352 * x + 190.6 / x;
}
