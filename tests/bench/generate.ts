/**
 * Makes cars of any length for the benchmark and for tests of scale: the same roll bar again and again, one car's
 * length apart, so that every module is complete (hoop, stays, harness bar, diagonal, feet, vents, straps) and no two touch.
 */

const HEADER = `cage "A train of invented roll bars"
units mm
rules fia-253, shop
vehicle { mass 980 kg without driver; body closed }
material cds { yield 360 MPa; tensile 480 MPa; kind cold-drawn-seamless }
section hoop { od 45; wall 2.5; material cds }
section bar { od 38; wall 2.5; material cds }
die d45 { od 45; radius 135; grip 90; between 60 }
die d38 { od 38; radius 114; grip 75; between 50 }
`;

const module = (n: number): string => {
  const x = -2600 * n;
  // Every module leans and stands a little differently, so that no cache can serve two of them.
  const lean = 2 + (n % 17) * 0.11;
  const height = 771 + (n % 13) * 0.37;
  return `
# module ${n}
let bar-height-${n} = ${height.toFixed(2)}
plane hoop-${n} { at (${x}, 0, 118); leans ${lean.toFixed(2)} deg aft }
mirror left {
  node foot-${n} = in hoop-${n} (out 596, up 0)
  node waist-${n} = in hoop-${n} (out 622, up 470)
  node crown-${n} = in hoop-${n} (out 455, up 1010)
  node stay-top-${n} = on main-hoop-${n} at 60 before crown-${n}
  node stay-foot-${n} = (${x - 760}, 520, 430)
  node bar-end-${n} = on main-hoop-${n} where z = bar-height-${n}
  tube backstay-${n} as backstay {
    section bar
    path stay-top-${n}, stay-foot-${n}
  }
  foot hoop-foot-${n} {
    at foot-${n}
    plate 140 x 100 x 3
    lies level
    bolts 3 x M8
    hole 8
  }
  foot stay-plate-${n} {
    at stay-foot-${n}
    plate 100 x 60 x 3
    lies square
    bolts 2 x M8
    hole 8
  }
  vent harness-bar-${n} -> main-hoop-${n} {
    at bar-end-${n}
    dia 5
  }
}
tube main-hoop-${n} as main-rollbar {
  section hoop
  die d45
  path foot-${n}.left, waist-${n}.left, crown-${n}.left, crown-${n}.right, waist-${n}.right, foot-${n}.right
}
tube harness-bar-${n} as harness-bar {
  section bar
  path bar-end-${n}.left, bar-end-${n}.right
}
seat driver-${n} {
  hip (${x + 330}, 345, 300)
  recline 15 deg
  slot-height 545
  slot-spacing 220
  back 45
}
strap driver-outer-${n} {
  seat driver-${n}
  slot outer
  to harness-bar-${n}
  width 75
  hardware 110
  collars 20 gap 1.5
}
strap driver-inner-${n} {
  seat driver-${n}
  slot inner
  to harness-bar-${n}
  width 75
  hardware 110
  collars 20 gap 1.5
}
`;
};

/** A car of at least `lines` lines. */
export const generateCar = (lines: number): string => {
  const parts = [HEADER];
  let count = HEADER.split('\n').length - 1;
  for (let n = 0; count < lines; n += 1) {
    const text = module(n);
    parts.push(text);
    count += text.split('\n').length - 1;
  }
  return parts.join('');
};

/** The number that a keystroke of the benchmark changes: the height of one module's harness bar. */
export const editTarget = (text: string, moduleIndex: number): { readonly start: number; readonly end: number } => {
  const marker = `let bar-height-${moduleIndex} = `;
  const start = text.indexOf(marker) + marker.length;
  return { start, end: text.indexOf('\n', start) };
};

/** As many lines of YAML of the same kind of content, for the peer. */
export const generateYaml = (lines: number): string => {
  const parts: string[] = ['title: "A list of invented parts"', 'parts:'];
  for (let n = 0; parts.length < lines; n += 1) {
    parts.push(
      `  - name: part-${n}`,
      `    od: ${38 + (n % 5)}`,
      `    wall: 2.5`,
      `    at: [${n}, ${n * 2}, ${n * 3}]`,
      `    role: ${n % 2 === 0 ? 'brace' : 'diagonal'}`,
    );
  }
  return parts.slice(0, lines).join('\n') + '\n';
};

/** A JSON schema for that YAML. */
export const YAML_SCHEMA = {
  type: 'object',
  required: ['title', 'parts'],
  properties: {
    title: { type: 'string' },
    parts: {
      type: 'array',
      items: {
        type: 'object',
        required: ['name', 'od', 'wall'],
        additionalProperties: false,
        properties: {
          name: { type: 'string', pattern: '^[a-z0-9-]+$' },
          od: { type: 'number', exclusiveMinimum: 0 },
          wall: { type: 'number', exclusiveMinimum: 0 },
          at: { type: 'array', items: { type: 'number' }, minItems: 3, maxItems: 3 },
          role: { enum: ['brace', 'diagonal'] },
        },
      },
    },
  },
} as const;
