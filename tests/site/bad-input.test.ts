import { cp, mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, inject, test } from 'vitest';
import type { Mesh } from '../../src/core/mesh/mesh.ts';
import { folderDigest } from '../support/folder-digest.ts';
import { runCommand } from '../support/run-command.ts';
import { binaryStl, flipped, spindle } from '../support/solids.ts';
import { changedCatalogue, temporaryFolder, type Changes } from '../support/temporary.ts';

const INCH = 0.0254;

/** A closed spindle of 5 in, thickest in the middle. */
const good = spindle(5 * INCH, (share) => 0.3 * INCH * Math.sin(Math.PI * share), 24, 32);
const open: Mesh = { positions: good.positions, triangles: good.triangles.slice(0, -3) };

/** The tiny catalogue with its bait drawn as an STL file. */
async function meshCatalogue(mesh: Mesh, perMetre: number): Promise<string> {
  const folder = await changedCatalogue({
    'baits/peg.yaml': MESH_YAML,
    'molds/peg-2.yaml': [
      ['length: 140 mm', 'length: 170 mm'],
      // Its pointed nose lets little through the gate.
      ['status: final', 'status: final\nwarmTo: 130 °F'],
    ],
    'molds/peg-draft.yaml': [['length: 140 mm', 'length: 170 mm']],
  });
  await mkdir(join(folder, 'meshes'));
  await writeFile(join(folder, 'meshes', 'peg.stl'), binaryStl(mesh, perMetre));
  return folder;
}

const MESH_YAML = `name: Peg
family: straight finesse worm
summary: A spindle.
lies: on its side
rigs: [Texas]
plastisol: plain
revisions:
  - id: a
    date: '2026-01-05'
    note: First drawing.
    mesh: { file: meshes/peg.stl, unit: in, length: 5 in }
`;

interface Outcome {
  readonly code: number;
  readonly lines: readonly string[];
  readonly before: string;
  readonly after: string;
}

/** Builds a catalogue over a copy of the good site. */
async function buildOver(catalogue: string): Promise<Outcome> {
  const output = join(await temporaryFolder(), 'site');
  await cp(inject('tinySite'), output, { recursive: true });
  const before = await folderDigest(output);
  const { code, stderr } = await runCommand('build', { CONTENT_DIR: catalogue, OUT_DIR: output });
  const lines = stderr
    .split('\n')
    .filter((line) => line !== '' && !/^(?:warning: |measuring |measured |  +\d* \| )/u.test(line));
  return {
    code,
    lines: lines.map((line) => line.replace(`${catalogue}/`, '')),
    before,
    after: await folderDigest(output),
  };
}

function expectRefused({ code, lines, before, after }: Outcome, expected: RegExp): void {
  expect(lines).toEqual([
    expect.stringMatching(expected),
    '1 mistake in the catalogue',
    'not built; the last site is as it was',
  ]);
  expect(code).toBe(1);
  expect(after).toBe(before);
}

describe('one clear line, exit code 1, the last good site untouched', () => {
  test.each<[string, Changes, RegExp]>([
    [
      'a missing unit',
      { 'molds/peg-2.yaml': [['thickness: 30 mm', 'thickness: 30']] },
      /^molds\/peg-2\.yaml:9:51 "block\.thickness": 30 has no unit — write it with its unit, for example "1 in"$/u,
    ],
    [
      'an unknown key',
      { 'molds/peg-2.yaml': [['released:', 'relesed:']] },
      /^molds\/peg-2\.yaml:4:1 "relesed" is not a known key here — did you mean "released"\?/u,
    ],
    [
      'a dangling reference',
      { 'baits/peg.yaml': [['plastisol: plain', 'plastisol: plan']] },
      /^baits\/peg\.yaml:6:12 "plastisol": there is no "plan" in plastisols — did you mean "plain"\?/u,
    ],
    [
      'a mesh file that is not there',
      { 'baits/peg.yaml': MESH_YAML },
      /^baits\/peg\.yaml:11:19 "revisions\[1\]\.mesh\.file": "meshes\/peg\.stl" is not there — put the file/u,
    ],
    ['no shop', { 'shop.yaml': '' }, /^shop\.yaml:1:1 the file is empty — write the fields of the entry$/u],
  ])('%s', async (_, changes, expected) => {
    expectRefused(await buildOver(await changedCatalogue(changes)), expected);
  });

  test.each<[string, Mesh, number, RegExp]>([
    [
      'an open mesh',
      open,
      1 / INCH,
      /^baits\/peg\.yaml:11:19 meshes\/peg\.stl: open edge near x .*; 3 open edges; close the surface.* — /u,
    ],
    [
      'an inverted mesh',
      flipped(good),
      1 / INCH,
      /^baits\/peg\.yaml:11:19 meshes\/peg\.stl: the whole surface faces inwards.*; flip the normals.* — /u,
    ],
    [
      'an STL file in the wrong unit: 5 in that measure 127 in',
      good,
      1000,
      /^baits\/peg\.yaml:11:53 meshes\/peg\.stl measures 127 in, 25\.4 times the stated 5 in: the file is in mm; set unit: mm — /u,
    ],
  ])('%s', async (_, mesh, perMetre, expected) => {
    expectRefused(await buildOver(await meshCatalogue(mesh, perMetre)), expected);
  });
});

test('the same mesh, closed and in its unit, passes the check', async () => {
  const ended = await runCommand('check', { CONTENT_DIR: await meshCatalogue(good, 1 / INCH) });
  expect(ended).toMatchObject({
    code: 0,
    stdout: expect.stringContaining('the catalogue is in order: 1 bait') as string,
  });
});

test('several mistakes come in one run', async () => {
  const catalogue = await changedCatalogue({
    'shop.yaml': [['units: us', 'units: both']],
    'injectors/four-ounce.yaml': [['4 fl oz\n', '4\n']],
    'molds/peg-2.yaml': [['bait: peg', 'bait: pog']],
  });
  const { code, lines } = await buildOver(catalogue);
  expect(code).toBe(1);
  expect(lines.map((line) => line.split(' ', 1)[0])).toEqual([
    'injectors/four-ounce.yaml:2:11',
    'molds/peg-2.yaml:5:7',
    'shop.yaml:5:8',
    '3',
    'not',
  ]);
});
