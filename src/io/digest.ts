import { createHash } from 'node:crypto';

/** SHA-256 of texts and bytes, each set off from the next. */
export function sha256(...parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part).update('\0');
  return hash.digest('hex');
}

/** Bytes of a typed array, whatever its numbers are. */
export function bytesOf({ buffer, byteOffset, byteLength }: ArrayBufferView): Uint8Array {
  return new Uint8Array(buffer, byteOffset, byteLength);
}

/** From this size on the digest of an array is kept for as long as the array, which must not be changed any more [bytes]. */
const LARGE = 32_768;

const known = new WeakMap<ArrayBufferView, string>();

function digestOfArray(array: ArrayBufferView): string {
  if (array.byteLength < LARGE) return sha256(bytesOf(array));
  const digest = known.get(array) ?? sha256(bytesOf(array));
  known.set(array, digest);
  return digest;
}

/**
 * What JSON has no word for: typed arrays by their bytes, numbers that are not finite by their name. Keys in one order.
 */
function inWords(_key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) return ['number', String(value)];
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  if (ArrayBuffer.isView(value)) return [value.constructor.name, digestOfArray(value)];
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** SHA-256 of plain data: the same for equal data, whichever way it came. */
export function digestOf(data: unknown): string {
  return sha256(JSON.stringify(data, inWords) ?? 'undefined');
}
