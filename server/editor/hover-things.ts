/** Hover on what is neither tube nor strap: nodes, feet, joints, vents, collars, planes, sections, dies, materials, lets. */
import {
  ANGLE,
  degrees,
  FORCE,
  LENGTH,
  MASS,
  PLAIN,
  sameDimension,
  STRESS,
  UNITS,
  type LengthUnit,
} from '../../grammar/units';
import type { Cage, Collar, Die, Foot, Joint, LetValue, Material, Node, Plane, Section, Vent } from '../cage/cage';
import { sectionFigures } from '../geometry/sections';
import type { End, Part, Shape } from '../geometry/shape';
import {
  bothLengths,
  bothMasses,
  code,
  fixed,
  inDegrees,
  inUnit,
  lengthTable,
  NONE,
  otherUnit,
  pointIn,
  list,
} from './figures';
import { boltText, plateText } from './hover-hardware';
import { sizeOf } from './hover-tube';

/** The ends that lie at a node. */
const endsAt = (shape: Shape, node: string): { part: Part; end: End }[] =>
  [...shape.parts.values()].flatMap((part) =>
    part.ends.filter((end) => end.node === node).map((end) => ({ part, end })),
  );

const endLine = ({ part, end }: { part: Part; end: End }): string => {
  const hosts = end.hosts.map(code).join(', ');
  const how =
    end.fit === 'cope'
      ? `coped to ${hosts}, ${inDegrees(end.includedAngle)}`
      : `${end.fit === 'foot' ? 'on foot' : end.fit} ${hosts}`.trim();
  return `- ${end.which} end of ${code(part.name)}, ${how}`;
};

/** A node's coordinates in both systems, how it was placed, and what ends there. */
export const hoverNode = (shape: Shape, node: Node, unit: LengthUnit): string => {
  const title = `**node** ${code(node.name)}`;
  if (node.at === null) return `${title}\n\nIts place cannot be computed.`;
  const [x, y, z] = node.at;
  const coordinates = lengthTable(unit, [
    ['x, forward', x],
    ['y, left', y],
    ['z, up', z],
  ]);
  const on =
    node.on === null
      ? ''
      : `On ${code(node.on.tube)}, ${bothLengths(node.on.station, unit)} along its centreline from its first node.`;
  const miss = node.miss === null ? '' : `The two tubes miss each other by ${bothLengths(node.miss, unit)}.`;
  const ends = endsAt(shape, node.name).map(endLine).join('\n');
  return [title, coordinates, on, miss, ends].filter((text) => text !== '').join('\n\n');
};

export const hoverFoot = (shape: Shape, foot: Foot, unit: LengthUnit): string => {
  const { plate, lies, bolts, hole } = foot;
  const slopes = (aft: number, left: number): string =>
    aft === 0 && left === 0 ? 'level' : `rises ${inDegrees(aft)} aft, ${inDegrees(left)} to the left`;
  const size = (value: number): string => inUnit(value, unit);
  const turned = plate === null || plate.turned === 0 ? '' : `, turned ${inDegrees(plate.turned)}`;
  const rows = [
    [
      'Plate',
      plate === null ? NONE : `${size(plate.long)} x ${size(plate.wide)} x ${size(plate.thick)} ${unit}${turned}`,
    ],
    [
      'Lies',
      lies.kind === 'slopes' ? slopes(lies.aft, lies.left) : lies.kind === 'square' ? 'square across the tube' : NONE,
    ],
    ['Bolts', boltText(bolts, unit)],
    ['Hole', bothLengths(hole, unit)],
    ...(foot.counterPlate === null ? [] : [['Counter-plate', plateText(foot.counterPlate, unit)]]),
    ...(foot.welded === null ? [] : [['Welded to the shell', foot.welded ? 'yes' : 'no']]),
    ...(foot.on === 'frame' ? [['Stands on', 'the frame']] : []),
  ];
  const ends = [...shape.parts.values()].flatMap((part) =>
    part.ends.filter((end) => end.fit === 'foot' && end.hosts.includes(foot.name)).map((end) => ({ part, end })),
  );
  const sawn = ends.map(
    ({ part, end }) =>
      `- ${end.which} end of ${code(part.name)}: saw ${inDegrees(end.sawAngle)} off square, long point at clock ${inDegrees(end.sawClock)}`,
  );
  return [`**foot** ${code(foot.name)} at ${code(foot.node)}`, list(['', ''], rows), sawn.join('\n')]
    .filter((text) => text !== '')
    .join('\n\n');
};

export const hoverJoint = (joint: Joint): string =>
  `**joint** at ${joint.nodes.map(code).join(', ')}\n\nEach is cut to those before it: ${joint.order.map(code).join(', ')}`;

export const hoverVent = (shape: Shape, vent: Vent, unit: LengthUnit): string => {
  const to = vent.to === null ? NONE : typeof vent.to === 'string' ? code(vent.to) : 'the open air';
  const spaces = shape.spaces
    .filter(
      (space) =>
        vent.tube !== null && space.tubes.some((name) => name === vent.tube || name.startsWith(`${vent.tube ?? ''}.`)),
    )
    .map(
      (space) =>
        `The bore of ${space.tubes.map(code).join(', ')} ${space.vented === true ? 'can breathe' : space.vented === false ? 'has no way to breathe' : 'is not known'}.`,
    );
  const dia = bothLengths(vent.dia, unit);
  return [`**vent** from ${code(vent.tube)} to ${to} at ${code(vent.node)}, diameter ${dia}`, ...spaces].join('\n\n');
};

export const hoverCollar = (collar: Collar, unit: LengthUnit): string => {
  const at = collar.at === null ? NONE : `${collar.at.axis} = ${bothLengths(collar.at.value, unit)}`;
  return `**collar** ${code(collar.name)} on ${code(collar.tube)} at ${at}, ${bothLengths(collar.width, unit)} wide`;
};

export const hoverPlane = (plane: Plane, unit: LengthUnit): string => {
  const other = otherUnit(unit);
  const lean = Math.acos(Math.min(1, Math.max(-1, plane.up[2])));
  const [forward, left] = plane.up;
  const toward =
    plane.runs === 'across' ? (forward < 0 ? 'aft' : 'forward') : left > 0 ? 'to the left' : 'to the right';
  const rows = [
    ['At', `${pointIn(plane.at, unit)} ${unit}, ${pointIn(plane.at, other)} ${other}`],
    ['Runs', plane.runs === 'across' ? 'across: pairs are (left, up)' : 'along: pairs are (forward, up)'],
    ['Leans', lean < 1e-9 ? 'upright' : `${inDegrees(lean)} ${toward}`],
  ];
  return `**plane** ${code(plane.name)}\n\n${list(['', ''], rows)}`;
};

const stress = (value: number | null): string => {
  const ksi = UNITS['ksi']?.factor ?? 1;
  return value === null ? 'not known' : `${fixed(value, 0)} MPa (${fixed(value / ksi, 1)} ksi)`;
};

const SHARES = [
  ['Carbon', 'carbon'],
  ['Manganese', 'manganese'],
  ['Any other element', 'others'],
] as const;

export const hoverMaterial = (material: Material): string => {
  const rows = [
    ['Yield', stress(material.yield)],
    ['Tensile', stress(material.tensile)],
    ["Young's modulus", `${fixed(material.modulus / 1000, 0)} GPa`],
    ['Density', material.density === null ? NONE : `${fixed(material.density, 0)} kg/m3`],
    ['Kind', material.kind ?? NONE],
    ...SHARES.flatMap(([label, key]) => {
      const share = material[key];
      return share === null ? [] : [[label, `${String(Number((share * 100).toFixed(4)))} %`]];
    }),
  ];
  const name = material.name === null ? 'mild steel, since none is named' : code(material.name);
  return `**material** ${name}\n\n${list(['', ''], rows)}`;
};

/** One pound is 0.45359237 kg, one foot 0.3048 m (international yard and pound, 1959). */
const massPerLength = (perMetre: number | null): string =>
  perMetre === null ? NONE : `${fixed(perMetre, 3)} kg/m (${fixed((perMetre * 0.3048) / 0.45359237, 3)} lb/ft)`;

export const hoverSection = (name: string, section: Section | null, unit: LengthUnit): string => {
  if (section === null) return `**section** ${code(name)}\n\nIt cannot be computed yet.`;
  const figures = sectionFigures(section.od, section.wall, section.material.density);
  const rows =
    figures === null
      ? []
      : [
          ['Mass', massPerLength(figures.massPerMetre)],
          ['Area', `${fixed(figures.area, 1)} mm²`],
          ['Second moment', `${fixed(figures.secondMoment / 1e4, 3)} cm⁴`],
          ['Torsion constant', `${fixed(figures.torsionConstant / 1e4, 3)} cm⁴`],
          ['Elastic modulus', `${fixed(figures.modulus / 1e3, 3)} cm³`],
        ];
  const all = [
    ['Outside diameter', bothLengths(section.od, unit)],
    ['Wall', bothLengths(section.wall, unit)],
    ['Material', section.material.name === null ? 'mild steel' : code(section.material.name)],
    ...rows,
  ];
  return `**section** ${code(name)}: ${sizeOf(section.od, section.wall, unit)}\n\n${list(['', ''], all)}`;
};

export const hoverDie = (name: string, die: Die | null, unit: LengthUnit): string => {
  if (die === null) return `**die** ${code(name)}\n\nIt cannot be computed yet.`;
  const rows = [
    ['Bends od', bothLengths(die.od, unit)],
    ['Centreline radius', `${bothLengths(die.radius, unit)}, ${fixed(die.radius / die.od, 2)} x od`],
    ['Straight held before the first bend', bothLengths(die.grip, unit)],
    ['Straight held between two bends', bothLengths(die.between, unit)],
    ['Straight held after the last bend', bothLengths(die.follow, unit)],
    ['Over-bend per 90°', die.springback === null ? 'not known' : inDegrees(die.springback)],
  ];
  return `**die** ${code(name)}\n\n${list(['', ''], rows)}`;
};

const asFigure = ({ value, dimension }: LetValue, unit: LengthUnit): string => {
  if (sameDimension(dimension, LENGTH)) return bothLengths(value, unit);
  if (sameDimension(dimension, ANGLE)) return `${fixed(degrees(value), 4)} deg (${fixed(value, 6)} rad)`;
  if (sameDimension(dimension, MASS)) return bothMasses(value);
  if (sameDimension(dimension, STRESS)) return stress(value);
  if (sameDimension(dimension, FORCE)) {
    return `${fixed(value, 1)} N (${fixed(value / (UNITS['lbf']?.factor ?? 1), 1)} lbf)`;
  }
  const exponents = [
    ['mm', dimension.length],
    ['rad', dimension.angle],
    ['kg', dimension.mass],
    ['N', dimension.force],
  ] as const;
  const units = exponents
    .filter(([, power]) => power !== 0)
    .map(([name, power]) => (power === 1 ? name : `${name}^${String(power)}`));
  return `${String(Number(value.toPrecision(9)))} ${units.join(' ')}`.trim();
};

/** What a `let` is worth; a plain number also as the length and the angle that it would be taken for. */
export const hoverLet = (cage: Cage, name: string, unit: LengthUnit): string => {
  const value = cage.lets.get(name)?.value ?? null;
  if (value === null) return `**let** ${code(name)}\n\nIt cannot be computed.`;
  const plain = sameDimension(value.dimension, PLAIN) && value.bare !== null;
  const length = plain && value.bare !== null ? value.value * (UNITS[value.bare]?.factor ?? 1) : null;
  const taken =
    length === null
      ? ''
      : `\n\nA plain number: as a length ${bothLengths(length, value.bare ?? unit)}, as an angle ${fixed(value.value, 4)} deg.`;
  return `**let** ${code(name)} = ${asFigure(value, unit)}${taken}`;
};
