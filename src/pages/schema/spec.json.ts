import type { APIRoute } from 'astro';
import { z } from 'zod';
import { specSchema } from '../../sheet/spec.ts';

/** JSON Schema of `molds/ID/spec.json`. */
export const GET: APIRoute = () => Response.json(z.toJSONSchema(specSchema));
