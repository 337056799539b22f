import { execFileSync } from 'node:child_process';
import { symlink, writeFile } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { describe, expect, test } from 'vitest';
import { placed, readCatalogue, shopOf } from '../../src/io/catalogue.ts';
import { problemLine } from '../../src/io/problem-text.ts';
import { changedCatalogue, temporaryFolder, TINY, type Changes } from '../support/temporary.ts';

/** Every mistake of a folder as it is printed, files named from the catalogue. */
async function mistakes(folder: string): Promise<string[]> {
  const reading = await readCatalogue(folder);
  if (!('problems' in reading)) return [];
  return reading.problems.map((problem) => problemLine({ ...problem, file: relative(folder, problem.file) }));
}

const mistakesOf = async (changes: Changes): Promise<string[]> => mistakes(await changedCatalogue(changes));

describe('a sound catalogue', async () => {
  const reading = await readCatalogue(TINY);
  if ('problems' in reading) throw new Error(reading.problems.map(problemLine).join('\n'));

  test('is read in SI units, sorted by id', () => {
    const { molds, injectors, baits, shop } = reading.catalogue;
    expect(molds.map(({ id }) => id)).toEqual(['peg-2', 'peg-draft']);
    expect(molds[0]?.vents[0]?.depth).toBeCloseTo(0.0015 * 0.0254, 12);
    expect(injectors[0]?.capacity).toBeCloseTo(4 * 29.5735295625e-6, 15);
    expect(baits[0]?.revisions[0]?.sections?.stations.at(-1)?.at).toBeCloseTo(0.1, 12);
    expect(shop.site).toBe('https://bench.example.com');
  });

  test('says where each value stands', () => {
    const file = 'tests/fixtures/site-tiny/molds/peg-2.yaml';
    expect(reading.locate('peg-2', 'molds', ['cavities', 1, 'revision'])).toEqual({
      file,
      line: 8,
      column: 17,
    });
    expect(reading.locate('peg-2', 'molds', ['gate', 'at'])).toEqual({ file, line: 12, column: 1 });
    expect(() => reading.locate('gone', 'molds', [])).toThrow(
      'locate: wants the id of an entry, got molds/gone',
    );
  });

  test('turns a later finding into a line of a file', () => {
    const finding = {
      collection: 'baits',
      id: 'peg',
      path: ['revisions', 0],
      message: 'is open',
      remedy: 'close it',
    };
    expect(problemLine(placed(finding, reading))).toBe(
      'tests/fixtures/site-tiny/baits/peg.yaml:8:5 is open — close it',
    );
  });
});

const STEP_BAIT = `name: Peg
family: straight finesse worm
summary: A spindle.
lies: on its side
rigs: [Texas]
plastisol: plain
revisions:
  - id: a
    date: '2026-01-05'
    note: First drawing.
    mesh: { file: meshes/peg.step, length: 5 in }
`;

describe('one mistake, one line', () => {
  const cases: readonly (readonly [string, Changes, RegExp])[] = [
    [
      'a STEP file',
      { 'baits/peg.yaml': STEP_BAIT, 'meshes/peg.step': 'ISO-10303-21;' },
      /^baits\/peg\.yaml:11:19 "revisions\[1\]\.mesh\.file": "meshes\/peg\.step" is a STEP file, which is not read — export STL \(with its unit stated\), 3MF or OBJ from the CAD program$/u,
    ],
    [
      'a missing unit',
      { 'injectors/four-ounce.yaml': [['4 fl oz\n', '4\n']] },
      /^injectors\/four-ounce\.yaml:2:11 "capacity": 4 has no unit — write it with its unit, for example "4 fl oz"$/u,
    ],
    [
      'a missing unit in text',
      { 'injectors/four-ounce.yaml': [['38 mm', '"38"']] },
      /^injectors\/four-ounce\.yaml:3:9 "piston": "38" has no unit — write the number with one of: m, cm, mm/u,
    ],
    [
      'a unit of something else',
      { 'injectors/four-ounce.yaml': [['38 mm', '38 g']] },
      /^injectors\/four-ounce\.yaml:3:9 "piston": "g" is not a unit of length — use one of: m, cm, mm/u,
    ],
    [
      'a value out of range',
      { 'molds/peg-2.yaml': [['thickness: 30 mm', 'thickness: 30 m']] },
      /^molds\/peg-2\.yaml:9:51 "block\.thickness": 30 m is outside 8 mm to 200 mm — check the number and the unit$/u,
    ],
    [
      'an unknown key',
      { 'molds/peg-2.yaml': [['runner:', 'runer:']] },
      /^molds\/peg-2\.yaml:11:1 "runer" is not a known key here — did you mean "runner"\? known keys: name, stock/u,
    ],
    [
      'a key that is missing',
      { 'molds/peg-2.yaml': [['gate: { width: 4 mm, ', 'gate: { ']] },
      /^molds\/peg-2\.yaml:12:1 "gate\.width" is missing — add it: a number with its unit \(width; 0\.5 mm to 40 mm/u,
    ],
    [
      'an unknown choice',
      { 'molds/peg-2.yaml': [['status: final', 'status: finl']] },
      /^molds\/peg-2\.yaml:3:9 "status": "finl" is not a known choice — did you mean "final"\? choices: development/u,
    ],
    [
      'an empty value',
      { 'baits/peg.yaml': [['name: Peg', 'name:']] },
      /^baits\/peg\.yaml:1:6 "name" is empty — write text \(name of the design; 1 to 60 characters\), or take the key out$/u,
    ],
    [
      'an entry without its bait',
      { 'molds/peg-2.yaml': [['bait: peg\n', '']] },
      /^molds\/peg-2\.yaml:1:1 "bait" is missing — add it: text \(the bait it makes\)$/u,
    ],
    [
      'a bait that is not there',
      { 'molds/peg-2.yaml': [['bait: peg', 'bait: pegg']] },
      /^molds\/peg-2\.yaml:5:7 "bait": there is no "pegg" in baits — did you mean "peg"\? baits: peg$/u,
    ],
    [
      'a revision that is not there',
      { 'molds/peg-2.yaml': [['revision: a, x: 20 mm, y: 50', 'revision: c, x: 20 mm, y: 50']] },
      /^molds\/peg-2\.yaml:8:17 "cavities\[2\]\.revision": there is no "c" in revisions of peg — did you mean "a"/u,
    ],
    [
      'a compound that is not there',
      { 'baits/peg.yaml': [['plastisol: plain', 'plastisol: plan']] },
      /^baits\/peg\.yaml:6:12 "plastisol": there is no "plan" in plastisols — did you mean "plain"/u,
    ],
    [
      'two revisions of one name',
      {
        'baits/peg.yaml': [
          [
            'revisions:\n',
            "revisions:\n  - { id: a, date: '2026-01-01', note: x, sections: { stations: [{ at: 0 mm, width: 3 mm, above: 1 mm, below: 1 mm }, { at: 5 mm, width: 3 mm, above: 1 mm, below: 1 mm }, { at: 9 mm, width: 3 mm, above: 1 mm, below: 1 mm }] } }\n",
          ],
        ],
      },
      /^baits\/peg\.yaml:9:9 "revisions\[2\]\.id": "a" stands here a second time — give each its own name$/u,
    ],
    [
      'one stock number for two molds',
      { 'molds/peg-draft.yaml': [['EB-PEG-1', 'EB-PEG-2']] },
      /^molds\/peg-draft\.yaml:2:8 "stock": "EB-PEG-2" is the stock number of peg-2 too — give each mold its own/u,
    ],
    [
      'low above nominal',
      { 'plastisols/plain.yaml': [['low: 1 Pa·s', 'low: 4 Pa·s']] },
      /^plastisols\/plain\.yaml:\d+:1 "viscosity": wants low ≤ nominal ≤ high — put the three in order$/u,
    ],
    [
      'a script as an address',
      { 'shop.yaml': [['https://bench.example.com', 'javascript:alert(1)']] },
      /^shop\.yaml:2:7 "site": "javascript:alert\(1\)" wants a full https:\/\/ address — /u,
    ],
    [
      'a logo that is not there',
      { 'shop.yaml': [['units: us', 'units: us\nlook: { logo: sign.png }']] },
      /^shop\.yaml:\d+:\d+ "look\.logo": "sign\.png" is not there — put the file below the catalogue/u,
    ],
    [
      'a colour by its name',
      { 'shop.yaml': [['units: us', 'units: us\nlook: { accent: teal }']] },
      /^shop\.yaml:\d+:\d+ "look\.accent": "teal" wants a colour like "#8a3b12", in quotes — /u,
    ],
    [
      'a picture that is not there',
      {
        'molds/peg-2.yaml': [
          ['status: final', "status: final\nlisting: { photos: [{ file: a.jpg, alt: 'A' }] }"],
        ],
      },
      /^molds\/peg-2\.yaml:4:29 "listing\.photos\[1\]\.file": "a\.jpg" is not there — put the file below the catalogue/u,
    ],
    [
      'a path that leads out',
      {
        'molds/peg-2.yaml': [
          ['status: final', "status: final\nlisting: { photos: [{ file: ../a.jpg, alt: 'A' }] }"],
        ],
      },
      /^molds\/peg-2\.yaml:4:29 "listing\.photos\[1\]\.file": "\.\.\/a\.jpg" wants a lower-case path below the catalogue/u,
    ],
    [
      'a guide without front matter',
      { 'guides/hot.mdx': '# Hot\n' },
      /^guides\/hot\.mdx:1:1 the front matter is missing — start the file with a line "---"/u,
    ],
    [
      'a guide with an unknown key, counted in the whole file',
      { 'guides/hot.mdx': '---\ntitle: Hot\nsummary: Hot.\norder: 1\nordr: 2\n---\n# Hot\n' },
      /^guides\/hot\.mdx:5:1 "ordr" is not a known key here — did you mean "order"\? known keys: title, summary, order$/u,
    ],
    [
      'an id with a capital',
      { 'hooks/Wide.yaml': 'name: x\n' },
      /^hooks\/Wide\.yaml:1:1 "Wide" cannot be an id — name the file with lower-case letters/u,
    ],
    ['a device name', { 'hooks/con.yaml': 'name: x\n' }, /^hooks\/con\.yaml:1:1 "con" cannot be an id/u],
    [
      'another ending',
      { 'hooks/a.yml': 'name: x\n' },
      /^hooks\/a\.yml:1:1 the ending is not \.yaml — rename it/u,
    ],
    [
      'a folder too deep',
      { 'hooks/a/b.yaml': 'name: x\n' },
      /^hooks\/a\/b\.yaml:1:1 lies too deep — put it right below/u,
    ],
    [
      'a misspelt folder',
      { 'hook/a.yaml': 'a: 1\n' },
      /^hook\/a\.yaml:1:1 "hook" is not a collection — did you mean "hooks"/u,
    ],
    [
      'a stray file',
      { 'peg.yaml': 'a: 1\n' },
      /^peg\.yaml:1:1 is not in a collection — put it below one of: baits/u,
    ],
    [
      'a control character',
      { 'shop.yaml': [['Example', '"Ex\\eample"\n#']] },
      /^shop\.yaml:1:7 "name": holds an invisible control character — type the text again$/u,
    ],
  ];
  test.each(cases)('%s', async (_, changes, expected) => {
    const found = await mistakesOf(changes);
    expect(found.filter((line) => expected.test(line))).toHaveLength(1);
  });

  test('and no second line beside it', async () => {
    const lonely = cases.filter(([name]) => !/capital|device/u.test(name));
    for (const [name, changes] of lonely)
      expect([name, await mistakesOf(changes)]).toEqual([name, [expect.any(String)]]);
  });
});

test('all mistakes come in one run, sorted by file and line', async () => {
  const found = await mistakesOf({
    'shop.yaml': [['units: us', 'units: imperial']],
    'molds/peg-2.yaml': [
      ['bait: peg', 'bait: pug'],
      ['count: 4', 'count: 0x4'],
      ['alloy: 6061-T6', 'aloy: 6061-T6'],
    ],
    'baits/peg.yaml': [
      ['width: 3 mm', 'width: 3'],
      ['family: straight finesse worm', 'family: worm'],
    ],
    'hooks/offset.yaml': 'a: [1\n',
  });
  expect(found.map((line) => line.split(' ', 1)[0])).toEqual([
    'baits/peg.yaml:2:9',
    'baits/peg.yaml:13:30',
    'hooks/offset.yaml:2:1',
    'molds/peg-2.yaml:5:7',
    'molds/peg-2.yaml:9:1',
    'molds/peg-2.yaml:9:58',
    'molds/peg-2.yaml:14:69',
    'shop.yaml:5:8',
  ]);
});

describe('what is no plain file', () => {
  test('a link is refused, also inside a folder', async () => {
    const folder = await changedCatalogue({});
    await symlink('/etc/hostname', join(folder, 'hooks', 'host.yaml'));
    await symlink('/etc', join(folder, 'outside'));
    expect(await mistakes(folder)).toEqual([
      'hooks/host.yaml:1:1 is a symbolic link — put the file itself here',
      'outside:1:1 is a symbolic link — put the file itself here',
    ]);
  });

  test('a pipe is refused and never opened', async () => {
    const folder = await changedCatalogue({});
    execFileSync('mkfifo', [join(folder, 'hooks', 'pipe.yaml')]);
    expect(await mistakes(folder)).toEqual([
      'hooks/pipe.yaml:1:1 is not a regular file — put the file itself here',
    ]);
  });

  test('a file of 256 kB is read, one byte more is not', async () => {
    const folder = await changedCatalogue({});
    const start =
      'name: 4 fl oz hand injector\ncapacity: 4 fl oz\npiston: 38 mm\nsource: { title: x, kind: estimate }\n#';
    await writeFile(join(folder, 'injectors', 'four-ounce.yaml'), start.padEnd(256 * 1024, '-'));
    expect(await mistakes(folder)).toEqual([]);
    await writeFile(join(folder, 'injectors', 'four-ounce.yaml'), start.padEnd(256 * 1024 + 1, '-'));
    expect(await mistakes(folder)).toEqual([
      'injectors/four-ounce.yaml:1:1 is 257 kB — keep it at or below 256 kB',
    ]);
  });

  test('bytes that are no UTF-8 text', async () => {
    const folder = await changedCatalogue({});
    await writeFile(join(folder, 'injectors', 'four-ounce.yaml'), Buffer.from([0x61, 0x3a, 0x20, 0xff]));
    expect(await mistakes(folder)).toEqual([
      'injectors/four-ounce.yaml:1:1 the file is not UTF-8 text — save it again as UTF-8 text',
    ]);
  });
});

test('ids that differ only by case or dash are refused with both names', async () => {
  const twin = 'name: x\n';
  const found = await mistakesOf({ 'hooks/OFFSET.yaml': twin, 'injectors/four_ounce.yaml': twin });
  expect(found.filter((line) => line.includes('same id'))).toEqual([
    expect.stringMatching(
      /^hooks\/offset\.yaml:1:1 has the same id as .*hooks\/OFFSET\.yaml — rename one of the two$/u,
    ),
    expect.stringMatching(
      /^injectors\/four_ounce\.yaml:1:1 has the same id as .*four-ounce\.yaml — rename one/u,
    ),
  ]);
});

test('a folder that is not there, and one without a shop', async () => {
  const empty = await temporaryFolder();
  expect(await mistakes(join(empty, 'none'))).toEqual([
    ':1:1 the catalogue folder is not there — make the folder, or set CONTENT_DIR to the catalogue',
  ]);
  expect(await mistakes(empty)).toEqual([
    'shop.yaml:1:1 the file is missing — add it: name, site, contact and units of the maker',
  ]);
});

test('the shop, or nothing while it is unsound', async () => {
  expect((await shopOf(TINY))?.site).toBe('https://bench.example.com');
  expect(await shopOf(await changedCatalogue({ 'shop.yaml': [['https:', 'http:']] }))).toBeUndefined();
  expect(await shopOf(await temporaryFolder())).toBeUndefined();
});

test('a message cannot steer the terminal', () => {
  const line = problemLine({ file: 'a', line: 1, column: 1, message: 'x\u001b[31my\u202e', remedy: 'z\n' });
  expect(line).toBe('a:1:1 x\\u{1b}[31my\\u{202e} — z\\u{a}');
});
