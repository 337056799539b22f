import { MESH_LIMITS, triangleLimitFault } from './limits.ts';
import type { MeshFault } from './mesh.ts';
import { polygonFan } from './polygon.ts';
import { meshFault } from './result.ts';
import type { FileMesh, MeshUnit } from './result.ts';
import { latin1Text, numberOf } from './text.ts';

/** Statements that say nothing about the surface. */
const IGNORED = new Set(
  'vt vn vp g o s mg p l usemtl mtllib usemap maplib bevel c_interp d_interp lod shadow_obj trace_obj'.split(
    ' ',
  ),
);
/** Statements of free-form curves and surfaces. */
const FREE_FORM = new Set(
  'cstype deg bmat step curv curv2 surf parm trim hole scrv sp end con ctech stech bzp bsp cdc cdp res'.split(
    ' ',
  ),
);

interface ObjState {
  readonly positions: number[];
  readonly triangles: number[];
}

/**
 * Points and triangles of a Wavefront OBJ file. Flat polygons are cut into fans, negative numbers count from the last
 * point, normals, textures, groups and materials are ignored, free-form surfaces refused.
 *
 * @param bytes - the whole file
 * @param unit - unit of its numbers, which the format does not carry
 * @returns points [file's unit], or one fault with its line
 *
 * Cost: linear in the file.
 * Source: Wavefront Technologies, Advanced Visualizer Manual, Appendix B1 "Object Files" (from memory).
 */
export function parsedObj(bytes: Uint8Array, unit: MeshUnit): FileMesh | MeshFault {
  const state: ObjState = { positions: [], triangles: [] };
  const text = latin1Text(bytes);
  let line = 0;
  for (let start = 0; start < text.length;) {
    line++;
    let end = lineEnd(text, start);
    while (text[text[end - 1] === '\r' ? end - 2 : end - 1] === '\\' && end < text.length)
      end = lineEnd(text, end + 1);
    const statement = text.slice(start, end);
    const problem = readStatement(state, statement);
    if (typeof problem === 'string') return meshFault('format', `line ${line}: ${problem}`);
    if (problem) return { ...problem, message: `line ${line}: ${problem.message}` };
    if (state.triangles.length > 3 * MESH_LIMITS.triangles)
      return triangleLimitFault(state.triangles.length / 3);
    line += statement.split('\n').length - 1;
    start = end + 1;
  }
  return {
    positions: Float64Array.from(state.positions),
    triangles: Uint32Array.from(state.triangles),
    unit,
  };
}

function lineEnd(text: string, from: number): number {
  const end = text.indexOf('\n', from);
  return end < 0 ? text.length : end;
}

/** What is wrong with a statement, if anything. */
function readStatement(state: ObjState, statement: string): string | MeshFault | undefined {
  const code = statement
    .split('#', 1)[0]!
    .replace(/\\\r?\n/gu, ' ')
    .trim();
  if (code === '') return undefined;
  const [keyword = '', ...words] = code.split(/\s+/u);
  if (keyword === 'v') return readPoint(state, words);
  if (keyword === 'f' || keyword === 'fo') return readPolygon(state, words);
  if (IGNORED.has(keyword)) return undefined;
  if (FREE_FORM.has(keyword)) {
    return `"${keyword}" belongs to a free-form surface; export the solid as triangles`;
  }
  return `"${keyword.slice(0, 40)}" is no OBJ statement; export the file again`;
}

function readPoint({ positions }: ObjState, words: readonly string[]): MeshFault | undefined {
  const [x, y, z] = [numberOf(words[0] ?? ''), numberOf(words[1] ?? ''), numberOf(words[2] ?? '')];
  if (!Number.isFinite(x + y + z)) {
    return meshFault(
      'not finite',
      `"v ${words.join(' ').slice(0, 60)}" is not a point; export the file again`,
    );
  }
  positions.push(x, y, z);
  return undefined;
}

function readPolygon(
  { positions, triangles }: ObjState,
  words: readonly string[],
): string | MeshFault | undefined {
  if (words.length < 3) return `a face has ${words.length} corners and needs 3; export the file again`;
  if (words.length > MESH_LIMITS.polygonCorners) {
    return meshFault(
      'limit',
      `a face has ${words.length} corners, the limit is ${MESH_LIMITS.polygonCorners}; export the solid as triangles`,
    );
  }
  const points = positions.length / 3;
  const corners: number[] = [];
  for (const word of words) {
    const stated = numberOf(word.split('/', 1)[0]!);
    const corner = stated < 0 ? points + stated : stated - 1;
    if (!Number.isInteger(corner) || corner < 0 || corner >= points) {
      return meshFault(
        'index',
        `face corner "${word.slice(0, 40)}" names no point before it; export the file again`,
      );
    }
    corners.push(corner);
  }
  const fan = polygonFan(corners, positions);
  if (typeof fan === 'string')
    return `a face of ${words.length} corners is ${fan}; export the solid as triangles`;
  for (const corner of fan) triangles.push(corner);
  return undefined;
}
