import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../server/centreline/vector';
import { cross, distance, dot, mirrorY, norm, scale } from '../../server/centreline/vector';
import { bendInsideClock, clockFrame, clockOf, endLeg, vectorAt } from '../../server/geometry/clock';
import { anyDirection, line, random } from './joint-maker';

const degrees = (value: number): number => (value * 180) / Math.PI;

/** A leg that leans `lean` degrees from vertical, forward. */
const leaning = (lean: number): Vec3 => [Math.sin((lean * Math.PI) / 180), 0, Math.cos((lean * Math.PI) / 180)];

describe('the zero of the clock', () => {
  it('of a level tube is straight up, TOP', () => {
    const frame = clockFrame([0, -1, 0]);
    expect(frame.zero).toEqual({ vector: [0, 0, 1], name: 'TOP' });
  });

  it('of a leg that leans is across the leg, and of all such directions the highest', () => {
    const roll = random(31);
    for (let i = 0; i < 100; i++) {
      const travel = anyDirection(roll);
      const { zero } = clockFrame(travel);
      const toward: Vec3 = zero.name === 'TOP' ? [0, 0, 1] : [1, 0, 0];
      expect(Math.abs(dot(zero.vector, travel))).toBeLessThan(1e-12);
      expect(norm(zero.vector)).toBeCloseTo(1, 12);
      for (let k = 0; k < 12; k++) {
        const other = vectorAt(clockFrame(travel), (k * Math.PI) / 6);
        expect(dot(zero.vector, toward)).toBeGreaterThanOrEqual(dot(other, toward) - 1e-12);
      }
    }
  });

  it('is FRONT 20 degrees or less from vertical, up or down, and TOP beyond', () => {
    for (const sense of [1, -1]) {
      const upright = clockFrame(scale(leaning(0), sense)).zero;
      expect(upright.name).toBe('FRONT');
      expect(distance(upright.vector, [1, 0, 0])).toBe(0);
      expect(clockFrame(scale(leaning(20), sense)).zero.name).toBe('FRONT');
      expect(clockFrame(scale(leaning(20 + 1e-8), sense)).zero.name).toBe('FRONT');
      expect(clockFrame(scale(leaning(20 + 1e-6), sense)).zero.name).toBe('TOP');
      expect(clockFrame(scale(leaning(45), sense)).zero.name).toBe('TOP');
    }
  });
});

describe('the way the clock goes', () => {
  it('is clockwise for somebody who looks along the tube from its first end', () => {
    // Looking forward with up above, three o'clock is the car's right, -y (ISO 8855).
    const frame = clockFrame([1, 0, 0]);
    expect(frame.quarter).toEqual([0, -1, 0]);
    expect(degrees(clockOf(frame, [0, -1, 0]))).toBeCloseTo(90, 12);
    expect(degrees(clockOf(frame, [0, 1, 0]))).toBeCloseTo(270, 12);
    expect(degrees(clockOf(frame, [0.3, 0, -1]))).toBeCloseTo(180, 12);
  });

  it('is the same at both ends of a straight tube', () => {
    const c = line([
      [0, 400, 100],
      [50, -400, 300],
    ]);
    const first = clockFrame(endLeg(c, 'first').travel);
    const last = clockFrame(endLeg(c, 'last').travel);
    expect(last).toEqual(first);
    expect(distance(endLeg(c, 'last').away, scale(endLeg(c, 'first').away, -1))).toBeLessThan(1e-15);
  });

  it('clockOf undoes vectorAt, and never gives a full turn', () => {
    const roll = random(32);
    for (let i = 0; i < 200; i++) {
      const frame = clockFrame(anyDirection(roll));
      const clock = roll() * 2 * Math.PI;
      expect(clockOf(frame, vectorAt(frame, clock))).toBeCloseTo(clock, 10);
      expect(clockOf(frame, vectorAt(frame, -1e-15))).toBeLessThan(6);
    }
  });

  it('is negated in the mirror', () => {
    const roll = random(33);
    for (let i = 0; i < 100; i++) {
      const travel = anyDirection(roll);
      const direction = anyDirection(roll);
      const clock = clockOf(clockFrame(travel), direction);
      const image = clockOf(clockFrame(mirrorY(travel)), mirrorY(direction));
      expect(Math.cos(clock + image)).toBeCloseTo(1, 12);
    }
  });
});

describe('the inside of the nearest bend', () => {
  // A bar that goes across, then bends down: seen along it from the left end, the inside of the bend is below.
  const c = line(
    [
      [0, 500, 800],
      [0, 0, 800],
      [0, 0, 200],
    ],
    100,
  );

  it('of a bar that bends down is at the bottom', () => {
    const leg = endLeg(c, 'first');
    expect(leg.straight).toBeCloseTo(400, 10);
    expect(degrees(bendInsideClock(c, 'first', clockFrame(leg.travel)) ?? NaN)).toBeCloseTo(180, 9);
  });

  it('at its other, upright end is toward the left, whence it came', () => {
    const leg = endLeg(c, 'last');
    const frame = clockFrame(leg.travel);
    expect(frame.zero.name).toBe('FRONT');
    // Looking down with forward above, as on a map of the car: three o'clock is its right.
    expect(distance(cross(leg.travel, frame.zero.vector), [0, -1, 0])).toBeLessThan(1e-12);
    expect(degrees(bendInsideClock(c, 'last', frame) ?? NaN)).toBeCloseTo(270, 9);
    expect(leg.straight).toBeCloseTo(500, 10);
  });

  it('of a straight tube is nowhere', () => {
    const straight = line([
      [0, 0, 0],
      [0, 100, 0],
    ]);
    expect(bendInsideClock(straight, 'first', clockFrame([0, 1, 0]))).toBeNull();
    expect(endLeg(straight, 'last').straight).toBe(100);
  });
});
