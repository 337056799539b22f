import { contentFolder } from '../io/settings.ts';
import { typed } from './arguments.ts';
import { OPTIONS, Refusal, type OptionName } from './new/draft.ts';
import { USAGE, writeNew } from './new/write.ts';
import { complain } from './progress.ts';

const options = Object.fromEntries(
  Object.keys(OPTIONS).map((name) => [name, { type: 'string' as const }]),
) as Record<OptionName, { type: 'string' }>;
const given = typed({ options, allowPositionals: true }, USAGE);
if (given) {
  const [kind = '', id = ''] = given.positionals;
  const today = new Date().toISOString().slice(0, 10);
  try {
    if (kind === '' || id === '') throw new Refusal(`what, and under which id? — write ${USAGE}`);
    const sound = await writeNew(kind, { id, folder: contentFolder(), options: given.values, today });
    process.exitCode = sound ? 0 : 1;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    complain(error.message);
    process.exitCode = 1;
  }
}
