/** What all papers share: numbers, what an error touches, hostile names, PDF and DXF of a scene. */
import { PDFDocument, StandardFonts } from '@cantoo/pdf-lib';
import DxfParser from 'dxf-parser';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Scene } from '../../../server/drawing/scene';
import { line, point, text } from '../../../server/drawing/scene';
import { dxfFile } from '../../../server/papers/dxf';
import { isPacketPaper } from '../../../server/papers/packet/marks';
import { pathPart } from '../../../server/papers/packet/numbers';
import type { Packet } from '../../../server/papers/packet/paper';
import { pdfFile } from '../../../server/papers/pdf';
import { drawable, helveticaWidth } from '../../../server/papers/pdf-text';
import { contentHash, packetOf } from '../../../server/project/packet';
import { partNumbers } from '../../../server/papers/packet/numbers';
import { packetInput } from '../../../server/papers/packet/packet';
import { touchedBy } from '../../../server/papers/packet/touched';
import { analyse } from '../../support/analyse';
import { read, rowsOf } from '../support';

const PLOVER = readFileSync('samples/plover-rollbar.cage', 'utf8');

const packetFor = async (source: string): Promise<Packet> =>
  packetOf(await analyse(source), {
    hashOf: (one) => `${String(one.length).padStart(20, '0')}${'a'.repeat(44)}`,
    placeOf: ({ place }) => `${place.file}:@${String(place.span.start)}`,
    maker: 'Cagewright 1.2.3',
  });

const front = ({ papers }: Packet): string => {
  const content = papers.at(-1)?.content;
  return typeof content === 'string' ? content : '';
};

it('numbers the parts by name, says the sides in words, and leaves out what stands in the car', async () => {
  const { shape } = await analyse(PLOVER);
  const numbers = [...partNumbers(shape).values()];
  expect(numbers.map(({ label }) => label)).toEqual([
    '01 backstay LEFT',
    '02 backstay RIGHT',
    '03 diagonal',
    '04 harness-bar',
    '05 main-hoop',
  ]);
  const old = await analyse(PLOVER.replace('tube main-hoop as main-rollbar {', '$&\n  existing yes'));
  expect(old.shape.parts.get('main-hoop')?.tube.existing).toBe(true);
  expect([...partNumbers(old.shape).keys()]).toEqual(['backstay.left', 'backstay.right', 'diagonal', 'harness-bar']);
});

it('makes file names of any name', () => {
  expect(['../../etc/passwd', 'CON', '.hidden', '<b>', '日本', 'a b', ''].map(pathPart)).toEqual([
    'etc-passwd',
    'con',
    'hidden',
    'b',
    'part',
    'a-b',
    'part',
  ]);
});

it('stops the parts that an error touches and those that are cut to them, and no others', async () => {
  const good = await analyse(PLOVER);
  expect(touchedBy(good.findings, good.cage, good.shape).size).toBe(0);
  const error = (subject: string, waived = false) =>
    ({
      ...good.findings[0],
      code: 'syntax.missing',
      severity: 'error',
      waived,
      subject,
      params: {},
    }) as (typeof good.findings)[number];
  const stopped = (subject: string, waived = false): readonly string[] =>
    [...touchedBy([error(subject, waived)], good.cage, good.shape).keys()].sort();
  expect(stopped('harness-bar')).toEqual(['harness-bar']);
  expect(stopped('backstay.left')).toEqual(['backstay.left', 'backstay.right']);
  // All others end on the hoop.
  expect(stopped('main-hoop')).toEqual(['backstay.left', 'backstay.right', 'diagonal', 'harness-bar', 'main-hoop']);
  expect(stopped('harness-bar', true)).toEqual([]);
  // What a price or a book's name is changes no tube.
  const price = { ...error(''), code: 'stock.price' } as const;
  expect(touchedBy([price], good.cage, good.shape).size).toBe(0);
  // A line that cannot be read may have said anything.
  expect(stopped('')).toHaveLength(5);
});

it('stops every part of a circle of names, and what hangs on it by way of others', async () => {
  const packet = await packetFor(`cage "Ring"
units mm
section s { od 38; wall 2.5 }
node a = (0, 0, 300)
node b = (900, 0, 300)
node c = (450, 700, 300)
node ea = on rc at 200 from c
node eb = on ra at 200 from a
node ec = on rb at 200 from b
tube ra { section s; path a, ea; first open }
tube rb { section s; path b, eb; first open }
tube rc { section s; path c, ec; first open }
node far = eb + (up 300)
tube hangs { section s; path a, far; first open; last open }
node d = (0, 500, 300)
tube free { section s; path b, d; first open; last open }
`);
  expect([...packet.errorsTouch].sort()).toEqual(['hangs', 'ra', 'rb', 'rc']);
  // Nothing to cut by, and nothing on a page that looks as if there were.
  expect(packet.papers.flatMap(({ kind, parts }) => (kind === 'two-cut' || kind === 'bend' ? parts : []))).toEqual([
    'free',
  ]);
  const order = String(packet.papers.find(({ kind }) => kind === 'order')?.content);
  for (const label of ['ra', 'rb', 'rc', 'hangs'])
    expect(order).toMatch(new RegExp(`### \\d\\d ${label}\\n\\n- \\[ \\] \\*\\*\\d+\\.\\*\\* \\*\\*STOP`));
});

it('what is wrong in what is told of the shop stops no part, unless its text cannot be read', async () => {
  const stopped = async (more: string): Promise<number> => {
    const { cage, shape, findings } = await analyse(`${PLOVER}\n${more}\n`);
    expect(findings.some(({ severity }) => severity === 'error')).toBe(true);
    return touchedBy(findings, cage, shape).size;
  };
  expect(await stopped('saw { kerf 2 }\nsaw { kerf 3 }')).toBe(0);
  expect(await stopped('torch { nozzle nought }')).toBe(0);
  expect(await stopped('torch { nozzle 16 furlong }')).toBe(0);
  expect(await stopped('stock hoop { length nought }')).toBe(0);
  expect(await stopped('saw { kerf 2 ]')).toBe(5);
  expect(await stopped('lett height = 5')).toBe(5);
});

it('works the welds out once, when they are asked for first', async () => {
  const { cage, shape, findings } = await analyse(PLOVER);
  const input = packetInput({ cage, shape, findings, hash: '', maker: '', placeOf: () => '' });
  expect(input.welds()).toBe(input.welds());
  expect(input.welds().length).toBeGreaterThan(0);
});

it('names each open error on the front page, and gives the parts no template', async () => {
  const packet = await packetFor(PLOVER.replace('section hoop { od 45;', 'section hoop { od 4x5;'));
  expect(packet.errorsTouch.size).toBeGreaterThan(0);
  const page = read(front(packet));
  expect(page.words).toContain('Do not cut these parts');
  for (const row of rowsOf(front(packet), 'Parts that are made'))
    if (row[4]?.includes('Do not cut')) expect(row[2]).toBe('');
  for (const paper of packet.papers.filter(({ kind }) => kind === 'template' || kind === 'two-cut'))
    for (const part of paper.parts) expect(packet.errorsTouch.has(part)).toBe(false);
});

it('stays one page of words whatever the title says', async () => {
  const nasty = `</title><script>alert(1)</script>--><img src=x onerror=alert(1)>`;
  const packet = await packetFor(PLOVER.replace(/^cage ".*"/m, `cage "${nasty}"`));
  const page = read(front(packet));
  expect(page.errors).toEqual([]);
  expect(page.elements.filter(({ tagName }) => ['script', 'img'].includes(tagName))).toEqual([]);
  expect(page.words).toContain(nasty);
  for (const { path } of packet.papers) expect(path).toMatch(/^[a-z0-9.-]+(\/[a-z0-9.-]+)*$/);
  expect(new Set(packet.papers.map(({ path }) => path)).size).toBe(packet.papers.length);
});

it('makes a packet of a car of which nothing is known', async () => {
  for (const source of ['', 'cage "x"', 'tube a { path b, c }', '\0\u202e{{{']) {
    const packet = await packetFor(source);
    expect(read(front(packet)).errors).toEqual([]);
    // What lies there until all papers do: known to the tool, with nothing to go by.
    const page = read(packet.unfinished);
    expect([page.errors, isPacketPaper(packet.unfinished)]).toEqual([[], true]);
    expect(page.words).toContain('STOP: these papers are not whole');
    expect(page.elements.some(({ tagName }) => tagName === 'a')).toBe(false);
  }
});

it('takes one hash of one file, and one of the list of several', async () => {
  const one = await analyse(PLOVER);
  expect(contentHash(one, (text) => `h${String(text.length)}`)).toBe(`h${String(PLOVER.length)}`);
});

const scene: Scene = {
  title: 'A square',
  description: '',
  width: 210,
  height: 297,
  items: [
    line('outline', [point(10, 20), point(110, 20), point(110, 120), point(10, 120)], true),
    { kind: 'circle', style: 'dimension', centre: point(60, 70), radius: 25 },
    { kind: 'arc', style: 'dimension', centre: point(60, 70), radius: 30, from: 0, to: Math.PI / 2 },
    text(point(60, 70), 'Ø 38 → (50 %%c \\ 日本)', 4, { anchor: 'middle' }),
    line('helmet', [point(10, 130), point(110, 130)]),
  ],
};

it('writes a PDF that another library reads: pages of the true size, the mark, no scaling when printed', async () => {
  const bytes = pdfFile([scene, { ...scene, width: 215.9, height: 279.4 }], 'Täst (1) \\');
  expect(pdfFile([scene], 'x')).toEqual(pdfFile([scene], 'x'));
  const latin = Buffer.from(bytes).toString('latin1');
  expect(isPacketPaper(latin)).toBe(true);
  const document = await PDFDocument.load(bytes, { updateMetadata: false });
  const sizes = document.getPages().map((page) => [page.getWidth(), page.getHeight()].map((one) => (one * 25.4) / 72));
  // ISO 216: A4 is 210 x 297 mm; Letter is 8.5 x 11 in.
  const expected = [
    [210, 297],
    [215.9, 279.4],
  ];
  for (const [i, size] of sizes.entries())
    for (const [k, value] of size.entries()) expect(value).toBeCloseTo(expected[i]?.[k] ?? 0, 2);
  expect(document.getTitle()).toBe('Täst (1) \\');
  expect(latin).toContain('/PrintScaling /None');
});

it("measures Helvetica as the library's published metrics have it", async () => {
  const document = await PDFDocument.create();
  const fonts = [
    [await document.embedFont(StandardFonts.Helvetica), false],
    [await document.embedFont(StandardFonts.HelveticaBold), true],
  ] as const;
  const ascii = Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i));
  for (const [font, bold] of fonts)
    for (const sign of [...ascii, '°', '·', '×', '±', 'Ø', 'ø', '½', '–', '—', '…', '•', 'Ä', 'é', 'ö'])
      expect([sign, helveticaWidth(sign, 1000, bold)]).toEqual([sign, Math.round(font.widthOfTextAtSize(sign, 1000))]);
  expect(drawable('日 → ≤ ő')).toBe('? -> <= o');
});

it('writes a DXF that another library reads, at full size with y up', () => {
  const file = dxfFile(scene);
  expect(dxfFile(scene)).toBe(file);
  expect(isPacketPaper(file)).toBe(true);
  const entities = new DxfParser().parseSync(file)?.entities ?? [];
  const kinds = entities.map(({ type }) => type);
  expect(kinds).toEqual(['LWPOLYLINE', 'CIRCLE', 'ARC', 'TEXT', 'LWPOLYLINE']);
  const [outline, circle, arc] = entities as unknown as [
    { vertices: { x: number; y: number }[] },
    { center: { x: number; y: number }; radius: number },
    { startAngle: number; endAngle: number },
  ];
  expect(outline.vertices.map(({ x, y }) => [x, y])).toEqual([
    [10, 277],
    [110, 277],
    [110, 177],
    [10, 177],
    [10, 277],
  ]);
  expect([circle.center.x, circle.center.y, circle.radius]).toEqual([60, 227, 25]);
  // Words by their middle, with the format's own sign for a diameter; a broken line of a line type with its gaps.
  expect(entities[3]).toMatchObject({ halign: 1, endPoint: { x: 60, y: 227 } });
  expect(entities[3]).toHaveProperty('text', expect.stringMatching(/^%%c 38 .*% %c/));
  expect(entities[4]).toHaveProperty('lineType', 'helmet');
  const { pattern } = new DxfParser().parseSync(file)?.tables['lineType']?.lineTypes['helmet'] ?? {};
  expect(pattern?.map(Number)).toEqual([1.6, -0.6]);
  // A quarter clockwise on paper from the right is, with y up, from -90° to 0°.
  const turn = (angle: number): number => Math.round(((angle * 180) / Math.PI + 720) % 360);
  expect([turn(arc.startAngle), turn(arc.endAngle)]).toEqual([270, 0]);
});
