/** What a hover says: figures against closed forms, and a meaning for every word of the language. */
import { describe, expect, it } from 'vitest';
import { KIND_SHAPES, type Part } from '../../grammar/pattern';
import { UNITS } from '../../grammar/units';
import { KINDS, ROLES } from '../../grammar/vocabulary';
import { DIRECTIONS, FUNCTIONS } from '../../grammar/words';
import { hover } from '../../server/editor/hover';
import { analyse } from '../support/analyse';
import { readCursor } from '../support/markers';

const at = async (marked: string): Promise<string> => {
  const { text, cursor } = readCursor(marked);
  const analysis = await analyse(text);
  return hover(analysis, 'example.cage', cursor)?.markdown ?? '';
};

/** A post with an equal tube square on it, level, pointing left: nothing bends. */
const TEE = (child: string): string => `cage "Tee"
units mm
section s { od 45; wall 2.5 }
node low = (0, 0, 0)
node high = (0, 0, 1000)
node mid = (0, 0, 500)
node out = (0, 600, 500)
tube post { section s; path low, high; first open; last open }
tube arm { section s; ${child}; last open }
`;

describe('a hover on an end', () => {
  const row = (markdown: string, clock: string): string[] =>
    (markdown.split('\n').find((line) => line.startsWith(`| ${clock}`) || line.startsWith(`| **${clock}`)) ?? '')
      .split('|')
      .map((cell) => cell.trim())
      .slice(1, -1);

  it('gives the closed form of equal tubes at 90 degrees on sixteen marks', async () => {
    const said = await at(TEE('path <|>mid, out'));
    expect(said).toContain('**First end** of `arm` at `mid`: coped to `post`');
    expect(said).toContain('| Included angle | 90.0° |');
    expect(said).toContain('| Offset of the axes | 0.0 mm (0.000 in) |');
    // Two cylinders of radius R crossing at 90 degrees: a generator at radius ρ and clock φ leaves the host at
    // sqrt(R² - (ρ sin φ)²) (any solid geometry text). The arm is level and the post upright, so φ = 0 is TOP and there the
    // generator meets the post's full radius. A cut through the wall clears the bore's generators, ρ = 20.
    const cut = (phi: number): number => Math.sqrt(22.5 ** 2 - (20 * Math.sin(phi)) ** 2);
    const long = cut(Math.PI / 2);
    for (let mark = 0; mark < 16; mark += 1) {
      const phi = (mark * Math.PI) / 8;
      const cells = row(said, mark === 0 ? '0° TOP' : `${(mark * 22.5).toFixed(1)}°`);
      expect(cells[1]).toBe(((mark * Math.PI * 45) / 16).toFixed(1));
      expect(Number(cells[2])).toBeCloseTo(cut(phi) - long, 0.9);
      expect(Number(cells[3])).toBeCloseTo((cut(phi) - long) / 25.4, 2);
      expect(Number(cells[4])).toBeCloseTo(cut(phi), 0.9);
      expect(Number(cells[5])).toBeCloseTo(Math.abs(22.5 * Math.cos(phi)), 0.9);
    }
    // Depth 22.5 - sqrt(22.5² - 20²) = 12.19; a third of the diameter is 15.0 (common practice, no source): 2.8 too deep.
    expect(said).toContain('| Depth | 12.2 mm (0.480 in) |');
    expect(said).toContain(
      'a third of the diameter | 15.0 mm (0.591 in): off by 2.8 mm (0.111 in), 23 %, too deep here |',
    );
    expect(said).toContain('**TOP**');
    expect(said).toContain('The tube has no bend.');
  });

  it('opens on the first and last node of a path and on the facts `first` and `last`, and nowhere else', async () => {
    expect(await at(TEE('path mid, <|>out'))).toContain('**Last end** of `arm` at `out`: cut square and left open');
    expect(await at(TEE('<|>first onto post; path mid, out'))).toContain('**First end** of `arm`');
    expect(await at(TEE('path mid, out').replace('mid =', 'm<|>id ='))).not.toContain('**First end**');
  });

  it('names FRONT on an upright leg', async () => {
    const said = await at(TEE('path mid, out').replace('path low, high', 'path low, <|>high'));
    expect(said).toContain('Clock 0° is **FRONT**');
    expect(said).toContain('Saw 0.0° off square');
  });

  it('speaks in inches in a file in inches, with millimetres beside', async () => {
    const inches = TEE('path <|>mid, out')
      .replace('units mm', 'units in')
      .replace('od 45; wall 2.5', 'od 1 3/4; wall .095')
      .replaceAll('600', '24');
    const said = await at(inches);
    expect(said).toContain('round, in');
    // A third of 1.75 in.
    expect(said).toContain('| 0.583 in (14.8 mm): ');
  });

  it("says of a mirrored strap or seat that its twin is the mirror image, or which of the twin's figures differ", async () => {
    const car = (more: string): string => `cage "Twins"
units mm
section s { od 38; wall 2.5 }
node bar-a = (0, 600, 700)
node bar-b = (0, -600, 700)
tube bar as harness-bar { section s; path bar-a, bar-b; first open; last open }
mirror left {
  seat place { slots (240, 300, 750); recline 10 deg; slot-spacing 220; back 45 }
  strap be<|>lt { seat place; slot outer; to bar; width 75; hardware 110; collars 20 gap 1.5 }
}
${more}`;
    expect(await at(car(''))).toContain('`belt.right` is its mirror image: the same figures.');
    expect(await at(car('').replace('be<|>lt', 'belt').replace('seat place {', 'seat pl<|>ace {'))).toContain(
      '`place.right` is its mirror image',
    );
    const moved = await at(car('adjust bar-b by (aft 60)\n'));
    expect(moved).toMatch(/`belt\.right` is not its mirror image: drop [\d.]+°, .*length \d/);
  });

  it('says of a mirrored tube that its twin is the mirror image, or how the twin is cut', async () => {
    const car = (more: string): string => `cage "Twins"
units mm
section s { od 45; wall 2.5 }
mirror left {
  node low = (0, 600, 0)
  node high = (0, 600, 1000)
  node root = (0, 600, 500)
  node tail = (-500, 400, 300)
  tube post { section s; path low, high; first open; last open }
  tube arm { section s; path <|>root, tail; last open }
}
${more}`;
    const twins = await at(car(''));
    expect(twins).toContain('`arm.right` is the mirror image: the same cut with clocks negated');
    expect(twins).not.toContain('**First end** of `arm.right`');
    // One side moved: its own figures are shown too.
    const moved = await at(car('adjust tail.right by (up 150)\n'));
    expect(moved).toContain('**First end** of `arm.left`');
    expect(moved).toContain('**First end** of `arm.right`');
    expect(moved).not.toContain('is the mirror image');
    const node = car('adjust tail.right by (up 150)\n').replace('<|>', '').replace('node tail', 'node ta<|>il');
    expect(await at(node)).toContain('`tail.right` is not its mirror image: it lies at (-500.0, -400.0, 450.0) mm.');
  });

  it('shows both ends at a split', async () => {
    const said = await at(
      `${TEE('path mid, out')}node far = (0, -600, 500)\ntube cross { section s; path out, far; <|>split by post }\n`,
    );
    expect(said).toContain('`cross.a`');
    expect(said).toContain('`cross.b`');
  });
});

describe('a hover on a thing', () => {
  it('gives a tube its lengths, bends and mass', async () => {
    // One bend of 90 degrees: arc = 0.017453 · CLR · degrees (handbook bend allowance) = 0.017453 · 100 · 90 = 157.1, the straights
    // 500 - 100 each. Mass per metre of 45 x 2.5 is 2.62 kg (0.0246615 (D - t) t, EN 10219-2): 957.1 mm are 2.51 kg.
    const said = await at(`cage "Bend"
section s { od 45; wall 2.5 }
die d { od 45; radius 100; grip 50 }
node a = (0, 0, 0)
node b = (500, 0, 0)
node c = (500, 500, 0)
tube <|>t { section s; die d; path a, b, c; first open; last open }
`);
    expect(said).toContain('| Centreline | 957.1 | 37.680 |');
    expect(said).toContain('| 1 | `b` | 400.0 | 90.0° | – | 157.1 |');
    expect(said).toContain('Mass 2.51 kg (5.53 lb)');
    expect(said).toContain('Straight after the last bend: 400.0 mm');
  });

  it('gives a node both systems and how far two tubes miss', async () => {
    const said = await at(`cage "Miss"
section s { od 45; wall 2.5 }
node a = (0, 0, 0)
node b = (1000, 0, 0)
node c = (254, -500, 10)
node d = (254, 500, 10)
tube p { section s; path a, b; first open; last open }
tube q { section s; path c, d; first open; last open }
node <|>m = where p meets q
`);
    expect(said).toContain('| x, forward | 254.0 | 10.000 |');
    expect(said).toContain('The two tubes miss each other by 10.0 mm (0.394 in).');
    expect(said).toContain('On `p`, 254.0 mm');
  });

  it('gives only the piece of a split tube that is named', async () => {
    const text = `${TEE('path mid, out')}node far = (0, -600, 500)
tube cross { section s; path out, far; split by post }
vent cross.<|>a -> post { at mid; dia 5 }
`;
    const said = await at(text);
    expect(said).toContain('Piece `cross.a`');
    expect(said).not.toContain('Piece `cross.b`');
  });

  it('shows lengths as an inch tape does, to the nearest sixteenth', async () => {
    // 1 in = 25.4 mm (international yard and pound, 1959): 581.2 mm = 22.882 in, and 14/16 in = 0.875 in is the nearest mark.
    const said = await at('node <|>n = (-581.2, 25.4, 1.5)\n');
    expect(said).toContain('| x, forward | -581.2 | -22.882 | -22 7/8 |');
    expect(said).toContain('| y, left | 25.4 | 1.000 | 1 |');
    expect(said).toContain('| z, up | 1.5 | 0.059 | 1/16 |');
  });

  it('gives a number its worth in both systems, with its own unit or the one that it takes there', async () => {
    expect(await at('section s { od 1 <|>1/2 in }\n')).toContain('38.1 mm (1.500 in), 1 1/2 in on a tape');
    expect(await at('section s { od <|>45 }\n')).toContain('45.0 mm (1.772 in)');
    expect(await at('units in\nnode n = (-16 <|>1/2, 0, 0)\n')).toContain('-16.500 in (-419.1 mm)');
    expect(await at('seat s { hip (<|>275, 0, 0) }\n')).toContain('275.0 mm (10.827 in)');
    expect(await at('seat s { recline <|>15 }\n')).toContain('15.0000 deg (0.261799 rad)');
    expect(await at('foot f { plate 140 x 100 x 3 turned <|>20 }\n')).toContain('20.0000 deg');
    expect(await at('foot f { plate 140 x <|>100 x 3 turned 20 }\n')).toContain('100.0 mm');
    expect(await at('let a = <|>3\n')).toContain('as a length 3.0 mm');
    // What a factor is worth, the product decides; a count has no unit.
    expect(await at('section s { od 2 * <|>20 }\n')).toBe('');
    expect(await at('foot f { bolts <|>3 x M8 }\n')).not.toContain('mm');
  });

  it('gives a plane the way that it leans', async () => {
    expect(await at('plane <|>p { at (0, 0, 100); runs across; leans 6 deg aft }\n')).toContain('6.0° aft');
    expect(await at('plane <|>p { at (0, 500, 0); runs along; leans 6 deg in }\n')).toContain('6.0° to the right');
  });

  it('gives a rulebook its limits and where they are written', async () => {
    const said = await at('cage "x"\nrules <|>fia-253\n');
    expect(said).toContain(
      '| `strap.drop` | allows 0 to 45° | Appendix J, Article 253-6.2, 2013 edition | published |',
    );
    expect(said).toContain('the scrutineer decide');
  });

  it('gives a let its worth in both systems', async () => {
    expect(await at('units in\nlet <|>h = 2 in + 1/2 in\n')).toContain('= 2.500 in (63.5 mm)');
    expect(await at('units in\nlet <|>h = 3 * 2\n')).toContain('as a length 6.000 in (152.4 mm)');
    expect(await at('let <|>tilt = 90 deg\n')).toContain('90.0000 deg (1.570796 rad)');
    expect(await at('let <|>h = 1 / 0\n')).toContain('cannot be computed');
  });

  it('gives a section the figures of its table', async () => {
    // EN 10219-2, 48.3 x 3.2: 3.56 kg/m, A 4.53 cm², I 11.6 cm⁴, Wel 4.80 cm³, It 23.2 cm⁴ (from memory).
    const said = await at('section <|>s { od 48.3; wall 3.2 }\n');
    expect(said).toMatch(/Mass \| 3\.5[56]\d kg\/m/);
    expect(said).toMatch(/Area \| 453\.\d mm²/);
    expect(said).toMatch(/Second moment \| 11\.5[5-9]\d cm⁴|Second moment \| 11\.6\d\d cm⁴/);
    expect(said).toMatch(/Elastic modulus \| 4\.8\d\d cm³|Elastic modulus \| 4\.79\d cm³/);
  });

  it('says in which corner a gusset is drawn, and where the file leaves it open', async () => {
    // A strut that goes down to the left from a post that passes: below it there are 45 degrees, above it 135.
    const post = `units mm
section s { od 40; wall 2 }
node low = (0, 0, 0)
node high = (0, 0, 1000)
node mid = (0, 0, 600)
node out = (0, 500, 100)
tube post { section s; path low, high; first open; last open }
tube strut { section s; path mid, out; last open }
`;
    const gusset = (name: string): string =>
      `gusset ${name} { at mid; between post, strut; legs 80 x 80; thickness 2; kind flat }\n`;
    // The bisector of straight down and 45 degrees down to the left leans by 22.5 degrees: down before left.
    expect(await at(post + gusset('we<|>b'))).toContain(
      '| Corner | 45.0°, opens down and left, taken to be the sharpest of the 2 between them: the file cannot say which |',
    );
    expect(await at(post + gusset('a') + gusset('b<|>b'))).toContain(
      '| Corner | 135.0°, opens left and up, taken to be the second sharpest of the 2 between them',
    );
    const end = post
      .replace('path low, high', 'path low, mid')
      .replace('last open }\ntube strut', 'last past 40 }\ntube strut');
    expect(await at(end + gusset('we<|>b'))).toContain(
      '| Corner | 45.0°, opens down and left, the only one between them |',
    );
    // Where it sits is not known: nothing is said of it.
    expect(await at(post + gusset('we<|>b').replace('legs 80 x 80; ', ''))).not.toContain('Corner');
  });

  it('means the side that is written, or the side of the block', async () => {
    const text = (a: string, b: string): string =>
      `mirror left {\n  node ${a}foot = (0, 600, 0)\n}\nnode top = foot.right + (up ${b}10)\ntube t { path foot.ri<|>ght, top }\n`;
    expect(await at(text('', ''))).toContain('| y, left | -600.0 |');
    const { text: plain } = readCursor(text('', ''));
    const analysis = await analyse(plain);
    expect(hover(analysis, 'example.cage', plain.indexOf('foot'))?.markdown).toContain('| y, left | 600.0 |');
  });

  it('says that what cannot be computed is not known, instead of a number', async () => {
    const said = await at('cage "x"\ntube <|>t { section s; path a, b }\n');
    expect(said).toContain('**tube** `t`');
    expect(said).not.toMatch(/NaN|undefined|null|0\.0 mm/);
  });
});

describe('a hover on a word', () => {
  const words = (part: Part): string[] => {
    switch (part.part) {
      case 'slot':
        return [...part.words];
      case 'literal':
        return [part.word];
      case 'optional':
      case 'list':
        return part.parts.flatMap(words);
      case 'arrow':
      case 'sized':
        return [];
    }
  };

  it('knows every statement, every fact, and every word of their patterns', async () => {
    for (const kind of KINDS) {
      expect(await at(`<|>${kind.name} `), kind.name).toContain(kind.meaning.slice(0, 20));
      const shapes = KIND_SHAPES.get(kind.name);
      for (const fact of kind.facts) {
        expect(await at(`${kind.name} n {\n  <|>${fact.name} 1\n}\n`), `${kind.name} ${fact.name}`).toContain(
          `**${fact.name}** of ${kind.name}`,
        );
        for (const one of (shapes?.facts.get(fact.name)?.shape.pattern ?? []).flat().flatMap(words)) {
          expect(
            await at(`${kind.name} n {\n  ${fact.name} <|>${one}\n}\n`),
            `${kind.name} ${fact.name} ${one}`,
          ).not.toBe('');
        }
      }
      for (const one of (shapes?.head.pattern ?? []).flat().flatMap(words)) {
        expect(await at(`${kind.name} ${kind.target ? 'n = ' : 'n '}<|>${one}\n`), `${kind.name} ${one}`).not.toBe('');
      }
    }
  });

  it('knows roles, units, functions and directions', async () => {
    for (const [role, meaning] of Object.entries(ROLES))
      expect(await at(`tube t as <|>${role} { }`)).toContain(meaning.slice(0, 15));
    for (const [unit, { meaning }] of Object.entries(UNITS)) {
      const letters = unit.replace('kg/m3', '<|>kg/m3');
      const marked = letters.includes('<|>') ? letters : unit === '%' ? '%<|>' : `<|>${unit}`;
      expect(await at(`let a = 12 ${marked}`), unit).toContain(meaning);
    }
    for (const [name, { meaning }] of Object.entries(FUNCTIONS))
      expect(await at(`let a = <|>${name}(1)`)).toContain(meaning.slice(0, 12));
    for (const [name, { meaning }] of Object.entries(DIRECTIONS))
      expect(await at(`node b = a + (<|>${name} 1)`)).toContain(meaning.slice(0, 12));
    for (const one of ['on', 'between', 'meets', 'where', 'mid', 'before', 'after', 'near', 'nearest', 'from']) {
      expect(await at(`node a = on t <|>${one} z`), one).not.toBe('');
    }
  });

  it('tells inches from the direction and the plane', async () => {
    expect(await at('let a = 2 <|>in')).toContain('inch');
    expect(await at('node b = a + (<|>in 2)')).toContain('toward');
    expect(await at('node b = <|>in p (1, 2)')).toContain('plane');
  });

  it('tells a side that is chosen from a direction, and a unit from both', async () => {
    expect(await at('units <|>in\n')).toContain('inch');
    expect(await at('mirror <|>left {\n}\n')).toContain('**mirror**');
    expect(await at('strap s { slot <|>left }\n')).toContain('**slot** of strap');
    expect(await at('plane p { leans 3 deg <|>aft }\n')).toContain('rear of the car');
    expect(await at('material m { kind <|>cold-drawn }\n')).toContain('**kind** of material');
    expect(await at('foot f { bolts 3 x <|>M8 }\n')).toContain('**bolts** of foot');
  });

  it('is silent in comments and strings', async () => {
    expect(await at('# a tu<|>be\n')).toBe('');
    expect(await at('cage "a tu<|>be"\n')).toBe('');
  });
});
