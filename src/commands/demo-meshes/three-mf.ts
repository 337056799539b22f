import { strToU8, zipSync } from 'fflate';
import type { Mesh } from '../../core/mesh/mesh.ts';

const CORE = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const DECLARATION = '<?xml version="1.0" encoding="UTF-8"?>\n';

const CONTENT_TYPES = `${DECLARATION}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>`;
const RELATIONS = `${DECLARATION}<Relationships xmlns="${PACKAGE}/relationships"><Relationship Target="/3D/3dmodel.model" Id="model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>`;

/** The model part: one object of one mesh in millimetres, to a hundredth of a micrometre. */
function modelPart({ positions, triangles }: Mesh): string {
  const written = [...positions].map((metres) => `${Number((metres * 1e3).toFixed(5))}`);
  const vertices: string[] = [];
  for (let row = 0; row < written.length; row += 3) {
    vertices.push(`<vertex x="${written[row]}" y="${written[row + 1]}" z="${written[row + 2]}"/>`);
  }
  const faces: string[] = [];
  for (let corner = 0; corner < triangles.length; corner += 3) {
    const [a, b, c] = triangles.subarray(corner, corner + 3);
    faces.push(`<triangle v1="${a}" v2="${b}" v3="${c}"/>`);
  }
  return `${DECLARATION}<model unit="millimeter" xmlns="${CORE}"><resources><object id="1" type="model"><mesh><vertices>${vertices.join('')}</vertices><triangles>${faces.join('')}</triangles></mesh></object></resources><build><item objectid="1"/></build></model>`;
}

/**
 * A 3MF package of one mesh [m], in millimetres; the same bytes every time.
 * Source: 3MF Core Specification 1.3 (2021).
 */
export function threeMf(mesh: Mesh): Uint8Array {
  return zipSync(
    {
      '[Content_Types].xml': strToU8(CONTENT_TYPES),
      '_rels/.rels': strToU8(RELATIONS),
      '3D/3dmodel.model': strToU8(modelPart(mesh)),
    },
    // The first moment that a zip can hold, told by the local clock as zips do.
    { level: 9, mtime: new Date(1980, 0, 1) },
  );
}
