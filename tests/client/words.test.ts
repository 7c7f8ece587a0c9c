/** Places, hovers and the page: what stands between the text and the picture. */
import fc from 'fast-check';
import { parse, type DefaultTreeAdapterMap } from 'parse5';
import { describe, expect, it } from 'vitest';
import { hoverBlocks } from '../../client/view/hover-blocks';
import { readToView, type HoverBlock, type Run } from '../../client/view/messages';
import { pageHtml } from '../../client/view/page';
import { idsAt, writtenAt } from '../../client/view/places';
import { CAR, model, node, place, thing } from './models';

const same = (a: string, b: string): boolean => a === b;

describe('what the cursor stands in', () => {
  const car = model({
    things: [
      thing('seat', 10, 'k', { statement: place(10, 0, 1, 20) }),
      thing('strap', 12),
      thing('leg.left', 30, 'k', { id: 'tube:leg.left' }),
      thing('leg.right', 30, 'k', { id: 'tube:leg.right' }),
      thing('nowhere', 31, 'k', { place: null, statement: null }),
    ],
    nodes: [node('foot.left', 29)],
  });
  const idsOn = (line: number, character: number, uri = CAR): readonly string[] =>
    idsAt(car, { uri, at: { line, character } }, same);

  it('is the innermost statement, and all that it makes', () => {
    expect(idsOn(11, 5)).toEqual(['tube:seat']);
    expect(idsOn(12, 5)).toEqual(['tube:strap']);
    expect(idsOn(30, 5)).toEqual(['tube:leg.left', 'tube:leg.right']);
    expect(idsOn(29, 0)).toEqual(['node:foot.left']);
  });
  it('ends behind its last letter, and in its own file', () => {
    expect(idsOn(30, 40)).toHaveLength(2);
    expect(idsOn(30, 41)).toEqual([]);
    expect(idsOn(30, 5, 'file:///shop/other.cage')).toEqual([]);
    expect(idsOn(31, 5)).toEqual([]);
  });
  it('the other way, a thing or a node leads to where it is written, if anywhere', () => {
    expect(writtenAt(car, 'tube:strap')).toEqual(place(12, 5, 9));
    expect(writtenAt(car, 'node:foot.left')?.start.line).toBe(29);
    expect(writtenAt(car, 'tube:nowhere')).toBeNull();
    expect(writtenAt(car, 'tube:gone')).toBeNull();
  });
});

const plainText = (blocks: readonly HoverBlock[]): string =>
  blocks
    .map((block) => {
      const text = (runs: readonly Run[]): string => runs.map((run) => run.text).join('');
      if (block.kind === 'code') return block.text;
      if (block.kind === 'rule') return '---';
      if (block.kind === 'table') return block.rows.map((row) => row.map(text).join('|')).join('\n');
      return text(block.runs);
    })
    .join('\n');

describe('a hover as blocks', () => {
  it('is as CommonMark 0.31 has it for escapes, code spans and strong words (its own examples, from memory)', () => {
    expect(hoverBlocks('\\!\\"\\#\\$\\%\\&\\*\\<\\>\\[\\]\\`\\|\\~')).toEqual([
      { kind: 'words', runs: [{ text: '!"#$%&*<>[]`|~', style: 'plain' }] },
    ]);
    expect(hoverBlocks('`foo`')).toEqual([{ kind: 'words', runs: [{ text: 'foo', style: 'code' }] }]);
    expect(hoverBlocks('`foo\\`bar`')).toEqual([
      {
        kind: 'words',
        runs: [
          { text: 'foo\\', style: 'code' },
          { text: 'bar`', style: 'plain' },
        ],
      },
    ]);
    expect(hoverBlocks('**foo bar**')).toEqual([{ kind: 'words', runs: [{ text: 'foo bar', style: 'strong' }] }]);
    expect(hoverBlocks('** foo bar**')).toEqual([{ kind: 'words', runs: [{ text: '** foo bar**', style: 'plain' }] }]);
  });
  it('has tables with their heads, lists, headings, fences and rules', () => {
    const text = '# Bar\n\n| | mm |\n|:--|--:|\n| a \\| b | 1 |\n\n- one\n- two\n\n```\n**x**\n```\n\n---\nwords\nmore';
    const blocks = hoverBlocks(text);
    expect(blocks.map(({ kind }) => kind)).toEqual(['heading', 'table', 'item', 'item', 'code', 'rule', 'words']);
    expect(plainText(blocks)).toBe('Bar\n|mm\na | b|1\none\ntwo\n**x**\n---\nwords more');
  });
  it('takes nothing for HTML', () => {
    const text = '<img src=x onerror=alert(1)> &lt;b&gt; [a](javascript:alert)';
    expect(plainText(hoverBlocks(text))).toBe('<img src=x onerror=alert(1)> &lt;b&gt; a');
  });
  it('comes of any text, and fits into its message', () => {
    const signs = fc.string({
      unit: fc.constantFrom('a', ' ', '\n', '|', '-', '`', '*', '\\', '[', ']', '(', ')', '#'),
    });
    fc.assert(
      fc.property(fc.oneof(signs, fc.string()), (text) => {
        const message = { type: 'hover', id: 'a', blocks: hoverBlocks(text) };
        return readToView(message) === message;
      }),
      { numRuns: 500 },
    );
  });
});

type Node = DefaultTreeAdapterMap['node'];
type Element = DefaultTreeAdapterMap['element'];
const elements = (of: Node): Element[] => [
  ...('tagName' in of ? [of] : []),
  ...('childNodes' in of ? of.childNodes.flatMap(elements) : []),
];

describe('the page', () => {
  const parts = {
    source: 'https://*.example.test',
    script: 'https://x.example.test/view.js',
    style: 'https://x.example.test/view.css?"><b>',
    nonce: 'abc123',
  };
  const all = elements(parse(pageHtml(parts)));
  const attribute = (element: Element | undefined, name: string): string | undefined =>
    element?.attrs.find((one) => one.name === name)?.value;

  it('forbids all but its own script and style (CSP Level 3: a directive that is not named falls back on default-src)', () => {
    const meta = all.find((one) => attribute(one, 'http-equiv') === 'Content-Security-Policy');
    const policy = new Map(
      (attribute(meta, 'content') ?? '').split('; ').map((one) => {
        const [name = '', ...rest] = one.split(' ');
        return [name, rest.join(' ')] as const;
      }),
    );
    expect(Object.fromEntries(policy)).toEqual({
      'default-src': "'none'",
      'script-src': "'nonce-abc123'",
      'style-src': 'https://*.example.test',
      'base-uri': "'none'",
      'form-action': "'none'",
    });
  });
  it('has one script, by its nonce, and nothing inline', () => {
    const scripts = all.filter(({ tagName }) => tagName === 'script');
    expect(scripts.map((one) => [attribute(one, 'nonce'), attribute(one, 'src'), one.childNodes.length])).toEqual([
      ['abc123', parts.script, 0],
    ]);
    expect(all.filter(({ tagName }) => tagName === 'style' || tagName === 'b')).toEqual([]);
    expect(
      all.flatMap(({ attrs }) => attrs.map(({ name }) => name)).filter((name) => /^on|^style$/.test(name)),
    ).toEqual([]);
  });
});
