import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { PROJECT_ROOT } from '../io/settings.ts';

const binary = join(PROJECT_ROOT, 'node_modules', 'astro', 'bin', 'astro.mjs');
const child = spawn(process.execPath, [binary, 'dev', ...process.argv.slice(2)], {
  env: { ...process.env, ASTRO_TELEMETRY_DISABLED: '1' },
  stdio: 'inherit',
});
for (const name of ['SIGINT', 'SIGTERM'] as const) process.on(name, () => void child.kill(name));
child.once('close', (code) => {
  process.exitCode = code ?? 1;
});
