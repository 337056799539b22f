import { basename, extname, join, relative, resolve, sep } from 'node:path';
import { meshBox } from '../../core/mesh/mass-properties.ts';
import type { Mesh } from '../../core/mesh/mesh.ts';
import { isMeshFault, type MeshUnit } from '../../core/mesh/result.ts';
import { readMeshFile } from '../../io/mesh-file.ts';
import { analysisTools } from '../../io/analysis-tools.ts';
import { isInside, shownPath } from '../../io/settings.ts';
import { baitSchema, FAMILIES } from '../../schema/bait.ts';
import type { Catalogue } from '../../schema/collections.ts';
import type { BaitGeometry } from '../../core/section/geometry.ts';
import { geometryOf } from '../../sheet/geometry.ts';
import { readYaml } from '../../io/yaml-source.ts';
import { chosen, headed, mm, named, Refusal, type Draft, type Wish } from './draft.ts';

const AXES = ['-x', '+x', '-y', '+y', '-z', '+z'] as const;
const UNITS = ['mm', 'in', 'cm', 'm'] as const;
const LEAST = { lengthForAMesh: 0.01, mostForAMesh: 0.5 };

/** A bait from a mesh file or, without one, from a table of sections to change. */
export async function baitDraft(wish: Wish, catalogue: Catalogue): Promise<Draft> {
  const { id, folder, options } = wish;
  const family = oneOf('family', options.family ?? 'straight finesse worm', FAMILIES);
  const plastisol = chosen(catalogue, 'plastisols', options.plastisol, id).id;
  const shape = options.from === undefined ? SECTIONS : await meshText(options.from, wish);
  const body = (measured: string): string =>
    `name: ${named(id)}
family: ${family}
summary: ${named(id)}, a ${family}.
lies: on its side
rigs: [Texas]
plastisol: ${plastisol}
revisions:
  - id: a
    date: '${wish.today}'
    note: First drawing.
${measured}${typeof shape === 'string' ? shape : shape.text}`;
  if (typeof shape === 'string') {
    return { text: headed('baits', folder, body('')), notes: ['change the sections to those of your bait'] };
  }
  const geometry = await measured(wish, body(''), shape);
  return {
    text: headed('baits', folder, body(measuredText(geometry))),
    ...(shape.copy && { copy: shape.copy }),
    notes: shape.notes,
  };
}

const SECTIONS = `    sections:
      # From nose to tail: full width in the parting plane, height above it, depth below it.
      stations:
        - { at: 0 mm, width: 4 mm, above: 2 mm, below: 2 mm }
        - { at: 10 mm, width: 9 mm, above: 4.5 mm, below: 4.5 mm }
        - { at: 60 mm, width: 8 mm, above: 4 mm, below: 4 mm }
        - { at: 90 mm, width: 4 mm, above: 2 mm, below: 2 mm }
        - { at: 100 mm, width: 2.4 mm, above: 1.2 mm, below: 1.2 mm }
      # Tails, legs, claws and ribs are measured and named here.
      appendages:
        - name: tail
          kind: paddle
          root: { at: 94 mm }
          length: 12 mm
          width: { root: 3 mm, middle: 7 mm, tip: 5 mm }
          thickness: { root: 2 mm, tip: 1.8 mm }
`;

interface MeshText {
  readonly text: string;
  readonly file: string;
  readonly path: string;
  readonly copy?: Draft['copy'];
  readonly notes: readonly string[];
}

function oneOf<Choice extends string>(option: string, value: string, known: readonly Choice[]): Choice {
  const found = known.find((choice) => choice === value);
  if (found === undefined)
    throw new Refusal(`--${option}: "${value}" is not known — choose from: ${known.join(', ')}`);
  return found;
}

async function meshText(from: string, { id, folder, options }: Wish): Promise<MeshText> {
  const path = resolve(from);
  const unit = options.unit === undefined ? undefined : oneOf('unit', options.unit, UNITS);
  const mesh = await readOrRefuse(path, unit);
  const place = placeFor(path, folder, id);
  const { nose, out, length, parting } = laid(mesh, options);
  if (length < LEAST.lengthForAMesh || length > LEAST.mostForAMesh)
    throw new Refusal(`${shownPath(path)} is ${mm(length)} long — correct --unit`);
  const text = `    mesh:
      file: ${place.file}
${unit === undefined ? '' : `      unit: ${unit}\n`}      length: ${mm(length)}
      axes: { nose: '${nose}', out: '${out}' }
${parting === undefined ? '' : `      parting: ${mm(parting)}\n`}      # Name the thin parts; each is measured inside its box, along, across and up from the nose:
      # features:
      #   - name: tail
      #     kind: paddle
      #     box: { from: [${mm(length * 0.8)}, ${tailBox(mesh, nose, out, -1)}], to: [${mm(length + 0.001)}, ${tailBox(mesh, nose, out, 1)}] }
`;
  const notes = [
    `nose towards ${nose}, out of the parting plane ${out}: change \`axes\` if the file lies otherwise`,
  ];
  return { ...place, text, path, notes };
}

async function readOrRefuse(path: string, unit: MeshUnit | undefined): Promise<Mesh> {
  const read = await readMeshFile(path, unit);
  if (!isMeshFault(read)) return read.mesh;
  const guess = read.kind === 'unit' && unit === undefined ? await unitHint(path) : '';
  throw new Refusal(`${shownPath(path)}: ${read.message}${guess} — correct it, then try again`);
}

/** How long the bait is in each unit that makes it one. */
async function unitHint(path: string): Promise<string> {
  const read = await readMeshFile(path, 'm');
  if (isMeshFault(read)) return '';
  const { min, max } = meshBox(read.mesh);
  const span = Math.max(...max.map((end, i) => end - (min[i] ?? 0)));
  const metres = { mm: 1e-3, in: 0.0254, cm: 1e-2, m: 1 };
  const likely = UNITS.filter(
    (unit) => span * metres[unit] >= LEAST.lengthForAMesh && span * metres[unit] <= LEAST.mostForAMesh,
  ).map((unit) => `--unit ${unit} makes it ${mm(span * metres[unit])} long`);
  return likely.length > 0 ? ` (${likely.join('; ')})` : '';
}

/** Where the mesh lies in the catalogue: where it is, or in `meshes/` under the id of the bait. */
function placeFor(path: string, folder: string, id: string): { file: string; copy?: Draft['copy'] } {
  const near = relative(folder, path).split(sep).join('/');
  if (isInside(folder, path) && /^(?:[a-z0-9][a-z0-9_-]*\/)*[a-z0-9][a-z0-9._-]*$/u.test(near))
    return { file: near };
  const file = `meshes/${id}${extname(basename(path)).toLowerCase()}`;
  return { file, copy: { from: path, to: join(folder, file) } };
}

type Axis = (typeof AXES)[number];

const indexOf = (axis: Axis): 0 | 1 | 2 => (axis.endsWith('x') ? 0 : axis.endsWith('y') ? 1 : 2);

/** How the file lies: the nose along its longest side, the parting plane square to its shortest. */
function laid(
  mesh: Mesh,
  options: Wish['options'],
): { nose: Axis; out: Axis; length: number; parting?: number } {
  const { min, max } = meshBox(mesh);
  const spans = ([0, 1, 2] as const).map((i) => max[i] - min[i]);
  const letter = (i: number): 'x' | 'y' | 'z' => (['x', 'y', 'z'] as const)[i] ?? 'x';
  const nose = options.nose
    ? oneOf('nose', options.nose, AXES)
    : (`-${letter(spans.indexOf(Math.max(...spans)))}` as const);
  const others = ([0, 1, 2] as const).filter((i) => i !== indexOf(nose));
  const flat = others.sort((a, b) => (spans[a] ?? 0) - (spans[b] ?? 0))[0] ?? 2;
  const out = options.out ? oneOf('out', options.out, AXES) : (`+${letter(flat)}` as const);
  if (indexOf(out) === indexOf(nose)) throw new Refusal('--out: is the axis of the nose — name another axis');
  const sign = out.startsWith('-') ? -1 : 1;
  const [low, high] = [min[indexOf(out)], max[indexOf(out)]];
  const cut = low < 0 && high > 0;
  const length = max[indexOf(nose)] - min[indexOf(nose)];
  return { nose, out, length, ...(cut ? {} : { parting: (sign * (low + high)) / 2 }) };
}

/** Across and up of one end of a box around the whole bait. */
function tailBox(mesh: Mesh, nose: Axis, out: Axis, side: -1 | 1): string {
  const { min, max } = meshBox(mesh);
  const across = ([0, 1, 2] as const).find((i) => i !== indexOf(nose) && i !== indexOf(out)) ?? 1;
  const reach = (i: 0 | 1 | 2): string => mm(side * (Math.max(Math.abs(min[i]), Math.abs(max[i])) + 0.001));
  return `${reach(across)}, ${reach(indexOf(out))}`;
}

/** Measures the drafted bait exactly as the site will. */
async function measured({ id, folder }: Wish, body: string, mesh: MeshText): Promise<BaitGeometry> {
  const entry = { id, ...baitSchema.parse(readYaml('draft', body).source?.data) };
  const revision = entry.revisions[0];
  if (!revision) throw new RangeError('measured: wants a revision, got none');
  const tools = {
    ...analysisTools(folder),
    readMesh: (_: string, unit: MeshUnit | undefined) => readMeshFile(mesh.path, unit),
    fingerprint: () => analysisTools('/').fingerprint(mesh.path),
  };
  const result = await geometryOf(entry, revision, tools);
  if ('geometry' in result) return result.geometry;
  throw new Refusal(`${shownPath(mesh.path)}: ${result.problem.message} — ${result.problem.remedy}`);
}

function measuredText({ box, volume, surface, thickest }: BaitGeometry): string {
  const [length, width, height] = ([0, 1, 2] as const).map((i) => mm(box.max[i] - box.min[i]));
  return `    # Measured: ${length} long, ${width} across, ${height} out of the parting plane; ${(volume * 1e6).toFixed(2)} mL,
    # ${(surface * 1e4).toFixed(1)} cm² of skin, ${mm(thickest.thickness)} at its thickest.
`;
}
