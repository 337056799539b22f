import { deflateSync, strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { meshFault } from '../../../src/core/mesh/result.ts';
import { readXml } from '../../../src/core/mesh/xml.ts';
import { zipContent, zipEntries, type ZipEntry } from '../../../src/core/mesh/zip.ts';

/** Bytes that do not pack. */
function noise(length: number): Uint8Array {
  let state = 1;
  return Uint8Array.from({ length }, () => (state = (Math.imul(state, 1664525) + 1013904223) | 0) >>> 24);
}

/** A zip archive written by hand, field by field after APPNOTE.TXT 4.3: one local header, one directory entry, the end. */
function archive(
  name: string,
  data: Uint8Array,
  fields: { method?: number; crc?: number; unpacked?: number; extra?: number; comment?: number } = {},
): Uint8Array {
  const label = strToU8(name);
  const { method = 0, crc = 0, unpacked = data.length, extra = 0, comment = 0 } = fields;
  const local = new DataView(new ArrayBuffer(30));
  local.setUint32(0, 0x04034b50, true);
  local.setUint16(26, label.length, true);
  local.setUint16(28, extra, true);
  const entry = new DataView(new ArrayBuffer(46));
  entry.setUint32(0, 0x02014b50, true);
  entry.setUint16(10, method, true);
  entry.setUint32(16, crc, true);
  entry.setUint32(20, data.length, true);
  entry.setUint32(24, unpacked, true);
  entry.setUint16(28, label.length, true);
  entry.setUint16(30, extra, true);
  entry.setUint16(32, comment, true);
  entry.setUint32(42, 7, true);
  const end = new DataView(new ArrayBuffer(22));
  end.setUint32(0, 0x06054b50, true);
  end.setUint16(10, 1, true);
  // Seven bytes of something else lie ahead of the archive.
  end.setUint32(16, 7 + 30 + label.length + extra + data.length, true);
  end.setUint16(20, comment, true);
  const bytes = [
    new Uint8Array(7),
    local,
    label,
    new Uint8Array(extra),
    data,
    entry,
    label,
    new Uint8Array(extra + comment),
    end,
    new Uint8Array(comment),
  ].flatMap((part) => [...(part instanceof DataView ? new Uint8Array(part.buffer) : part)]);
  return Uint8Array.from(bytes);
}

const entriesOf = (bytes: Uint8Array): [string, ZipEntry][] => {
  const entries = zipEntries(bytes);
  if (!(entries instanceof Map)) throw new Error(entries.message);
  return [...entries];
};
const damaged = (what: string) => ({
  kind: 'format',
  message: `the 3MF package is damaged: ${what}; export it again`,
});

// CRC-32 of "hello": 3610a686, as zip tools print it (from memory).
const HELLO = { method: 0, crc: 0x3610a686 };

describe('a zip archive', () => {
  test.each([
    ['plain', {}],
    ['with extra fields and comments', { extra: 5, comment: 9 }],
    ['with the longest comment', { comment: 65535 }],
  ])('%s: what its directory states, and what it holds', (_, more) => {
    const bytes = archive('/A/b.TXT', strToU8('hello'), { ...HELLO, ...more });
    const entry = { name: '/A/b.TXT', ...HELLO, packed: 5, unpacked: 5, offset: 7 };
    expect(entriesOf(bytes)).toEqual([['a/b.txt', entry]]);
    expect(zipContent(bytes, entry)).toEqual(strToU8('hello'));
    const within = new Uint8Array(bytes.length + 3);
    within.set(bytes, 3);
    expect(zipContent(within.subarray(3), entriesOf(within.subarray(3))[0]![1])).toEqual(strToU8('hello'));
  });

  test('a comment longer than there is has no end to be found before it', () => {
    const bytes = archive('a', strToU8('hello'), { ...HELLO, comment: 9 });
    expect(zipEntries(Uint8Array.from([...bytes, ...new Uint8Array(65535)]))).toEqual(
      damaged('it is no zip archive, or cut short'),
    );
    expect(zipEntries(new Uint8Array(10))).toEqual(damaged('it is no zip archive, or cut short'));
  });

  test('an end record alone is an archive of nothing', () => {
    expect(
      entriesOf(
        archive('', new Uint8Array())
          .slice(-22)
          .map((byte, i) => (i === 10 ? 0 : byte)),
      ),
    ).toEqual([]);
  });

  test('data that do not pack are unpacked over many bites', () => {
    const data = noise(50_000);
    const bytes = zipSync({ 'x.bin': data });
    const [[, entry]] = entriesOf(bytes) as [[string, ZipEntry]];
    expect(entry).toMatchObject({ method: 8, unpacked: 50_000 });
    expect(zipContent(bytes, entry)).toEqual(data);
  });

  test.each([
    [
      'a checksum that is not its own',
      archive('a', strToU8('hello'), { crc: 1 }),
      'the checksum of "a" does not agree',
    ],
    [
      'a size that is not its own',
      archive('a', strToU8('hello'), { ...HELLO, unpacked: 6 }),
      'the size of "a" is not as stated',
    ],
    [
      'data that are not packed',
      archive('a', strToU8('hello'), { method: 8 }),
      'the size of "a" is not as stated',
    ],
    [
      'data that unpack to more',
      archive('é\n', deflateSync(strToU8('hello')), { method: 8, unpacked: 4 }),
      'the size of "??" is not as stated',
    ],
  ])('%s is damage', (_, bytes, what) => {
    expect(zipContent(bytes, entriesOf(bytes)[0]![1])).toEqual(damaged(what));
  });

  test('only stored and deflated entries are read', () => {
    const bytes = archive('a', strToU8('hello'), { ...HELLO, method: 12 });
    expect(zipContent(bytes, entriesOf(bytes)[0]![1])).toEqual({
      kind: 'format',
      message: 'the 3MF package packs by method 12, which 3MF does not allow; export it again',
    });
  });

  test('entries lie within the archive', () => {
    const bytes = archive('a', strToU8('hello'), HELLO);
    const [[, entry]] = entriesOf(bytes) as [[string, ZipEntry]];
    const missing = damaged('an entry is missing');
    const short = damaged('an entry is cut short');
    const ending = bytes.subarray(0, 7 + 30 + 1 + 5);
    expect(zipContent(ending, entry)).toEqual(strToU8('hello'));
    expect(zipContent(ending.subarray(0, -1), entry)).toEqual(short);
    expect(zipContent(ending, { ...entry, packed: 6 })).toEqual(short);
    expect(zipContent(bytes.subarray(0, 36), entry)).toEqual(missing);
    expect(zipContent(bytes, { ...entry, offset: 8 })).toEqual(missing);
    const bare = archive('', new Uint8Array(), { crc: 0 });
    expect(zipContent(bare.subarray(0, 37), entriesOf(bare)[0]![1])).toEqual(new Uint8Array());
  });

  test('the directory is whole', () => {
    const bytes = archive('name', strToU8('hello'), HELLO);
    const directory = 7 + 30 + 4 + 5;
    const end = directory + 46 + 4;
    const put = (at: number, value: number) => {
      const changed = bytes.slice();
      new DataView(changed.buffer).setUint16(at, value, true);
      return zipEntries(changed);
    };
    const broken = damaged('its directory is broken');
    expect(put(directory, 0)).toEqual(broken);
    expect(put(end + 16, directory + 1)).toEqual(broken);
    expect(put(end + 16, bytes.length - 45)).toEqual(broken);
    // An entry may end where the archive ends, not behind it: 22 bytes follow it.
    expect(put(directory + 30, 22)).toBeInstanceOf(Map);
    expect(put(directory + 30, 23)).toEqual(broken);
    expect(put(directory + 32, 23)).toEqual(broken);
    expect(put(directory + 28, 4 + 23)).toEqual(broken);
    expect(put(directory + 8, 1)).toMatchObject({
      message: 'the 3MF package is encrypted; export it without a password',
    });
    expect(put(directory + 8, 0x0808)).toBeInstanceOf(Map);
  });

  test('an entry may state 200 times its packed size, an empty one 200 bytes', () => {
    const stated = (data: Uint8Array, unpacked: number) =>
      zipEntries(archive('a', data, { method: 8, unpacked }));
    expect(stated(new Uint8Array(5), 1000)).toBeInstanceOf(Map);
    expect(stated(new Uint8Array(5), 1001)).toEqual({
      kind: 'limit',
      message: '"a" in the 3MF package unpacks to over 200 times its size; export it again',
    });
    expect(stated(new Uint8Array(), 200)).toBeInstanceOf(Map);
    expect(stated(new Uint8Array(), 201)).toMatchObject({ kind: 'limit' });
  });
});

describe('XML', () => {
  const told = (text: string | Uint8Array, fail = '') => {
    const elements: [string, object][] = [];
    const fault = readXml(typeof text === 'string' ? strToU8(text) : text, 'x', {
      open(name, attributes) {
        elements.push([name, { ...attributes }]);
        return name === fail ? meshFault('index', `no ${fail}`) : undefined;
      },
    });
    return { elements, fault };
  };

  test('every element with its attributes, in order; then nothing', () => {
    expect(told('<a x="1" y="&lt;"><b/><c>text</c></a>')).toEqual({
      elements: [
        ['a', { x: '1', y: '<' }],
        ['b', {}],
        ['c', {}],
      ],
      fault: undefined,
    });
  });

  test('what the reader of elements refuses ends the reading', () => {
    const { elements, fault } = told('<a><b/><b/></a>', 'b');
    expect(fault).toEqual({ kind: 'index', message: 'no b' });
    expect(elements.map(([name]) => name)).toEqual(['a', 'b']);
  });

  test('the first fault is the one that is told', () => {
    expect(told('<a>\n&x;<b/></a>', 'b').fault).toEqual({
      kind: 'format',
      message: 'x, line 2: undefined entity; export the file again',
    });
    expect(told('<a><b/>&x;</a>', 'b').fault?.kind).toBe('index');
    expect(told('<!DOCTYPE a><a>').fault?.message).toBe(
      'x has a document type (DOCTYPE), which 3MF does not allow; export the file again',
    );
    expect(told('<a>').fault?.message).toBe('x, line 1: unclosed tag: a; export the file again');
  });

  test('a document of many times 65 536 letters is read to its end', () => {
    const { elements, fault } = told(`<a>${'<b c="d"/>'.repeat(20_000)}</a>`);
    expect([elements.length, fault]).toEqual([20_001, undefined]);
  });

  test.each([
    ['little', [0xff, 0xfe], (unit: number) => [unit & 255, unit >> 8]],
    ['big', [0xfe, 0xff], (unit: number) => [unit >> 8, unit & 255]],
  ])('UTF-16 with its mark, %s end first; half a letter is refused', (end, mark, split) => {
    const bytes = Uint8Array.from([...mark, ...[...'<ä/>'].flatMap((letter) => split(letter.charCodeAt(0)))]);
    expect(told(bytes)).toEqual({ elements: [['ä', {}]], fault: undefined });
    expect(told(bytes.subarray(0, -1)).fault?.message).toBe(
      `x is not text in UTF-16${end === 'big' ? 'BE' : 'LE'}; export the file again`,
    );
  });

  test('half a mark is none', () => {
    for (const bytes of [
      [0xff, 60],
      [60, 0xfe],
      [0xfe, 60],
      [60, 0xff],
    ]) {
      expect(told(Uint8Array.from(bytes)).fault?.message).toContain('is not text in UTF-8');
    }
  });
});
