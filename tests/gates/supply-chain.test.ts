import { readFile } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';

interface Manifest {
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
  readonly allowScripts: Readonly<Record<string, boolean>>;
}

interface Locked {
  readonly version?: string;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly license?: string;
  readonly hasInstallScript?: boolean;
  readonly dev?: boolean;
}

const manifest = JSON.parse(await readFile('package.json', 'utf8')) as Manifest;
const lock = JSON.parse(await readFile('package-lock.json', 'utf8')) as { packages: Record<string, Locked> };
const locked = Object.entries(lock.packages).filter(([path]) => path !== '');
const nameOf = (path: string): string =>
  path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);

/** Licences that allow what this project does with a package; a new one is read before it is added here. */
const LICENCES = new Set([
  '0BSD',
  'Apache-2.0',
  'BlueOak-1.0.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'CC0-1.0',
  'ISC',
  'LGPL-3.0-or-later',
  'MIT',
  'MPL-2.0',
  'OFL-1.1',
  'Python-2.0',
  'Zlib',
]);

/** What is wrong with the packages of a project, one line each. */
function faults(
  { dependencies, devDependencies, allowScripts }: Manifest,
  packages: readonly (readonly [string, Locked])[],
): string[] {
  const direct = { ...dependencies, ...devDependencies };
  const count = Object.keys(dependencies).length;
  const licences = ({ license = 'none' }: Locked): string[] =>
    license.replace(/[()]/gu, '').split(/ (?:AND|OR) /u);
  return [
    ...Object.entries(direct)
      .filter(([, version]) => !/^\d+\.\d+\.\d+$/u.test(version))
      .map(([name, version]) => `${name} is not pinned: ${version}`),
    ...(count > 15 ? [`${count} packages at run time, at most 15`] : []),
    ...packages
      .filter(([, { integrity }]) => !/^sha512-/u.test(integrity ?? ''))
      .map(([path]) => `${path} has no integrity`),
    ...packages
      .filter(([path, one]) => one.hasInstallScript && allowScripts[nameOf(path)] !== true)
      .map(([path]) => `${path} runs a script when it is installed`),
    ...packages
      .filter(([, { resolved }]) => resolved !== undefined && !/^https:\/\//u.test(resolved))
      .map(([path]) => `${path} does not come by https`),
    ...packages.flatMap(([path, one]) =>
      licences(one)
        .filter((licence) => !LICENCES.has(licence))
        .map((licence) => `${path} has the licence ${licence}`),
    ),
  ];
}

test('the packages of the project are pinned, few, whole and licensed', () => {
  expect(locked.length).toBeGreaterThan(100);
  expect(faults(manifest, locked)).toEqual([]);
});

test('every script that may run at installation belongs to a package that is there', () => {
  const names = new Set(locked.map(([path]) => nameOf(path)));
  expect(Object.keys(manifest.allowScripts).filter((name) => !names.has(name))).toEqual([]);
});

describe('each fault would be found', () => {
  const sound: Locked = { version: '1.0.0', integrity: 'sha512-x', license: 'MIT' };
  const small: Manifest = { dependencies: { a: '1.0.0' }, devDependencies: {}, allowScripts: {} };

  test.each<[string, Partial<Manifest>, Locked, string]>([
    ['a range', { devDependencies: { b: '^1.0.0' } }, sound, 'b is not pinned: ^1.0.0'],
    ['an address', { dependencies: { b: 'github:x/y' } }, sound, 'b is not pinned: github:x/y'],
    ['no integrity', {}, { ...sound, integrity: undefined }, 'node_modules/a has no integrity'],
    [
      'an install script',
      {},
      { ...sound, hasInstallScript: true },
      'node_modules/a runs a script when it is installed',
    ],
    [
      'plain http',
      {},
      { ...sound, resolved: 'http://example.com/a.tgz' },
      'node_modules/a does not come by https',
    ],
    ['no licence', {}, { ...sound, license: undefined }, 'node_modules/a has the licence none'],
    [
      'another licence',
      {},
      { ...sound, license: 'MIT AND SSPL-1.0' },
      'node_modules/a has the licence SSPL-1.0',
    ],
  ])('%s', (_, own, one, expected) => {
    expect(faults({ ...small, ...own }, [['node_modules/a', one]])).toEqual([expected]);
  });

  test('too many', () => {
    const dependencies = Object.fromEntries(Array.from({ length: 16 }, (_, i) => [`p${i}`, '1.0.0']));
    expect(faults({ ...small, dependencies }, [])).toEqual(['16 packages at run time, at most 15']);
  });
});
