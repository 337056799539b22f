import { describe, expect, test } from 'vitest';
import type { Outline } from '../../src/core/section/geometry.ts';
import { overlayDrawing } from '../../src/drawing/overlay.ts';

const strip = (half: number): Outline => [
  [
    [0, -0.005],
    [0.04, -half],
    [0.08, -half],
    [0.08, half],
    [0.04, half],
    [0, 0.005],
  ],
];
const input = {
  name: 'Strip',
  from: 'a',
  to: 'b',
  views: [
    { caption: 'On the parting plane', from: strip(0.004), to: strip(0.004), moved: [] },
    {
      caption: 'Seen across',
      from: strip(0.0012),
      to: strip(0.0009),
      moved: [
        [
          [0.041, 0.0009],
          [0.08, 0.0009],
        ] as const,
      ],
    },
  ],
};

describe('two revisions laid over each other', () => {
  test.each(['wide', 'compact'] as const)('%s: as text', async (layout) => {
    const { svg } = overlayDrawing(input, { layout, prefix: 'over', standalone: 'auto' });
    await expect(svg).toMatchFileSnapshot(`snapshots/overlay-${layout}.svg`);
  });

  test('says in words what has moved, and draws only that wide', () => {
    const { svg, title, desc } = overlayDrawing(input, { layout: 'wide', prefix: 'over' });
    expect(title).toBe('Strip: revision B over revision A, scale 2:1');
    expect(desc).toMatch(
      /On the parting plane: nothing has moved\. Seen across: the outline has moved in 1 stretch\./u,
    );
    expect(svg.match(/class="ln-changed/gu)?.length).toBe(1);
    expect(svg.match(/class="ln-hidden/gu)?.length).toBe(1);
  });

  test('the wide line lies on the later outline, at the drawing scale', () => {
    const { svg } = overlayDrawing(input, { layout: 'wide', prefix: 'over' });
    const [, x = '', y = '', length = ''] =
      /class="ln-changed[^>]* d="M([\d.]+) ([\d.]+)l([\d.]+)/u.exec(svg) ?? [];
    expect(Number(x)).toBeCloseTo(5 + 2 * 41, 6);
    expect(Number(length)).toBeCloseTo(2 * 39, 6);
    expect(Number(y)).toBeGreaterThan(0);
  });
});
