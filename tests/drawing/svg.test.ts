/** Words and shapes as SVG: nothing of a file can become markup. */
import { parseFragment } from 'parse5';
import { describe, expect, it } from 'vitest';
import { group, line, point, text } from '../../server/drawing/scene';
import { escaped, svgElement, svgFile } from '../../server/drawing/svg';

describe('escaped', () => {
  it('keeps text as it is and takes what is markup or no text', () => {
    expect(escaped('Größe 45 x 2.5 µm, 日本 😀\tend')).toBe('Größe 45 x 2.5 µm, 日本 😀\tend');
    expect(escaped(`<b a="1" c='2'>&`)).toBe('&lt;b a=&quot;1&quot; c=&#39;2&#39;&gt;&amp;');
    // XML 1.0, section 2.2, allows none of these; HTML calls them parse errors.
    for (const sign of ['\u0000', '\u0008', '\u001b', '\u007f', '\u0085', '\ufffe', '\uffff', '\ufdd0', '\u{1ffff}'])
      expect(escaped(`a${sign}b`)).toBe('a\ufffdb');
    expect(escaped('half \ud83d and \ude00')).toBe('half \ufffd and \ufffd');
    expect(escaped('right\u202eleft')).toBe('right\ufffdleft');
  });
});

describe('a scene', () => {
  const scene = {
    title: '</title><script>x</script>',
    description: '"--><x>',
    width: 100,
    height: 50,
    items: [
      group('a"b', [line('outline', [point(0, 0), point(1e9, Number.NaN)])], { of: '"><script>' }),
      line('hidden', [point(1, 1)]),
      text(point(1, 2), '<tspan onclick="x">', 2),
    ],
  };
  it('stays in its own element whatever its words', () => {
    const errors: string[] = [];
    parseFragment(svgElement(scene), { onParseError: ({ code }) => errors.push(code), sourceCodeLocationInfo: true });
    expect(errors).toEqual([]);
    expect(svgElement(scene)).not.toMatch(/<script|<tspan|NaN/);
  });
  it('as a file has its note as a comment that cannot end early', () => {
    expect(svgFile(scene, 'x --> y -- z').split('-->').length).toBe(2);
  });
});
