import { createHash } from 'node:crypto';

/** Draws mutants by a hash of what they are: the same ones every time, whatever the order. */
class Sample {
  async init() {}

  async check(mutants) {
    const share = Number(process.env.MUTATED_SHARE ?? 1);
    const drawn = ({ fileName, location, mutatorName, replacement }) => {
      const file = fileName.slice(fileName.lastIndexOf('/src/'));
      const name = JSON.stringify(['partline', file, location, mutatorName, replacement]);
      return createHash('sha256').update(name).digest().readUInt32BE() / 2 ** 32 < share;
    };
    return Object.fromEntries(
      mutants.map((mutant) => [
        mutant.id,
        drawn(mutant) ? { status: 'passed' } : { status: 'compileError', reason: 'not drawn' },
      ]),
    );
  }

  group(mutants) {
    return [mutants.map(({ id }) => id)];
  }
}

export const strykerPlugins = [{ kind: 'Checker', name: 'sample', injectableClass: Sample }];
