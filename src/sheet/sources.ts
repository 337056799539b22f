import type { Source } from '../core/quantity/figure.ts';

/** Sources that several figures name. */
export const SOURCES = {
  mesh: {
    kind: 'published',
    title:
      'B. Mirtich, Fast and accurate computation of polyhedral mass properties, J. Graphics Tools 1(2), 1996',
  },
  ball: { kind: 'published', title: 'Largest inscribed sphere; definition of local thickness' },
  silhouette: {
    kind: 'published',
    title: 'Outline of the solid seen square to the parting plane; definition',
  },
  halves: {
    kind: 'published',
    title:
      'Booleans of closed solids by manifold-3d 3.5 (E. Lalish and others), after J. Smith, Towards robust inexact geometric computation (2009)',
  },
  clamp: { kind: 'published', title: 'Force = pressure × projected area; definition of pressure' },
  box: { kind: 'published', title: 'Density × volume; definition of density' },
  energy: {
    kind: 'published',
    title: 'Energy balance of block and shot; Incropera et al., Fundamentals of Heat and Mass Transfer, 5.1',
    note: 'section number from memory',
  },
  cooling: {
    kind: 'published',
    title:
      'Ballman & Shusman, Modern Plastics (1959); Menges, Michaeli & Mohren, How to Make Injection Molds, 3rd ed. (2001)',
    note: 'from memory; section taken as the ellipse of the same inscribed circle and area, own derivation',
  },
  contact: {
    kind: 'published',
    title: 'Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), 2.15',
    note: 'section number from memory',
  },
  skin: {
    kind: 'published',
    title: 'Thermal properties of human skin, review in Burns 43 (2017) 909, Table 3',
  },
  touch: {
    kind: 'published',
    title: 'ISO 13732-1:2006 and ASTM C1055 burn thresholds for bare metal, the lower of the two',
    note: 'values from memory, cross-checked against each other',
  },
  filling: {
    kind: 'published',
    title:
      'Hele-Shaw flow, Hieber & Shen, J. Non-Newtonian Fluid Mech. 7 (1980) 1; front by the flow analysis network, Tadmor, Broyer & Gutfinger, Polym. Eng. Sci. 14 (1974) 660',
    note: 'from memory; reserve by stretching all lengths, own derivation',
  },
  closing: {
    kind: 'published',
    title:
      'Closing of the walls by conduction: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. (1959), 3.3',
    note: 'section number from memory; its low and high end own derivation',
  },
  contraction: {
    kind: 'published',
    title: 'Mass balance of a cavity of fixed volume, expansion × temperature fall',
  },
  frustum: { kind: 'published', title: 'Frustum, cylinder and box; any handbook of mathematics' },
  vents: {
    kind: 'published',
    title: 'Laminar slot flow of air; freezing of melt in the slot with contact resistance, own derivation',
  },
  archimedes: {
    kind: 'published',
    title:
      'Archimedes; fresh water after Kell, J. Chem. Eng. Data 20 (1975) 97; sea water after Millero & Poisson, Deep-Sea Res. 28A (1981) 625 (EOS-80)',
  },
  drag: {
    kind: 'published',
    title:
      'Cylinder drag: Sucker & Brauer (1975); finite length after Matthews, Aeronautical Engineer’s Data Book',
    note: 'first from memory',
  },
  stiffness: {
    kind: 'published',
    title: 'I = b·t³/12; Young & Budynas, Roark’s Formulas for Stress and Strain, 7th ed. (2002)',
    note: 'from memory',
  },
  beat: {
    kind: 'published',
    title:
      'First mode of a cantilever by Rayleigh’s quotient and Stodola’s iteration, Timoshenko, Vibration Problems in Engineering, 2nd ed. (1937); added mass of a strip, Lighthill, J. Fluid Mech. 9 (1960) 305',
    note: 'from memory',
  },
  strouhal: {
    kind: 'published',
    title: 'Strouhal’s law with St ≈ 0.2, R. D. Blevins, Flow-Induced Vibration, 2nd ed. (1990)',
    note: 'from memory',
  },
} as const satisfies Record<string, Source>;
