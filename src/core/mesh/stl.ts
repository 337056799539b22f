import { meshFault } from './result.ts';
import type { FileMesh, MeshUnit } from './result.ts';
import { MESH_LIMITS, triangleLimitFault } from './limits.ts';
import type { MeshFault } from './mesh.ts';
import { latin1Text, numberOf, textScanner } from './text.ts';
import type { TextScanner } from './text.ts';
import { pointIndex } from './weld.ts';

const HEADER = 84;
const RECORD = 50;

/**
 * Points and triangles of an STL file, binary or ASCII, equal points joined.
 *
 * A file is binary when its size is 84 + 50·n bytes with n as it states, whatever its header says. Normals are ignored:
 * the winding decides.
 *
 * @param bytes - the whole file, not empty
 * @param unit - unit of its numbers, which the format does not carry
 * @returns points [file's unit], or one fault
 *
 * Cost: one look-up for each corner.
 * Source: M. Burns, Automated Fabrication (1993), 6.5 (from memory).
 */
export function parsedStl(bytes: Uint8Array, unit: MeshUnit): FileMesh | MeshFault {
  if (bytes.length >= HEADER) {
    const count = viewOf(bytes).getUint32(80, true);
    if (HEADER + RECORD * count === bytes.length) return binaryStlMesh(bytes, count, unit);
  }
  return looksLikeText(bytes) ? asciiStlMesh(bytes, unit) : binarySizeFault(bytes);
}

function binaryStlMesh(bytes: Uint8Array, count: number, unit: MeshUnit): FileMesh | MeshFault {
  if (count > MESH_LIMITS.triangles) return triangleLimitFault(count);
  const view = viewOf(bytes);
  const index = pointIndex(count / 2, true);
  const triangles = new Uint32Array(3 * count);
  for (let triangle = 0; triangle < count; triangle++) {
    let offset = HEADER + RECORD * triangle + 12;
    for (let corner = 3 * triangle; corner < 3 * triangle + 3; corner++) {
      const x = view.getFloat32(offset, true);
      const y = view.getFloat32(offset + 4, true);
      triangles[corner] = index.numberOf(x, y, view.getFloat32(offset + 8, true));
      offset += 12;
    }
  }
  return { positions: index.points(), triangles, unit };
}

function asciiStlMesh(bytes: Uint8Array, unit: MeshUnit): FileMesh | MeshFault {
  const scanner = textScanner(latin1Text(bytes));
  const index = pointIndex(bytes.length / 600);
  const triangles: number[] = [];
  if (scanner.next().toLowerCase() !== 'solid') {
    return meshFault(
      'format',
      'this is no STL file: it is text that does not begin with "solid"; export it again',
    );
  }
  scanner.skipLine();
  for (let word = scanner.next().toLowerCase(); word !== ''; word = scanner.next().toLowerCase()) {
    if (word === 'endsolid' || word === 'solid') {
      scanner.skipLine();
    } else if (word === 'facet') {
      if (triangles.length >= 3 * MESH_LIMITS.triangles) return triangleLimitFault(MESH_LIMITS.triangles + 1);
      const fault = readFacet(scanner, (x, y, z) => triangles.push(index.numberOf(x, y, z)));
      if (fault) return fault;
    } else {
      return wordFault(scanner, word, 'facet');
    }
  }
  return { positions: index.points(), triangles: Uint32Array.from(triangles), unit };
}

type Corner = (x: number, y: number, z: number) => void;

/** Reads on from behind "facet". */
function readFacet(scanner: TextScanner, corner: Corner): MeshFault | undefined {
  const found = expected(scanner, 'normal');
  if (found) return found;
  for (let axis = 0; axis < 3; axis++) scanner.next();
  const opened = expected(scanner, 'outer') ?? expected(scanner, 'loop');
  if (opened) return opened;
  for (let point = 0; point < 3; point++) {
    const fault = expected(scanner, 'vertex') ?? readVertex(scanner, corner);
    if (fault) return fault;
  }
  return expected(scanner, 'endloop') ?? expected(scanner, 'endfacet');
}

function readVertex(scanner: TextScanner, corner: Corner): MeshFault | undefined {
  const words = [scanner.next(), scanner.next(), scanner.next()] as const;
  const [x, y, z] = [numberOf(words[0]), numberOf(words[1]), numberOf(words[2])];
  if (Number.isFinite(x + y + z)) {
    corner(x, y, z);
    return undefined;
  }
  if (words.includes('')) return wordFault(scanner, '', 'number');
  const message = `line ${scanner.line()}: "${words.join(' ').slice(0, 60)}" is not a point; export the file again`;
  return meshFault('not finite', message);
}

function expected(scanner: TextScanner, wanted: string): MeshFault | undefined {
  const word = scanner.next();
  return word.toLowerCase() === wanted ? undefined : wordFault(scanner, word, wanted);
}

function wordFault(scanner: TextScanner, word: string, wanted: string): MeshFault {
  if (word === '')
    return meshFault(
      'format',
      `the STL file ends where "${wanted}" should stand; it is cut short, export it again`,
    );
  const message = `line ${scanner.line()}: "${word.slice(0, 40)}" stands where "${wanted}" should; export the STL file again`;
  return meshFault('format', message);
}

function binarySizeFault(bytes: Uint8Array): MeshFault {
  if (bytes.length < HEADER) {
    return meshFault(
      'format',
      `this is no STL file: ${bytes.length} bytes are fewer than its header has; export it again`,
    );
  }
  const count = viewOf(bytes).getUint32(80, true);
  const wanted = HEADER + RECORD * count;
  const what = wanted > bytes.length ? 'it is cut short' : 'it has bytes that do not belong to it';
  return meshFault(
    'format',
    `the STL file states ${count} triangles, which take ${wanted} bytes, but has ${bytes.length}: ${what}; export it again`,
  );
}

/** Text has no control characters but white space in its first bytes. */
function looksLikeText(bytes: Uint8Array): boolean {
  const start = bytes.subarray(0, 512);
  return start.every((byte) => byte >= 32 || (byte >= 9 && byte <= 13));
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}
