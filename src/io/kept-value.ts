import { deserialize, serialize } from 'node:v8';
import { zstdCompressSync, zstdDecompressSync } from 'node:zlib';
import { sha256 } from './digest.ts';

/** Objects with a typed array from this size on are stored by themselves, once for all that hold them [bytes]. */
const LARGE = 32_768;

type Plain = Record<string, unknown> | unknown[];

function isPlain(value: unknown): value is Plain {
  if (typeof value !== 'object' || value === null) return false;
  if (Array.isArray(value)) return true;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

function isHeavy(value: Plain): boolean {
  return Object.values(value).some((part) => ArrayBuffer.isView(part) && part.byteLength >= LARGE);
}

const pressed = (value: unknown): Uint8Array => zstdCompressSync(serialize(value));
const unpressed = (bytes: Uint8Array): unknown => deserialize(zstdDecompressSync(bytes));

/** A value as bytes, and the heavy objects in it by the digest of their bytes, which are asked for where they are not stored yet. */
export interface Packed {
  readonly bytes: Uint8Array;
  readonly apart: ReadonlyMap<string, () => Uint8Array>;
}

/** Digests of heavy objects that were packed or read before: what is stored is never changed. */
const digests = new WeakMap<Plain, string>();

/** Digest of a heavy object, and its bytes. */
function heavyPart(part: Plain): readonly [digest: string, bytes: () => Uint8Array] {
  const known = digests.get(part);
  if (known !== undefined) return [known, () => pressed(part)];
  const bytes = pressed(part);
  const digest = sha256(bytes);
  digests.set(part, digest);
  return [digest, () => bytes];
}

/** Lists of numbers and texts hold nothing that is stored by itself. */
const isBare = (part: Plain): boolean =>
  Array.isArray(part) && part.every((item) => typeof item !== 'object' || item === null);

/** A digest at the head of what is stored, and their number before them [bytes]. */
const [DIGEST, COUNT] = [32, 4];

/** The head of what is stored: the heavy objects that it needs, to be learnt without reading the rest. */
function headOf(digests: Iterable<string>): Buffer {
  const all = [...digests];
  const count = Buffer.alloc(COUNT);
  count.writeUInt32LE(all.length);
  return Buffer.concat([count, Buffer.from(all.join(''), 'hex')]);
}

/**
 * Digests of the heavy objects that a stored value needs.
 *
 * @param read - gives up to so many bytes of what is stored, from one on
 * @throws {RangeError} when there is no such head
 */
export function needs(read: (start: number, length: number) => Buffer): string[] {
  const length = DIGEST * read(0, COUNT).readUInt32LE();
  const digests = read(COUNT, length);
  if (digests.length < length) throw new RangeError('needs: wants a stored value, got less');
  return Array.from({ length: length / DIGEST }, (_, i) =>
    digests.toString('hex', DIGEST * i, DIGEST * (i + 1)),
  );
}

/** Where a heavy object was: the keys that lead to it, and its digest. */
interface Mark {
  readonly path: readonly string[];
  readonly digest: string;
}

/** What is stored: the value without its heavy objects, and where they go. */
interface Stored {
  readonly value: unknown;
  readonly marks: readonly Mark[];
}

/**
 * Packs plain data. What two values share by content, such as the mesh of a bait, is stored once.
 *
 * @throws {Error} when the data holds a function
 */
export function packed(value: unknown): Packed {
  const apart = new Map<string, () => Uint8Array>();
  const copies = new Map<Plain, unknown>();
  const marks: Mark[] = [];
  const path: string[] = [];
  const copy = (part: unknown): unknown => {
    if (!isPlain(part) || isBare(part)) return part;
    const known = copies.get(part);
    if (known !== undefined) return known;
    const own: Plain = Array.isArray(part) ? [] : {};
    copies.set(part, own);
    for (const [key, inner] of Object.entries(part)) {
      path.push(key);
      put(own, key, inside(inner));
      path.pop();
    }
    return own;
  };
  const inside = (inner: unknown): unknown => {
    if (!isPlain(inner) || !isHeavy(inner)) return copy(inner);
    const [digest, bytes] = heavyPart(inner);
    apart.set(digest, bytes);
    marks.push({ path: [...path], digest });
    return null;
  };
  const stored: Stored = { value: copy(value), marks };
  return { bytes: Buffer.concat([headOf(apart.keys()), pressed(stored)]), apart };
}

/** Sets a property, whatever it is called. */
function put(own: Plain, key: string, value: unknown): void {
  if (key === '__proto__') Object.defineProperty(own, key, { value, ...OPEN });
  else (own as Record<string, unknown>)[key] = value;
}

/** How a property is that was simply set. */
const OPEN = { enumerable: true, writable: true, configurable: true } as const;

/** Reads what was stored by itself, by its digest. */
export type ReadApart = (digest: string) => Uint8Array;

const held = new Map<string, WeakRef<object>>();

/** A heavy object: read when it is asked for, let go of when memory is short. */
function heavy(digest: string, read: ReadApart): object {
  const known = held.get(digest)?.deref();
  if (known) return known;
  const value = unpressed(read(digest)) as object;
  held.set(digest, new WeakRef(value));
  digests.set(value as Plain, digest);
  return value;
}

/**
 * Unpacks a value. Its heavy objects are read only when someone asks for them.
 *
 * @param bytes - from `packed`
 * @param read - gives the bytes of a heavy object
 * @returns the value, and the digests of its heavy objects
 * @throws {Error} when the bytes are no such value
 */
export function unpacked(bytes: Uint8Array, read: ReadApart): { value: unknown; apart: readonly string[] } {
  const head = needs((start, length) => Buffer.from(bytes.subarray(start, start + length)));
  const { value, marks } = unpressed(bytes.subarray(COUNT + DIGEST * head.length)) as Stored;
  for (const { path, digest } of marks) {
    const parent = path
      .slice(0, -1)
      .reduce((part, key) => part[key] as Record<string, unknown>, value as Record<string, unknown>);
    const get = () => heavy(digest, read);
    Object.defineProperty(parent, path.at(-1) ?? '', { get, enumerable: true, configurable: true });
  }
  return { value, apart: head };
}
