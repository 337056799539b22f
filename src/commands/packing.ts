import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';
import type { Sent } from './static-file.ts';

/** Text is packed; pictures and fonts are packed already. */
const TEXT = /^text\/|json|xml|svg/u;

/** Quick enough to pack while the reader waits: a few milliseconds a page. */
const QUALITY = { params: { [constants.BROTLI_PARAM_QUALITY]: 5 } };

const PACKERS = [
  { name: 'br', pack: (bytes: Buffer) => promisify(brotliCompress)(bytes, QUALITY) },
  { name: 'gzip', pack: (bytes: Buffer) => promisify(gzip)(bytes) },
] as const;

/** Names of the codings in an Accept-Encoding header, without those that it refuses with `q=0`. */
const codings = (accepted: string) =>
  accepted
    .split(',')
    .map((one) => one.trim())
    .filter((one) => !/;\s*q=0(?:\.0*)?$/u.test(one))
    .map((one) => one.replace(/;.*$/u, '').trim());

/** A file as the reader's browser takes it: packed, where it says that it can unpack. */
export async function packed(
  { type, bytes }: Sent,
  accepted: string,
): Promise<{ readonly bytes: Buffer; readonly headers: Readonly<Record<string, string>> }> {
  if (!TEXT.test(type)) return { bytes, headers: {} };
  const known = codings(accepted);
  const packer = PACKERS.find(({ name }) => known.includes(name));
  if (!packer) return { bytes, headers: { vary: 'accept-encoding' } };
  return {
    bytes: await packer.pack(bytes),
    headers: { vary: 'accept-encoding', 'content-encoding': packer.name },
  };
}
