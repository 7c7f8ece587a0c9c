/** The files that are made from the vocabulary: fresh, and doing in an editor what they are for. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import oniguruma from 'vscode-oniguruma';
import textmate, { type IGrammar } from 'vscode-textmate';
import { KINDS } from '../../grammar/vocabulary';
import { generatedFiles } from '../../grammar/tools/generated';
import { snippets } from '../../grammar/tools/snippets';
import { languageConfiguration } from '../../grammar/tools/textmate';
import { told } from './reading';
import { EVERYTHING } from './samples';

const GRAMMAR = path.resolve(__dirname, '../../grammar');

describe('generated files', () => {
  it.each(Object.entries(generatedFiles()))('%s is fresh (npm run generate)', (name, text) =>
    expect(readFileSync(path.join(GRAMMAR, name), 'utf8')).toBe(text),
  );
});

let grammar: IGrammar | null = null;

beforeAll(async () => {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm'));
  await oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (sources) => new oniguruma.OnigScanner(sources),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: () =>
      Promise.resolve(
        textmate.parseRawGrammar(
          readFileSync(path.join(GRAMMAR, 'cage.tmLanguage.json'), 'utf8'),
          'cage.tmLanguage.json',
        ),
      ),
  });
  grammar = await registry.loadGrammar('source.cage');
});

/** Pieces of a line with the most special scope of each, blanks and plain text left out. */
const colours = (line: string): readonly string[] => {
  const { tokens } = grammar?.tokenizeLine(line, textmate.INITIAL) ?? { tokens: [] };
  return tokens
    .map(({ startIndex, endIndex, scopes }) => [
      line.slice(startIndex, endIndex).trim(),
      scopes[scopes.length - 1] ?? '',
    ])
    .filter(([text, scope]) => text !== '' && scope !== 'source.cage')
    .map(([text, scope]) => `${text ?? ''} ${(scope ?? '').replace('.cage', '')}`);
};

describe('colours', () => {
  it.each([
    [
      'tube bar as harness-bar {',
      [
        'tube keyword.control.statement',
        'bar entity.name.type',
        'as keyword.operator.word',
        'harness-bar support.constant.role',
        '{ punctuation.section',
      ],
    ],
    ['  section bar', ['section storage.type.fact', 'bar variable.other']],
    [
      'section bar { od 38 }',
      [
        'section keyword.control.statement',
        'bar entity.name.type',
        '{ punctuation.section',
        'od storage.type.fact',
        '38 constant.numeric',
        '} punctuation.section',
      ],
    ],
    [
      '  node bar-end = on hoop where z = 775 mm',
      [
        'node keyword.control.statement',
        'bar-end entity.name.type',
        '= keyword.operator',
        'on keyword.operator.word',
        'hoop variable.other',
        'where keyword.operator.word',
        'z variable.other',
        '= keyword.operator',
        '775 constant.numeric',
        'mm keyword.other.unit',
      ],
    ],
    [
      '  size 1 3/4 x .095',
      ['size storage.type.fact', '1 3/4 constant.numeric', 'x keyword.operator.times', '.095 constant.numeric'],
    ],
    [
      'let a = sqrt(2) # note',
      [
        'let keyword.control.statement',
        'a entity.name.type',
        '= keyword.operator',
        'sqrt support.function',
        '( punctuation.section',
        '2 constant.numeric',
        ') punctuation.section',
        '# note comment.line.number-sign',
      ],
    ],
    ['mirror left {', ['mirror keyword.control.statement', 'left support.constant.direction', '{ punctuation.section']],
    [
      'path foot.left, in-plane',
      [
        'path storage.type.fact',
        'foot variable.other',
        '. punctuation.separator',
        'left variable.language.side',
        ', punctuation.separator',
        'in-plane variable.other',
      ],
    ],
    [
      'cage "a # b"',
      [
        'cage keyword.control.statement',
        '" string.quoted.double',
        'a # b string.quoted.double',
        '" string.quoted.double',
      ],
    ],
    [
      'vent a -> air { at b }',
      [
        'vent keyword.control.statement',
        'a variable.other',
        '-> keyword.operator.arrow',
        'air keyword.operator.word',
        '{ punctuation.section',
        'at storage.type.fact',
        'b variable.other',
        '} punctuation.section',
      ],
    ],
  ])('%s', (line, wanted) => expect(colours(line)).toEqual(wanted));

  it('know every statement and fact of the vocabulary', () => {
    for (const kind of KINDS) {
      const line = kind.head.startsWith('<title:') ? `${kind.name} "a"` : `${kind.name} a`;
      const head = kind.target ? `${kind.name} a = b` : kind.block === 'none' ? line : `${kind.name} a {`;
      expect(colours(head)[0]).toBe(`${kind.name} keyword.control.statement`);
      for (const fact of kind.facts) expect(colours(`  ${fact.name} a`)[0]).toBe(`${fact.name} storage.type.fact`);
    }
  });

  it('leave no character of a sound text without a scope but blanks', () => {
    let state = textmate.INITIAL;
    for (const line of EVERYTHING.split('\n')) {
      const result = grammar?.tokenizeLine(line, state);
      for (const { startIndex, endIndex, scopes } of result?.tokens ?? []) {
        if (scopes.length === 1) expect([line, line.slice(startIndex, endIndex).trim()]).toEqual([line, '']);
      }
      state = result?.ruleStack ?? textmate.INITIAL;
    }
  });
});

describe('snippets', () => {
  const filled = (body: readonly string[]): string =>
    body
      .join('\n')
      .replace(/\$\{\d+\|([^,|}]+)[^}]*\}/g, '$1')
      .replace(/\$\{\d+:([^}]*)\}/g, '$1')
      .replace('$0', '');

  it.each(Object.values(snippets()).map((snippet) => [snippet.prefix, snippet.body] as const))(
    '%s, filled in, is a sound statement',
    (_, body) => expect(told(filled(body))).toEqual([]),
  );
});

describe('language configuration', () => {
  it('takes a name with hyphens and accents for one word', () => {
    const { wordPattern } = languageConfiguration() as { wordPattern: { pattern: string; flags: string } };
    const words = 'path bar-end.left, café-2 x w - 10'.match(new RegExp(wordPattern.pattern, `g${wordPattern.flags}`));
    expect(words).toEqual(['path', 'bar-end', 'left', 'café-2', 'x', 'w', '10']);
  });
});
