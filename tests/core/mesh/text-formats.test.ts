import { strToU8 } from 'fflate';
import { describe, expect, test } from 'vitest';
import { parsedObj } from '../../../src/core/mesh/obj.ts';
import { parsedStl } from '../../../src/core/mesh/stl.ts';
import { faultOf } from '../../support/read.ts';
import { binaryStl } from '../../support/solids.ts';

describe('an OBJ file, line by line', () => {
  const parse = (text: string) => parsedObj(strToU8(text), 'mm');

  test('points, polygons, and what is ignored', () => {
    const text = 'v 1 2 3 4\n# v 9 9 9\n\n  v 4 5 6 # end\r\nv 7 8 9\nvt 0\nfo 1/2/3 2//1 -1\nf -3 -2 -1';
    expect(parse(text)).toEqual({
      positions: Float64Array.of(1, 2, 3, 4, 5, 6, 7, 8, 9),
      triangles: Uint32Array.of(0, 1, 2, 0, 1, 2),
      unit: 'mm',
    });
  });

  test.each([
    ['v 1 \\\n2 3\nq', 3, 'q'],
    ['v 1 \\\r\n2 \\\r\n3\r\nq', 4, 'q'],
    ['\n\n\nq', 4, 'q'],
    ['v 1 2 3\nq 1', 2, 'q'],
    [`v 1 2 3\n${'q'.repeat(99)}`, 2, 'q'.repeat(40)],
    ['\\\n\\\nq', 1, 'q'],
  ])('%j: line %i', (text, line, word) => {
    expect(parse(text)).toEqual({
      kind: 'format',
      message: `line ${line}: "${word}" is no OBJ statement; export the file again`,
    });
  });

  test('long words are cut where they are told', () => {
    const long = 'y'.repeat(99);
    expect(faultOf(parse(`v ${long}`)).message).toBe(
      `line 1: "v ${'y'.repeat(60)}" is not a point; export the file again`,
    );
    expect(faultOf(parse(`v 1 2 3\nf 1 1 ${long}`)).message).toContain(`"${'y'.repeat(40)}" names`);
    expect(faultOf(parse('v')).message).toContain('"v " is not a point');
    expect(faultOf(parse('v 1 2 1e999')).kind).toBe('not finite');
  });

  test('a file that ends in the middle of a long line ends there', () => {
    expect(faultOf(parse('v 1 2 3\\')).message).toBe(
      'line 1: "v 1 2 3\\" is not a point; export the file again',
    );
  });

  test('corner numbers end at the last point so far, from either end', () => {
    const points = 'v 1 0 0\nv 0 1 0\nv 0 0 1\n';
    expect(parse(`${points}f 1 2 3`)).toMatchObject({ triangles: Uint32Array.of(0, 1, 2) });
    expect(parse(`${points}f -3 -2 -1`)).toMatchObject({ triangles: Uint32Array.of(0, 1, 2) });
    for (const face of ['1 2 4', '1 2 0', '1 2 -4', '1 2 2.5', '1 2 x']) {
      expect(faultOf(parse(`${points}f ${face}`)).kind).toBe('index');
    }
  });
});

describe('an STL file, byte by byte', () => {
  const one = { positions: Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0), triangles: Uint32Array.of(0, 1, 2) };
  const text = (facet: string) => parsedStl(strToU8(`solid x y\n${facet}\nendsolid x y\n`), 'mm');
  const facet = 'facet normal a b c\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet';

  test('binary and text give points once each, in order', () => {
    const expected = { ...one, unit: 'mm' };
    expect(parsedStl(binaryStl(one, 1), 'mm')).toEqual(expected);
    expect(text(facet)).toEqual(expected);
    expect(text(`${facet}\nendsolid a facet\nsolid b facet\n${facet}`)).toEqual({
      ...expected,
      triangles: Uint32Array.of(0, 1, 2, 0, 1, 2),
    });
    expect(text(facet.toUpperCase())).toEqual(expected);
  });

  test('a header without triangles is a binary file of none', () => {
    expect(parsedStl(new Uint8Array(84), 'mm')).toEqual({
      positions: new Float64Array(),
      triangles: new Uint32Array(),
      unit: 'mm',
    });
  });

  test.each(['facet', 'normal', 'outer', 'loop', 'vertex', 'endloop', 'endfacet'])(
    '"%s" has to be there',
    (word) => {
      const index = facet.split('\n').findIndex((line) => line.split(' ').includes(word));
      expect(text(facet.replace(new RegExp(`\\b${word}\\b`, 'u'), 'Other'))).toEqual({
        kind: 'format',
        message: `line ${index + 2}: "${word === 'facet' ? 'other' : 'Other'}" stands where "${word}" should; export the STL file again`,
      });
    },
  );

  test.each(['normal', 'outer', 'loop', 'vertex', 'endloop', 'endfacet'])(
    'cut short ahead of "%s"',
    (word) => {
      const cut = `solid x y\n${facet.slice(0, facet.search(new RegExp(`\\b${word}\\b`, 'u')))}`;
      expect(faultOf(parsedStl(strToU8(cut), 'mm')).message).toBe(
        `the STL file ends where "${word}" should stand; it is cut short, export it again`,
      );
    },
  );

  test.each(['vertex', 'vertex 1', 'vertex 1 2'])('cut short behind "%s"', (end) => {
    expect(faultOf(parsedStl(strToU8(`solid x\nfacet normal 0 0 0\nouter loop\n${end}`), 'mm')).message).toBe(
      'the STL file ends where "number" should stand; it is cut short, export it again',
    );
  });

  test('long words are cut where they are told', () => {
    const long = 'y'.repeat(99);
    expect(faultOf(text(long)).message).toContain(`"${'y'.repeat(40)}" stands`);
    expect(faultOf(text(facet.replace('vertex 0', `vertex ${long}`))).message).toBe(
      `line 4: "${'y'.repeat(60)}" is not a point; export the file again`,
    );
  });

  // Text is told by its first 512 bytes: white space from tab to carriage return, and what is printed.
  test.each([
    [8, false],
    [9, true],
    [13, true],
    [14, false],
    [31, false],
    [32, true],
    [255, true],
  ])('a byte of %i is text: %s', (byte, isText) => {
    const message = (at: number) =>
      faultOf(parsedStl(new Uint8Array(600).fill(32).fill(byte, at, at + 1), 'mm')).message;
    const begins = 'this is no STL file: it is text that does not begin with "solid"; export it again';
    expect(message(0) === begins).toBe(isText);
    expect(message(511) === begins).toBe(isText);
    expect(message(512)).toBe(begins);
  });

  test('fewer bytes than a header are told apart from a wrong size', () => {
    expect(faultOf(parsedStl(new Uint8Array(83), 'mm')).message).toBe(
      'this is no STL file: 83 bytes are fewer than its header has; export it again',
    );
    expect(faultOf(parsedStl(new Uint8Array(85), 'mm')).message).toBe(
      'the STL file states 0 triangles, which take 84 bytes, but has 85: it has bytes that do not belong to it; export it again',
    );
  });
});
