import type { APIRoute } from 'astro';

/** Everything may be read and listed. */
export const GET: APIRoute = () =>
  new Response('User-agent: *\nAllow: /\n', { headers: { 'Content-Type': 'text/plain' } });
