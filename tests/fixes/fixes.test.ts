import { describe, expect, it } from 'vitest';
import type { Code } from '../../grammar/codes';
import { CODES } from '../../grammar/codes';
import { STAGES } from '../../grammar/explanations';
import { explanationOf } from '../../server/rules/explanations';
import type { PlacedFinding } from '../../grammar/finding';
import type { TextEdit } from '../../server/fixes/fixes';
import { fixesFor, resolveFix } from '../../server/fixes/fixes';
import { analyse, told } from '../support/analyse';

const FILE = 'example.cage';

/** Edits put into the text, from the last to the first. */
const applied = (text: string, edits: readonly TextEdit[]): string =>
  [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((t, edit) => t.slice(0, edit.span.start) + edit.newText + t.slice(edit.span.end), text);

const count = (findings: readonly PlacedFinding[], code: string): number =>
  findings.filter((f) => f.code === code && !f.waived).length;

/** Codes for which a fix must be offered. */
const MENDED: readonly Code[] = [
  'syntax.string',
  'syntax.brace',
  'syntax.brace-close',
  'syntax.decimal-comma',
  'syntax.degree-sign',
  'syntax.inch-sign',
  'number.mixed-fraction',
  'number.fraction-after-division',
  'unit.unknown',
  'unit.mixed',
  'unit.inch-after-angle',
  'name.unknown',
  'name.case',
  'name.side',
  'kind.unknown',
  'role.unknown',
  'fact.unknown',
  'rule.unknown-book',
  'rulebook.code',
  'rulebook.group',
  'waive.unknown',
  'place.several',
  'place.on-centre',
  'place.bend-corner',
  'place.near-miss',
  'bend.tiny',
  'bend.rotation-tiny',
  'end.loose',
  'space.unvented',
];

describe('every fix mends its finding and brings no new one', () => {
  it.each(Object.keys(CODES) as Code[])('%s', async (code) => {
    const { stage, bad, files } = explanationOf(code);
    const text = `${STAGES[stage]}${bad}\n`;
    const before = await analyse(text, files, FILE);
    const all = before.findings.filter((f) => f.code === code);
    const offers = all.flatMap((finding) => fixesFor(finding, before).map((offer) => ({ finding, offer })));
    const own = offers.filter(({ offer }) => offer.id !== 'waive');
    if (MENDED.includes(code)) expect(own.length, told(all).join('\n')).toBeGreaterThan(0);
    for (const { finding, offer } of offers) {
      const edits = resolveFix(offer.id, finding, before);
      expect(edits.length, offer.title).toBeGreaterThan(0);
      const mended = applied(text, edits);
      const after = await analyse(mended, files, FILE);
      const why = `${offer.title}\n${mended}\n${told(after.findings).join('\n')}`;
      expect(count(after.findings, code), why).toBeLessThan(count(before.findings, code));
      for (const { code: other } of after.findings) {
        // A line that could not be read says nothing else; once it can, what it names may be missing in turn.
        // A waiver without a reason asks for it.
        const asked = offer.id === 'waive' && other === 'fact.value';
        if (!code.startsWith('syntax.') && !code.startsWith('number.') && !asked)
          expect(count(after.findings, other), why).toBeLessThanOrEqual(count(before.findings, other));
      }
    }
    for (const finding of all) {
      const preferred = fixesFor(finding, before).filter((offer) => offer.preferred);
      expect(preferred.length).toBeLessThanOrEqual(1);
    }
  });
});

describe('what a fix writes', () => {
  const mend = async (text: string, code: Code, title: RegExp): Promise<string> => {
    const analysis = await analyse(text, {}, FILE);
    for (const finding of analysis.findings.filter((f) => f.code === code)) {
      for (const offer of fixesFor(finding, analysis)) {
        if (title.test(offer.title)) return applied(text, resolveFix(offer.id, finding, analysis));
      }
    }
    return `no such fix in:\n${told(analysis.findings).join('\n')}`;
  };

  it.each<readonly [Code, RegExp, string, string]>([
    ['number.mixed-fraction', /1 1\/2/, 'let w = 1-1/2 in\n', 'let w = 1 1/2 in\n'],
    ['syntax.decimal-comma', /2\.5/, 'section s { od 30; wall 2,5 }\n', 'section s { od 30; wall 2.5 }\n'],
    ['syntax.degree-sign', /deg/, 'let a = 45°\n', 'let a = 45 deg\n'],
    ['syntax.inch-sign', /in/, 'let a = 1.5"\n', 'let a = 1.5 in\n'],
    ['name.unknown', /w - 10/, 'let w = 30\nlet v = w-10\n', 'let w = 30\nlet v = w - 10\n'],
    ['syntax.missing', /'\)'/, 'node a = (1, 2, 3\n', 'node a = (1, 2, 3)\n'],
    ['syntax.missing', /'='/, 'let a\n', 'let a =\n'],
    ['place.on-centre', /left/, 'node a = (0, 0, 5) + (out 10)\n', 'node a = (0, 0, 5) + (left 10)\n'],
    ['place.on-centre', /right/, 'node a = (0, 0, 5) + (in 10)\n', 'node a = (0, 0, 5) + (right 10)\n'],
    ['kind.unknown', /node/, 'nod a = (0, 600, 0)\n', 'node a = (0, 600, 0)\n'],
    [
      'name.case',
      /Crown/,
      'node Crown = (0, 600, 0)\nnode b = crown + (up 5)\n',
      'node Crown = (0, 600, 0)\nnode b = Crown + (up 5)\n',
    ],
    [
      'syntax.brace',
      /Close/,
      'mirror left {\n  section s {\n    od 30\n    wall 2 # thin\n}\nnode a = (0, 600, 0)\n',
      'mirror left {\n  section s {\n    od 30\n    wall 2 # thin\n}\n}\nnode a = (0, 600, 0)\n',
    ],
  ])('%s', async (code, title, before, after) => {
    expect(await mend(before, code, title)).toBe(after);
  });

  it('keeps the line ends and the indentation of the file', async () => {
    const text = [
      'section t { od 38; wall 2.5 }',
      'mirror left {',
      '  node a = (0, 600, 0)',
      '  node b = (0, 600, 500)',
      '  tube post {',
      '    section t',
      '    path a, b  # upright',
      '    first open',
      '  }',
      '}',
      '',
    ].join('\r\n');
    expect(await mend(text, 'end.loose', /last open/)).toBe(
      text.replace('    first open\r\n', '    first open\r\n    last open\r\n'),
    );
  });

  it('writes the missing vent into the mirror in which its joint stands', async () => {
    const { stage, bad } = explanationOf('space.unvented');
    const text = `${STAGES[stage]}${bad}\n`;
    expect(await mend(text, 'space.unvented', /^Vent bar into hoop/)).toContain(
      'mirror left { node bar-end = on hoop where z = 700; vent bar -> hoop { at bar-end; dia 5 } }',
    );
  });

  it('moves a node onto the centreline that it missed, wherever the node was', async () => {
    const { stage, bad } = explanationOf('place.near-miss');
    expect(await mend(`${STAGES[stage]}${bad}\n`, 'place.near-miss', /^Move a /)).toContain(
      'node a = on hoop nearest (5, 580, 400)',
    );
  });

  it('mends both twins in the mirror in which they are written, in a file in inches', async () => {
    const text = `cage "Mirrored"
units in
section t { size 1 3/4 x .095 }
section thin { size 1 x .095 }
mirror left {
  node low = (0, 24, 0)
  node high = (0, 24, 40)
  node beside = (1/4, 24, 20)
  node far = (-24, 20, 16)
  tube post { section t; path low, high; first open; last open }
  tube stay { section thin; path beside, far; last open }
}
`;
    const moved = await mend(text, 'place.near-miss', /^Move beside onto the centreline of post/);
    expect(moved).toContain('  node beside = on post nearest (1/4, 24, 20)');
    const codes = (await analyse(moved)).findings.map((f) => f.code);
    expect(codes).not.toContain('place.near-miss');
    const meant = await mend(text, 'place.near-miss', /^The offset is meant: first onto post/);
    expect(meant).toContain('tube stay { section thin; path beside, far; last open; first onto post }');
    expect((await analyse(meant)).findings.map((f) => f.code)).not.toContain('place.near-miss');
    // As wide as its host it would hang over its side: nobody can mean that.
    const wide = text.replace('stay { section thin', 'stay { section t');
    expect(await mend(wide, 'place.near-miss', /^The offset is meant/)).toMatch(/^no such fix/);
  });

  it('gives a number the unit of its file where two units meet, whichever side of the sign it stands on', async () => {
    const part = { 'part.cage': 'units in\nlet gap = 2\n' };
    for (const [before, after] of [
      ['let n = gap + 2', 'let n = gap + 2 mm'],
      ['let n = gap - 1 3/4', 'let n = gap - 1 3/4 mm'],
      ['let n = (30 + gap) * 2', 'let n = (30 mm + gap) * 2'],
    ]) {
      const text = `use "part.cage"\n${before ?? ''}\n`;
      const analysis = await analyse(text, part, FILE);
      const [finding] = analysis.findings.filter(({ code }) => code === 'unit.mixed');
      const [offer] = finding === undefined ? [] : fixesFor(finding, analysis);
      if (finding === undefined || offer === undefined) throw new Error(told(analysis.findings).join('\n'));
      const mended = applied(text, resolveFix(offer.id, finding, analysis));
      expect(mended).toBe(`use "part.cage"\n${after ?? ''}\n`);
      expect((await analyse(mended, part, FILE)).findings.map(({ code }) => code)).not.toContain('unit.mixed');
    }
  });

  it('writes lengths in the unit of the file: sixteenths where it is in inches', async () => {
    const car = (units: string, scale: number): string => {
      const at = (...p: readonly number[]): string => `(${p.map((c) => String(c * scale)).join(', ')})`;
      return `units ${units}
section t { od ${String(1.5 * scale)}; wall ${String(0.125 * scale)} }
node a = ${at(0, 24, 0)}
node b = ${at(0, 24, 40)}
node c = ${at(0, 24, 20)}
node d = ${at(0, -24, 20)}
node e = ${at(0, -24, 0)}
node f = ${at(0, -24, 40)}
tube left { section t; path a, b; first open; last open }
tube right { section t; path e, f; first open; last open }
tube bar { section t; path c, d }
`;
    };
    // 5 mm lies nearest to 3/16 in, 4.7625 mm.
    expect(await mend(car('in', 1), 'space.unvented', /^Vent bar into right/)).toContain('at d; dia 3/16 }');
    expect(await mend(car('ft', 1 / 12), 'space.unvented', /^Vent bar into right/)).toContain('at d; dia 3/16 in }');
    expect(await mend(car('mm', 25.4), 'space.unvented', /^Vent bar into right/)).toContain('at d; dia 5 }');
    expect(await mend(car('cm', 2.54), 'space.unvented', /^Vent bar into right/)).toContain('at d; dia 0.5 }');
  });

  it('writes a waiver that waits for its reason, and says so until it is written', async () => {
    const { stage, bad } = explanationOf('space.unvented');
    const text = `${STAGES[stage]}${bad}\n`;
    const waived = await mend(text, 'space.unvented', /^Waive/);
    const analysis = await analyse(waived, {}, FILE);
    expect(analysis.findings.filter(({ code }) => code === 'fact.value').map(({ message }) => message)).toEqual([
      "'because' wants a reason in words.",
    ]);
    expect(count(analysis.findings, 'space.unvented')).toBe(0);
    const signed = waived.replace('reason not written yet', 'drilled last, from below');
    expect((await analyse(signed, {}, FILE)).findings.map(({ code }) => code)).not.toContain('fact.value');
  });

  it('offers no place that would hang on itself', async () => {
    const { stage } = explanationOf('bend.tiny');
    const text = `${STAGES[stage]}node a = (0, 0, 0)
node b = (1, 0, 600)
node c = b + (left 1, up 600)
tube t { section t38; die d38; path a, b, c; first open; last open }
`;
    const analysis = await analyse(text);
    const tiny = analysis.findings.filter((f) => f.code === 'bend.tiny');
    expect(tiny).toHaveLength(1);
    for (const finding of tiny) expect(fixesFor(finding, analysis).map((offer) => offer.id)).toEqual(['waive']);
  });
});
