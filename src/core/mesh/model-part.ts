import { MESH_LIMITS, triangleLimitFault } from './limits.ts';
import type { MeshFault } from './mesh.ts';
import { meshFault } from './result.ts';
import type { MeshUnit } from './result.ts';
import { numberOf } from './text.ts';
import { readXml } from './xml.ts';

/** Three rows of a matrix that acts on row vectors, then the offset: x' = x·m₀ + y·m₃ + z·m₆ + m₉ and so on. */
export type Transform = readonly number[];

/** An object put somewhere, from this or another part of the package. */
export interface Placement {
  readonly path: string | undefined;
  readonly id: string;
  readonly transform: Transform;
}

/** An object of a 3MF model: a mesh, or components. */
export interface ModelObject {
  readonly type: string;
  readonly positions: number[];
  readonly triangles: number[];
  readonly components: Placement[];
}

/** One model part of a 3MF package. */
export interface ModelPart {
  unit: MeshUnit;
  readonly objects: Map<string, ModelObject>;
  readonly build: Placement[];
}

const CORE = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';
const PRODUCTION = 'http://schemas.microsoft.com/3dmanufacturing/production/2015/06';
/** Extensions that do not change the shape, or that are understood. */
const HARMLESS = new Set([PRODUCTION, 'http://schemas.microsoft.com/3dmanufacturing/material/2015/02']);
const UNITS: Readonly<Record<string, MeshUnit>> = {
  micron: 'um',
  millimeter: 'mm',
  centimeter: 'cm',
  inch: 'in',
  foot: 'ft',
  meter: 'm',
};
const IDENTITY: Transform = [1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0];

type Attributes = Readonly<Record<string, string>>;

/**
 * Objects and build of one model part of a 3MF package.
 *
 * @param bytes - the part's XML
 * @param name - its name in messages
 * @returns unit, objects by id and placements [that unit], or one fault
 *
 * Cost: linear in the part.
 * Source: 3MF Consortium, 3D Manufacturing Format Core Specification 1.4, 3 and 4; Production Extension 1.1.2, 4.
 */
export function modelPart(bytes: Uint8Array, name: string): ModelPart | MeshFault {
  const reader = new PartReader(name);
  const fault = readXml(bytes, name, {
    open: (tag, attributes) => reader.open(tag, attributes),
  });
  if (fault) return fault;
  return reader.part ?? meshFault('format', `${name} holds no 3MF model; export the file again`);
}

class PartReader {
  part: ModelPart | undefined;
  readonly #name: string;
  #prefix = '';
  #production = '';
  #object: ModelObject | undefined;
  #triangles = 0;

  constructor(name: string) {
    this.#name = name;
  }

  open(tag: string, attributes: Attributes): MeshFault | undefined {
    if (!this.part) return this.#openModel(tag, attributes);
    if (!tag.startsWith(this.#prefix)) return undefined;
    const { part } = this;
    switch (tag.slice(this.#prefix.length)) {
      case 'object':
        return this.#openObject(part, attributes);
      case 'vertex':
        return this.#addVertex(attributes);
      case 'triangle':
        return this.#addTriangle(attributes);
      case 'component':
        return this.#place(this.#object?.components, attributes);
      case 'item':
        return this.#place(part.build, attributes);
      default:
        return undefined;
    }
  }

  #openModel(tag: string, attributes: Attributes): MeshFault | undefined {
    const prefixOf = (space: string) =>
      Object.keys(attributes)
        .find((key) => /^xmlns(:|$)/u.test(key) && attributes[key] === space)
        ?.slice(5);
    const core = prefixOf(CORE);
    if (core === undefined)
      return this.#fault(`it is no 3MF model: <${tag.slice(0, 40)}> is not of its namespace`);
    this.#prefix = core === '' ? '' : `${core.slice(1)}:`;
    this.#production = `${prefixOf(PRODUCTION)?.slice(1) ?? 'p'}:`;
    if (tag !== `${this.#prefix}model`)
      return this.#fault(`it begins with <${tag.slice(0, 40)}>, not with <model>`);
    const missing = (attributes['requiredextensions'] ?? '')
      .split(/\s+/u)
      .find((prefix) => prefix !== '' && !HARMLESS.has(attributes[`xmlns:${prefix}`] ?? ''));
    if (missing)
      return this.#fault(
        `it needs the extension "${missing.slice(0, 40)}", and only plain triangle meshes are read`,
      );
    const unit = UNITS[attributes['unit'] ?? 'millimeter'];
    if (!unit)
      return meshFault(
        'unit',
        `${this.#name}: "${attributes['unit']?.slice(0, 40)}" is no unit of 3MF; export it in millimeter`,
      );
    this.part = { unit, objects: new Map(), build: [] };
    return undefined;
  }

  #openObject(part: ModelPart, { id = '', type = 'model' }: Attributes): MeshFault | undefined {
    if (id === '' || part.objects.has(id))
      return this.#fault(`object id "${id.slice(0, 40)}" is missing or doubled`);
    this.#object = { type, positions: [], triangles: [], components: [] };
    part.objects.set(id, this.#object);
    return undefined;
  }

  #addVertex({ x = '', y = '', z = '' }: Attributes): MeshFault | undefined {
    const point = [numberOf(x), numberOf(y), numberOf(z)];
    if (!point.every(Number.isFinite)) {
      return meshFault(
        'not finite',
        `${this.#name}: vertex "${`${x} ${y} ${z}`.slice(0, 60)}" is not a point; export the file again`,
      );
    }
    this.#object?.positions.push(...point);
    return undefined;
  }

  #addTriangle({ v1 = '', v2 = '', v3 = '' }: Attributes): MeshFault | undefined {
    if (!this.#object) return undefined;
    if (++this.#triangles > MESH_LIMITS.triangles) return triangleLimitFault(this.#triangles);
    const corners = [numberOf(v1), numberOf(v2), numberOf(v3)];
    const points = this.#object.positions.length / 3;
    if (!corners.every((corner) => Number.isInteger(corner) && corner >= 0 && corner < points)) {
      return meshFault(
        'index',
        `${this.#name}: triangle "${`${v1} ${v2} ${v3}`.slice(0, 60)}" names a point that is not there; export the file again`,
      );
    }
    this.#object.triangles.push(...corners);
    return undefined;
  }

  #place(list: Placement[] | undefined, attributes: Attributes): MeshFault | undefined {
    const words = attributes['transform']?.trim().split(/\s+/u);
    const transform = words ? words.map(numberOf) : IDENTITY;
    if (transform.length !== 12 || !transform.every(Number.isFinite)) {
      return this.#fault(`the transform "${attributes['transform']?.slice(0, 60)}" is not 12 numbers`);
    }
    list?.push({ path: attributes[`${this.#production}path`], id: attributes['objectid'] ?? '', transform });
    return undefined;
  }

  #fault(message: string): MeshFault {
    return meshFault('format', `${this.#name}: ${message}; export the file again`);
  }
}
