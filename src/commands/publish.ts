import { contentFolder, shownPath } from '../io/settings.ts';
import { typed } from './arguments.ts';
import { complain, say } from './progress.ts';
import { publish } from './publish/accept.ts';

const USAGE = 'npm run publish -- MOLD --note "why", or --all in place of MOLD';

const given = typed(
  {
    options: {
      note: { type: 'string' },
      date: { type: 'string' },
      all: { type: 'boolean' },
      amend: { type: 'boolean' },
    },
    allowPositionals: true,
  },
  USAGE,
);
if (given) {
  const { values, positionals } = given;
  const today = new Date().toISOString().slice(0, 10);
  const outcome = await publish(contentFolder(), {
    molds: positionals,
    all: values.all ?? false,
    note: values.note ?? '',
    date: values.date ?? (values.amend ? '' : today),
    amend: values.amend ?? false,
  });
  for (const line of outcome.lines) (outcome.accepted ? say : complain)(line);
  if (!outcome.accepted)
    complain(`nothing was written to ${shownPath(contentFolder())}/published; write ${USAGE}`);
  process.exitCode = outcome.accepted ? 0 : 1;
}
