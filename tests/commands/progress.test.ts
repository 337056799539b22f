import { describe, expect, test, vi } from 'vitest';
import { counted, progress, seconds } from '../../src/commands/progress.ts';

function stream(terminal: boolean): { out: NodeJS.WriteStream; written: string[] } {
  const written: string[] = [];
  const write = (text: string): boolean => written.push(text) > 0;
  return { out: { isTTY: terminal, columns: 30, write } as unknown as NodeJS.WriteStream, written };
}

describe('progress', () => {
  test('is one changing line on a terminal, cut to its width, and gone at the end', () => {
    const { out, written } = stream(true);
    const work = progress('measuring', out);
    work.step(0, 12, 'a-bait-with-a-very-long-name a');
    work.end();
    expect(written).toEqual(['\rmeasuring 1 of 12  a-bait-wit\u001b[K', '\r\u001b[K']);
  });

  test('is a plain line now and then elsewhere', () => {
    vi.useFakeTimers({ toFake: ['performance'] });
    const { out, written } = stream(false);
    const work = progress('measuring', out);
    work.step(0, 3, 'a');
    vi.advanceTimersByTime(6000);
    work.step(1, 3, 'b');
    work.step(2, 3, 'c');
    work.end();
    vi.useRealTimers();
    expect(written).toEqual(['measuring 2 of 3  b  6.0 s\n']);
  });
});

test('counts and times in words', () => {
  expect([counted(1, 'mold'), counted(0, 'mold'), counted(3, 'mold')]).toEqual([
    '1 mold',
    '0 molds',
    '3 molds',
  ]);
  expect(seconds(1234)).toBe('1.2 s');
});
