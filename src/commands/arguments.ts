import { parseArgs, type ParseArgsConfig } from 'node:util';
import { complain } from './progress.ts';

/** What was typed behind a command; nothing after a line about what it does not know. */
export function typed<Config extends ParseArgsConfig>(
  config: Config,
  usage: string,
): ReturnType<typeof parseArgs<Config>> | undefined {
  try {
    return parseArgs(config);
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (!code?.startsWith('ERR_PARSE_ARGS')) throw error;
    complain(`${message.split('. ')[0] ?? message}; write ${usage}`);
    process.exitCode = 1;
    return undefined;
  }
}
