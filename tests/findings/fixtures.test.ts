/**
 * One file for each code, `CODE.cage`, with every finding that it must have at its exact place; and `CODE.inside.cage`,
 * just inside the limit, where a code measures. Both ways: what is annotated is found, what is found is annotated.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Code } from '../../grammar/codes';
import { CODES, RULE_CODES } from '../../grammar/codes';
import { analyse, told } from '../support/analyse';
import { compared, readAnnotated } from '../support/annotated';

const folder = join(__dirname, 'fixtures');
const names = readdirSync(folder)
  .filter((name) => name.endsWith('.cage'))
  .sort();
const codeOf = (name: string): string => name.replace(/\.inside|\.[a-z-]+\.also/, '').replace(/\.cage$/, '');

/** Codes whose finding compares a figure with a limit. */
const MEASURING: readonly Code[] = [
  'syntax.nesting',
  'section.wall',
  'cope.past-host-end',
  'cope.buried',
  'strap.misses-bar',
  'place.near-miss',
  'bend.die-diameter',
  'bend.overlap',
  'bend.radius',
  'bend.between',
  'bend.tiny',
  'bend.rotation-tiny',
  'cope.overhang',
  'cope.shallow',
  'cope.into-own-bend',
  'cope.on-bend',
  'tube.clash',
  'foot.outside-plate',
  'vent.too-large',
  'vent.outside-joint',
  'strap.drop',
  'strap.spread',
  'strap.skew',
  'strap.free-run',
  'strap.length',
  'strap.on-bend',
  'strap.overlap',
  'strap.can-slide',
  'strap.slot-edge',
  'seat.gap',
];

describe('every code has its fixture', () => {
  // Rules have theirs at their limits, with the book: tests/rules.
  const plain = Object.keys(CODES).filter((code) => !Object.hasOwn(RULE_CODES, code) || names.includes(`${code}.cage`));

  it.each(plain)('%s', (code) => {
    expect(names).toContain(`${code}.cage`);
    const { wanted } = readAnnotated(readFileSync(join(folder, `${code}.cage`), 'utf8'));
    expect(wanted.map((w) => w.code)).toContain(code);
  });

  it.each(MEASURING)('%s has one just inside the limit', (code) => {
    expect(names).toContain(`${code}.inside.cage`);
    const { wanted } = readAnnotated(readFileSync(join(folder, `${code}.inside.cage`), 'utf8'));
    expect(wanted.map((w) => w.code)).not.toContain(code);
  });

  it('has no fixture of a code that is gone', () => {
    const known: readonly string[] = Object.keys(CODES);
    expect(names.map(codeOf).filter((code) => !known.includes(code))).toEqual([]);
  });
});

describe('findings are at their places, and no others are', () => {
  it.each(names)('%s', async (name) => {
    const { text, files, wanted } = readAnnotated(readFileSync(join(folder, name), 'utf8'));
    const { findings } = await analyse(text, files);
    const both = compared(wanted, findings);
    expect(both.found, told(findings).join('\n')).toEqual(both.wanted);
    for (const { message, notes } of findings) {
      for (const sentence of [message, ...notes.map((note) => note.message)]) {
        expect(sentence).not.toMatch(/undefined|null|NaN|\[object|\{\w+\}/);
        expect(sentence.length).toBeGreaterThan(5);
      }
    }
  });
});
