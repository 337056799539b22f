import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { PROJECT_ROOT } from '../io/settings.ts';
import { fieldReference } from './field-reference.ts';
import { jsonSchemas } from './json-schemas.ts';
import { say } from './progress.ts';

const schemas = join(PROJECT_ROOT, 'public', 'schema');
await mkdir(schemas, { recursive: true });
await writeFile(join(PROJECT_ROOT, 'content', 'README.md'), fieldReference());
for (const [name, text] of jsonSchemas()) await writeFile(join(schemas, name), text);
say('wrote content/README.md and public/schema/');
