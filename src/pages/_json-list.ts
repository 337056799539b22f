/** A list as JSON, some of its items at a time. */
async function* written(parts: AsyncIterable<readonly unknown[]>): AsyncGenerator<string> {
  let mark = '[';
  for await (const items of parts) {
    if (items.length === 0) continue;
    yield mark + items.map((item) => JSON.stringify(item)).join(',');
    mark = ',';
  }
  yield mark === '[' ? '[]' : ']';
}

/**
 * An answer with a list that is never held whole: of a thousand molds, some take more memory as text than all that they are
 * made from.
 */
export function jsonList(parts: AsyncIterable<readonly unknown[]>): Response {
  const texts = written(parts);
  const encoder = new TextEncoder();
  const body = new ReadableStream({
    async pull(controller) {
      const next = await texts.next();
      if (next.done) controller.close();
      else controller.enqueue(encoder.encode(next.value));
    },
  });
  return new Response(body, { headers: { 'Content-Type': 'application/json' } });
}
