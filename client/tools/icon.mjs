/** Draws the extension's icon (client/media/icon.png): a hoop with its stays, diagonal and harness bar, seen from behind. */
import { Buffer } from 'node:buffer';
import { writeFileSync } from 'node:fs';
import { deflateSync } from 'node:zlib';

const SIZE = 256;
const BACKGROUND = [31, 41, 51];
const TUBE = [245, 158, 11];
const BAR = [226, 232, 240];

/** Distance from a point to a segment. */
const toSegment = (x, y, [ax, ay, bx, by]) => {
  const [dx, dy] = [bx - ax, by - ay];
  const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
};

/** Points of a polyline with its corners rounded by quadratic arcs. */
const rounded = (points, cut) => {
  const path = [points[0]];
  for (let i = 1; i < points.length - 1; i += 1) {
    const [a, b, c] = [points[i - 1], points[i], points[i + 1]];
    const toward = (p) => {
      const length = Math.hypot(p[0] - b[0], p[1] - b[1]);
      return [b[0] + ((p[0] - b[0]) * cut) / length, b[1] + ((p[1] - b[1]) * cut) / length];
    };
    const [p, q] = [toward(a), toward(c)];
    for (let k = 0; k <= 12; k += 1) {
      const t = k / 12;
      const mix = (n) => (1 - t) ** 2 * p[n] + 2 * t * (1 - t) * b[n] + t * t * q[n];
      path.push([mix(0), mix(1)]);
    }
  }
  path.push(points.at(-1));
  return path.slice(1).map((p, i) => [...path[i], ...p]);
};

const hoop = rounded(
  [
    [58, 222],
    [46, 118],
    [84, 38],
    [172, 38],
    [210, 118],
    [198, 222],
  ],
  34,
);
const bars = [
  [50, 136, 206, 136],
  [56, 206, 166, 62],
];

const blend = (under, over, share) => under.map((value, i) => value + (over[i] - value) * share);
/** Coverage of a stroke of the given width, half a pixel soft. */
const stroke = (distance, width) => Math.min(1, Math.max(0, width / 2 - distance + 0.5));

const pixel = (x, y) => {
  const near = (segments) => Math.min(...segments.map((segment) => toSegment(x, y, segment)));
  const edge = Math.max(Math.abs(x - 128) - 96, 0) ** 2 + Math.max(Math.abs(y - 128) - 96, 0) ** 2;
  const alpha = Math.min(1, Math.max(0, 32.5 - Math.sqrt(edge)));
  let colour = blend(BACKGROUND, BAR, stroke(near(bars), 13));
  colour = blend(colour, BACKGROUND, stroke(near(hoop), 27));
  colour = blend(colour, TUBE, stroke(near(hoop), 19));
  return [...colour.map(Math.round), Math.round(alpha * 255)];
};

const rows = [];
for (let y = 0; y < SIZE; y += 1) {
  const row = [0];
  for (let x = 0; x < SIZE; x += 1) row.push(...pixel(x + 0.5, y + 0.5));
  rows.push(Buffer.from(row));
}

/** CRC-32 of ISO 3309, as the PNG specification wants it (W3C PNG, annex D). */
const crc = (bytes) => {
  let value = 0xffffffff;
  for (const byte of bytes) {
    value ^= byte;
    for (let k = 0; k < 8; k += 1) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  }
  return (value ^ 0xffffffff) >>> 0;
};

const chunk = (type, data) => {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE(crc(body));
  return Buffer.concat([length, body, check]);
};

const header = Buffer.alloc(13);
header.writeUInt32BE(SIZE, 0);
header.writeUInt32BE(SIZE, 4);
header.set([8, 6, 0, 0, 0], 8);

writeFileSync(
  new URL('../media/icon.png', import.meta.url),
  Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.concat(rows), { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]),
);
