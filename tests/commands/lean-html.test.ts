import { describe, expect, test } from 'vitest';
import { leanHtml } from '../../src/commands/lean-html.ts';

describe('white space', () => {
  test.each([
    [
      'goes at the edges of blocks',
      '<ul> <li> one </li>\n<li>two</li> </ul>',
      '<ul><li>one</li><li>two</li></ul>',
    ],
    [
      'stays between words and what is set in the line',
      '<p>at <b>12</b> <span>mm</span> or\n  <a href="#x">more</a></p>',
      '<p>at <b>12</b> <span>mm</span> or <a href="#x">more</a></p>',
    ],
    [
      'stays between two links',
      '<p><a href="#a">a</a> <a href="#b">b</a></p>',
      '<p><a href="#a">a</a> <a href="#b">b</a></p>',
    ],
    ['becomes one space at a line break', '<p>\n one\n   two\n</p>', '<p>one two</p>'],
    ['that does not break is text', '<p>\u00a0mm\u00a0</p>', '<p>\u00a0mm\u00a0</p>'],
    [
      'goes around words of a drawing',
      '<svg> <text x="1"> 20 </text> </svg> oz',
      '<svg><text x="1">20</text></svg> oz',
    ],
    ['stays before and after a picture in the line', '<b>a</b> <img src="x"> b', '<b>a</b> <img src="x"> b'],
    ['stays in attributes', '<a title="one\n two" href="#x">x</a>', '<a title="one\n two" href="#x">x</a>'],
  ])('%s', (_, html, lean) => {
    expect(leanHtml(html)).toBe(lean);
    expect(leanHtml(lean)).toBe(lean);
  });
});

test('scripts, data and set text keep every character, also between blocks', () => {
  const kept =
    '<script type="x">{ "a":\n  "<p> b </p>" }</script><pre> a\n\n b </pre><textarea>\n x </textarea>';
  expect(leanHtml(`<div> ${kept} </div>`)).toContain('{ "a":\n  "<p> b </p>" }');
  expect(leanHtml(`<div> ${kept} </div>`)).toContain('<pre> a\n\n b </pre>');
});

test('every word stays apart from its neighbours', () => {
  const html =
    '<div>\n<p> Pour at <b>332</b>\n<i>(320 to 356)</i> °F, <br /> then\nwait. </p>\n<p>Open.</p></div>';
  const words = (text: string) =>
    text
      .replace(/<(?:p|br|div)[^>]*>|<\/(?:p|div)>/gu, ' ')
      .replace(/<[^>]*>/gu, '')
      .split(/\s+/u)
      .filter(Boolean);
  expect(words(leanHtml(html))).toEqual(words(html));
});
