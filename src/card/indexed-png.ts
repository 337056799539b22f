import { crc32, deflateSync } from 'node:zlib';

/** A picture without transparency: red, green, blue and one unread byte a pixel. */
export interface Pixels {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
}

type Colour = readonly [red: number, green: number, blue: number];

/** Colours of a picture at four bits a pixel, and those met so far. */
export interface Palette {
  readonly colours: readonly Colour[];
  /** Colours from this index on are tints: they take only what is meant for them, never a smooth edge. */
  readonly tints: number;
  /** One more than the index of the nearest colour by red, green and blue; 0 where none was sought yet. */
  readonly met: Uint8Array;
}

/** Colours of a palette at four bits a pixel. */
const MOST = 16;
/** A tint takes what is no farther than this, squared. */
const MEANT = 12;

const colourOf = (hex: string): Colour =>
  [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as unknown as Colour;

/** Two colours that meet in smooth edges, and the number of steps between them. */
export interface SmoothEdge {
  readonly from: string;
  readonly to: string;
  readonly steps: number;
}

function stepsOf({ from, to, steps }: SmoothEdge): Colour[] {
  const [a, b] = [colourOf(from), colourOf(to)];
  return Array.from({ length: steps }, (_, step) => {
    const share = (step + 1) / (steps + 1);
    return a.map((value, channel) =>
      Math.round(value + share * ((b[channel] ?? value) - value)),
    ) as unknown as Colour;
  });
}

/**
 * Colours of a drawing with smooth edges.
 *
 * @param flat - the colours it is drawn in, `#rrggbb`
 * @param edges - which of them meet
 * @param tints - light colours of areas, which a smooth edge of another colour could be taken for
 * @throws {RangeError} when they are more than 16
 */
export function edgePalette(
  flat: readonly string[],
  edges: readonly SmoothEdge[],
  tints: readonly string[],
): Palette {
  const drawn = [...flat.map(colourOf), ...edges.flatMap(stepsOf)];
  const colours = [...drawn, ...tints.map(colourOf)];
  if (colours.length > MOST)
    throw new RangeError(`edgePalette: wants at most ${MOST} colours, got ${colours.length}`);
  return { colours, tints: drawn.length, met: new Uint8Array(1 << 24) };
}

function nearestOf({ colours, tints }: Palette, red: number, green: number, blue: number): number {
  let [best, least] = [0, Infinity];
  colours.forEach(([r, g, b], index) => {
    const away = (red - r) ** 2 + (green - g) ** 2 + (blue - b) ** 2;
    if (away < least && (index < tints || away <= MEANT)) [best, least] = [index, away];
  });
  return best;
}

/** Index of the colour of the pixel that begins at a byte, sought once for each colour. */
function indexOf(palette: Palette, data: Uint8Array, from: number): number {
  const [red, green, blue] = [data[from] ?? 0, data[from + 1] ?? 0, data[from + 2] ?? 0];
  const key = (red << 16) | (green << 8) | blue;
  const known = palette.met[key] ?? 0;
  if (known > 0) return known - 1;
  const found = nearestOf(palette, red, green, blue);
  palette.met[key] = found + 1;
  return found;
}

/** Rows of a PNG: the filter byte 0, then two pixels a byte. */
function packedRows({ data, width, height }: Pixels, palette: Palette): Uint8Array {
  const stride = 1 + ((width + 1) >> 1);
  const rows = new Uint8Array(stride * height);
  const whole = data.byteOffset % 4 === 0 ? data : Uint8Array.from(data);
  const words = new Uint32Array(whole.buffer, whole.byteOffset, width * height);
  // Most pixels are as the one before them, and most bytes as well.
  let [last, index] = [-1, 0];
  const indexAt = (pixel: number): number => {
    const word = words[pixel] as number;
    if (word !== last) {
      last = word;
      index = indexOf(palette, data, 4 * pixel);
    }
    return index;
  };
  for (let y = 0; y < height; y++) {
    let place = y * stride + 1;
    let pixel = y * width;
    for (const end = pixel + width - 1; pixel < end; pixel += 2) {
      const plain = words[pixel] === last && words[pixel + 1] === last;
      rows[place++] = plain ? 17 * index : (indexAt(pixel) << 4) | indexAt(pixel + 1);
    }
    if (width & 1) rows[place] = indexAt(pixel) << 4;
  }
  return rows;
}

function chunk(type: string, body: Uint8Array): Buffer {
  const named = Buffer.concat([Buffer.from(type, 'latin1'), body]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(body.length);
  check.writeUInt32BE(crc32(named));
  return Buffer.concat([length, named, check]);
}

/**
 * A PNG of four bits a pixel.
 *
 * @param pixels - the picture
 * @param palette - each pixel takes its nearest colour
 * @returns the same bytes for the same picture
 *
 * Source: W3C Portable Network Graphics (third edition), colour type 3.
 */
export function indexedPng(pixels: Pixels, palette: Palette): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(pixels.width, 0);
  header.writeUInt32BE(pixels.height, 4);
  header.set([4, 3, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('PLTE', Uint8Array.from(palette.colours.flat())),
    chunk('IDAT', deflateSync(packedRows(pixels, palette), { level: 4 })),
    chunk('IEND', new Uint8Array(0)),
  ]);
}
