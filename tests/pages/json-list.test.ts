import { expect, test } from 'vitest';
import { jsonList } from '../../src/pages/_json-list.ts';

async function* all(parts: readonly (readonly unknown[])[]): AsyncGenerator<readonly unknown[]> {
  for (const part of parts) yield await Promise.resolve(part);
}

test.each([
  ['nothing at all', []],
  ['empty parts', [[], []]],
  ['one part', [[{ title: 'Größe', value: 0.5 }, 'b']]],
  ['empty parts between others', [[], [1], [], [{ b: '“²µ' }, null], []]],
])('%s: the text is that of the whole list', async (_, parts) => {
  const answer = jsonList(all(parts));
  expect(answer.headers.get('content-type')).toBe('application/json');
  expect(await answer.text()).toBe(JSON.stringify(parts.flat()));
});

test('a mistake in a part is no short list', async () => {
  async function* broken(): AsyncGenerator<readonly unknown[]> {
    yield [1];
    await Promise.resolve();
    throw new RangeError('the second part');
  }
  await expect(jsonList(broken()).text()).rejects.toThrow('the second part');
});
