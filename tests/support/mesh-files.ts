import { zipSync, strToU8 } from 'fflate';
import type { Mesh } from '../../src/core/mesh/mesh.ts';

// Mesh files as text and bytes, from meshes in metres; `perMetre` is how many file units a metre has.

const row = (mesh: Mesh, vertex: number, perMetre: number) =>
  [...mesh.positions.subarray(3 * vertex, 3 * vertex + 3)].map((value) => String(value * perMetre)).join(' ');

/** An ASCII STL file; normals are left at zero, as the format allows. */
export function asciiStl(mesh: Mesh, perMetre = 1000): Uint8Array {
  const lines = ['solid test'];
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    lines.push('facet normal 0 0 0', ' outer loop');
    for (let k = 0; k < 3; k++) lines.push(`  vertex ${row(mesh, mesh.triangles[t + k]!, perMetre)}`);
    lines.push(' endloop', 'endfacet');
  }
  return strToU8([...lines, 'endsolid test', ''].join('\n'));
}

/** An OBJ file. */
export function obj(mesh: Mesh, perMetre = 1000): Uint8Array {
  const points = Array.from(
    { length: mesh.positions.length / 3 },
    (_, vertex) => `v ${row(mesh, vertex, perMetre)}`,
  );
  const faces = [];
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    faces.push(`f ${[...mesh.triangles.subarray(t, t + 3)].map((vertex) => vertex + 1).join(' ')}`);
  }
  return strToU8([...points, ...faces, ''].join('\n'));
}

/** The XML of an object of a 3MF model. */
export function objectXml(id: number, mesh: Mesh, perMetre = 1000): string {
  const vertices = Array.from({ length: mesh.positions.length / 3 }, (_, vertex) => {
    const [x, y, z] = row(mesh, vertex, perMetre).split(' ');
    return `<vertex x="${x}" y="${y}" z="${z}"/>`;
  });
  const triangles = [];
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const [a, b, c] = mesh.triangles.subarray(t, t + 3);
    triangles.push(`<triangle v1="${a}" v2="${b}" v3="${c}"/>`);
  }
  return `<object id="${id}" type="model"><mesh><vertices>${vertices.join('')}</vertices><triangles>${triangles.join('')}</triangles></mesh></object>`;
}

const CORE = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';

/** The XML of a 3MF model. */
export function modelXml(
  objects: string,
  items = '<item objectid="1"/>',
  attributes = 'unit="millimeter"',
): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n<model ${attributes} xmlns="${CORE}"><resources>${objects}</resources><build>${items}</build></model>`;
}

/** The relation part that names the model. */
export const RELATIONS =
  '<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">' +
  '<Relationship Target="/3D/3dmodel.model" Id="r0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>';

/** A 3MF package from the XML of its model, and further parts by name. */
export function threeMf(model: string, parts: Record<string, Uint8Array> = {}): Uint8Array {
  return zipSync(
    { '_rels/.rels': strToU8(RELATIONS), '3D/3dmodel.model': strToU8(model), ...parts },
    { mtime: '2026-01-01T00:00:00Z' },
  );
}

/** The same package with a field of its first directory entry overwritten. */
export function tampered(
  bytes: Uint8Array,
  field: 'crc' | 'unpacked' | 'flags' | 'count',
  value: number,
  nth = 1,
): Uint8Array {
  const out = bytes.slice();
  const view = new DataView(out.buffer);
  const end = out.length - 22;
  let at = view.getUint32(end + 16, true);
  for (let i = 0; i < nth; i++) at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true);
  if (field === 'count') view.setUint16(end + 10, value, true);
  else if (field === 'flags') view.setUint16(at + 8, value, true);
  else view.setUint32(at + (field === 'crc' ? 16 : 24), value, true);
  return out;
}
