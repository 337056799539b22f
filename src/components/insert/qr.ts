import { create } from 'qrcode';

/** Modules of empty paper that a reader needs around a code. Source: ISO/IEC 18004, quiet zone, from memory. */
const QUIET = 4;

/** A code as path data, one unit a module, with the side of the whole field. */
export interface QrCode {
  readonly path: string;
  readonly side: number;
}

/** An address as a QR code of error correction level Q, which a quarter of smear or oil does not hurt. */
export function qrCode(address: string): QrCode {
  const { size, data } = create(address, { errorCorrectionLevel: 'Q' }).modules;
  const runs = Array.from({ length: size }, (_, row) => {
    let path = '';
    for (let start = 0; start < size; start++) {
      let end = start;
      while (end < size && data[row * size + end]) end++;
      if (end > start) path += `M${start + QUIET} ${row + QUIET}h${end - start}v1h${start - end}z`;
      start = end;
    }
    return path;
  });
  return { path: runs.join(''), side: size + 2 * QUIET };
}
