import { Inflate } from 'fflate';
import { MEGABYTE, MESH_LIMITS } from './limits.ts';
import type { MeshFault } from './mesh.ts';
import { meshFault } from './result.ts';

/** One file in a zip archive, as its central directory states it. */
export interface ZipEntry {
  readonly name: string;
  readonly method: number;
  readonly crc: number;
  readonly packed: number;
  readonly unpacked: number;
  /** Where its local header starts [byte]. */
  readonly offset: number;
}

const END_RECORD = 0x06054b50;
const DIRECTORY_RECORD = 0x02014b50;
const LOCAL_RECORD = 0x04034b50;

/**
 * The files of a zip archive by name in lower case without a leading slash, within `MESH_LIMITS`.
 *
 * @param bytes - the whole archive
 * @returns entries with their sizes [bytes], or why the archive is refused: damaged, encrypted, over 4 GB, too many or too large entries, doubled names
 *
 * Cost: linear in the directory; nothing is unpacked.
 * Source: PKWARE, APPNOTE.TXT .ZIP File Format Specification 6.3, 4.3 and 4.4 (from memory).
 */
export function zipEntries(bytes: Uint8Array): Map<string, ZipEntry> | MeshFault {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = endRecord(view);
  if (end < 0) return damaged('it is no zip archive, or cut short');
  const count = view.getUint16(end + 10, true);
  if (count > MESH_LIMITS.zipEntries) {
    return meshFault(
      'limit',
      `the 3MF package holds ${count} files, the limit is ${MESH_LIMITS.zipEntries}; export it again`,
    );
  }
  const entries = new Map<string, ZipEntry>();
  let at = view.getUint32(end + 16, true);
  let total = 0;
  for (let i = 0; i < count; i++) {
    if (at + 46 > view.byteLength || view.getUint32(at, true) !== DIRECTORY_RECORD)
      return damaged('its directory is broken');
    const next =
      at + 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    if (next > view.byteLength) return damaged('its directory is broken');
    if (view.getUint16(at + 8, true) & 1)
      return meshFault('format', 'the 3MF package is encrypted; export it without a password');
    const entry = entryAt(bytes, view, at);
    const oversize = oversizeEntry(entry, (total += entry.unpacked));
    if (oversize) return oversize;
    const key = entry.name.toLowerCase().replace(/^\/+/u, '');
    if (entries.has(key)) return damaged(`it holds "${printable(entry.name)}" twice`);
    entries.set(key, entry);
    at = next;
  }
  return entries;
}

/**
 * The content of one file in a zip archive, checked against its stated size and CRC while it is unpacked.
 *
 * @param bytes - the whole archive
 * @param entry - from {@link zipEntries}
 * @returns the unpacked content [bytes], or why it is refused
 *
 * Cost: linear in the packed and unpacked bytes; stops at the stated size.
 * Source: RFC 1951 (1996) through fflate; PKWARE APPNOTE.TXT 6.3, 4.4.
 */
export function zipContent(bytes: Uint8Array, entry: ZipEntry): Uint8Array | MeshFault {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { offset, packed } = entry;
  if (offset + 30 > bytes.length || view.getUint32(offset, true) !== LOCAL_RECORD)
    return damaged('an entry is missing');
  const start = offset + 30 + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true);
  if (start + packed > bytes.length) return damaged('an entry is cut short');
  const data = bytes.subarray(start, start + packed);
  if (entry.method !== 0 && entry.method !== 8) {
    return meshFault(
      'format',
      `the 3MF package packs by method ${entry.method}, which 3MF does not allow; export it again`,
    );
  }
  const content = entry.method === 0 ? data : inflated(data, entry.unpacked);
  if (!content || content.length !== entry.unpacked)
    return damaged(`the size of "${printable(entry.name)}" is not as stated`);
  if (crc32(content) !== entry.crc)
    return damaged(`the checksum of "${printable(entry.name)}" does not agree`);
  return content;
}

/** Unpacks up to a stated size; nothing when the data are broken or hold more. */
function inflated(data: Uint8Array, size: number): Uint8Array | undefined {
  const content = new Uint8Array(size);
  let filled = 0;
  let over = false;
  const stream = new Inflate((chunk) => {
    if (filled + chunk.length > size) over = true;
    else content.set(chunk, filled);
    filled += chunk.length;
  });
  try {
    // Small bites: deflate grows by 1032 at most, so that a lying header costs 17 MB before it is found out.
    for (let at = 0; at < data.length && !over; at += 16384) {
      stream.push(data.subarray(at, at + 16384), at + 16384 >= data.length);
    }
  } catch {
    return undefined;
  }
  return over ? undefined : content.subarray(0, filled);
}

/** Start of the end record, searched from the end over the longest comment. */
function endRecord(view: DataView): number {
  for (let at = view.byteLength - 22; at >= Math.max(0, view.byteLength - 22 - 65535); at--) {
    if (view.getUint32(at, true) === END_RECORD) return at;
  }
  return -1;
}

function entryAt(bytes: Uint8Array, view: DataView, at: number): ZipEntry {
  const length = view.getUint16(at + 28, true);
  return {
    name: new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + length)),
    method: view.getUint16(at + 10, true),
    crc: view.getUint32(at + 16, true),
    packed: view.getUint32(at + 20, true),
    unpacked: view.getUint32(at + 24, true),
    offset: view.getUint32(at + 42, true),
  };
}

function oversizeEntry({ name, packed, unpacked }: ZipEntry, total: number): MeshFault | undefined {
  if (total > MESH_LIMITS.zipBytes) {
    return meshFault(
      'limit',
      `the 3MF package unpacks to more than ${MESH_LIMITS.zipBytes / MEGABYTE} MB; export a coarser mesh`,
    );
  }
  if (unpacked > MESH_LIMITS.zipRatio * Math.max(packed, 1)) {
    const message = `"${printable(name)}" in the 3MF package unpacks to over ${MESH_LIMITS.zipRatio} times its size; export it again`;
    return meshFault('limit', message);
  }
  return undefined;
}

function damaged(what: string): MeshFault {
  return meshFault('format', `the 3MF package is damaged: ${what}; export it again`);
}

function printable(name: string): string {
  return name.replace(/[^\x20-\x7e]/gu, '?').slice(0, 60);
}

const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

/**
 * CRC-32 of bytes, as zip archives use it.
 *
 * @param bytes - any bytes
 * @returns checksum, 0 to 2³²-1 [-]
 *
 * Cost: one table look-up a byte.
 * Source: ISO/IEC 8802-3; PKWARE APPNOTE.TXT 6.3, 4.4.7.
 */
export function crc32(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) value = CRC_TABLE[(value ^ bytes[i]!) & 255]! ^ (value >>> 8);
  return (value ^ 0xffffffff) >>> 0;
}
