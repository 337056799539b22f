/** Shares of red, green and blue light, linear. */
export type Rgb = readonly [number, number, number];

/** Soft plastic: a glossy skin over a body that lets some light through. */
export interface Plastic {
  readonly kind: 'plastic';
  /** Share of light that comes back from the body. */
  readonly body: Rgb;
  /** Colour of light that went through. */
  readonly glow: Rgb;
  /** Share of the light that enters and goes through, 0 opaque … 1 clear. */
  readonly clear: number;
  /** Path over which the light that goes through falls to a quarter [mm]. */
  readonly reach: number;
  /** Flakes in the body: their colour, and the share of cells of `FLAKE_CELL` that hold one. */
  readonly flakes?: { readonly colour: Rgb; readonly share: number };
  /** Colour added where the surface turns away from the eye. */
  readonly sheen?: Rgb;
}

/** Machined metal; its outer faces are brushed along x. */
export interface Metal {
  readonly kind: 'metal';
  readonly reflectance: Rgb;
}

/** What a part is made of. */
export type Material = Plastic | Metal;

/** Aluminium, from memory: 91 % of white light comes back, a little more of the blue. */
export const ALUMINIUM: Metal = { kind: 'metal', reflectance: [0.9, 0.91, 0.92] };
