/** The camera's arithmetic, against what a photographer and a draughtsman would say. */
import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import {
  basisOf,
  between,
  FIELD,
  FIRST_POSE,
  framed,
  halfHeight,
  lookingFrom,
  panned,
  readPose,
  standard,
  turned,
  viewOf,
  zoomed,
  type Box,
  type Pose,
} from '../../client/view-web/pose';

const near = (a: Vector3, x: number, y: number, z: number) => {
  expect(a.distanceTo(new Vector3(x, y, z))).toBeLessThan(1e-9);
};

/** On the picture, from -1 to 1 to the right and up, by the pinhole's own law: size is height over distance. */
const seen = (pose: Pose, at: Vector3, aspect: number) => {
  const { right, up, toward } = basisOf(pose);
  const from = at.clone().sub(new Vector3(...pose.target));
  const depth = pose.parallel ? pose.distance : pose.distance - from.dot(toward);
  const half = depth * Math.tan(FIELD / 2);
  return { x: from.dot(right) / half / aspect, y: from.dot(up) / half };
};

const CAR: Box = [
  [-900, -650, 60],
  [1300, 650, 1180],
];
const corners = ([low, high]: Box) =>
  [low[0], high[0]].flatMap((x) =>
    [low[1], high[1]].flatMap((y) => [low[2], high[2]].map((z) => new Vector3(x, y, z))),
  );

describe('standard views', () => {
  // Common practice, no source: on a drawing the plan stands over the side view, and forward is to the same hand in both.
  it('lie as on the drawings: forward to the left in plan and side, the car from ahead in front', () => {
    const side = basisOf(standard(FIRST_POSE, 'side'));
    near(side.right, -1, 0, 0);
    near(side.up, 0, 0, 1);
    near(side.toward, 0, 1, 0);
    const plan = basisOf(standard(FIRST_POSE, 'plan'));
    near(plan.right, -1, 0, 0);
    near(plan.up, 0, -1, 0);
    near(plan.toward, 0, 0, 1);
    const front = basisOf(standard(FIRST_POSE, 'front'));
    near(front.right, 0, 1, 0);
    near(front.up, 0, 0, 1);
    near(front.toward, 1, 0, 0);
  });

  it('are told from each other, and a turn of a degree is none of them', () => {
    for (const name of ['plan', 'side', 'front'] as const) {
      expect(viewOf(standard(FIRST_POSE, name))).toBe(name);
      expect(standard(FIRST_POSE, name).parallel).toBe(true);
      expect(viewOf(turned(standard(FIRST_POSE, name), 0.02, 0))).toBe('free');
    }
  });
});

describe('turning', () => {
  it('keeps a right-handed frame of unit vectors in every attitude, straight above too', () => {
    for (let azimuth = -4; azimuth < 8; azimuth += 0.7) {
      for (const elevation of [-2, -1, 0, 0.3, 1.2, 2]) {
        const pose = turned({ ...FIRST_POSE, azimuth: 0, elevation: 0 }, azimuth, elevation);
        const { right, up, toward } = basisOf(pose);
        near(right.clone().cross(up), toward.x, toward.y, toward.z);
        expect(right.length()).toBeCloseTo(1, 12);
        expect(Math.abs(pose.elevation)).toBeLessThanOrEqual(Math.PI / 2);
      }
    }
  });

  it('looks from where it is told', () => {
    const toward = new Vector3(-0.3, 0.8, -0.2).normalize();
    near(basisOf(lookingFrom(FIRST_POSE, toward)).toward, toward.x, toward.y, toward.z);
    expect(lookingFrom(FIRST_POSE, new Vector3(0, 0, 5)).azimuth).toBeCloseTo(FIRST_POSE.azimuth, 12);
  });
});

describe('framing', () => {
  for (const parallel of [true, false]) {
    for (const aspect of [0.4, 1, 2.2]) {
      it(`shows all of the car and touches the margin, ${parallel ? 'parallel' : 'perspective'}, ${String(aspect)} : 1`, () => {
        const pose = framed({ ...FIRST_POSE, parallel }, [CAR], aspect);
        const at = corners(CAR).map((corner) => seen(pose, corner, aspect));
        const most = Math.max(...at.map(({ x, y }) => Math.max(Math.abs(x), Math.abs(y))));
        expect(most).toBeLessThan(1);
        expect(most).toBeGreaterThan(0.9);
      });
    }
  }

  it('does not go nearer to a small thing than its surroundings need', () => {
    const pose = framed(FIRST_POSE, [[CAR[0], [-899, -649, 61]]], 1);
    expect(pose.distance).toBe(1100);
  });

  it('leaves the camera when there is nothing', () => {
    expect(framed(FIRST_POSE, [], 1)).toBe(FIRST_POSE);
  });
});

describe('a hand', () => {
  it('zooms so that what is under the pointer stays there', () => {
    const { right, up } = basisOf(FIRST_POSE);
    const half = halfHeight(FIRST_POSE);
    const under = new Vector3(...FIRST_POSE.target)
      .addScaledVector(right, 0.5 * half * 1.5)
      .addScaledVector(up, -0.7 * half);
    for (const factor of [0.2, 0.9, 3]) {
      const { x, y } = seen(zoomed(FIRST_POSE, factor, 0.5, -0.7, 1.5), under, 1.5);
      expect(x).toBeCloseTo(0.5, 9);
      expect(y).toBeCloseTo(-0.7, 9);
    }
  });

  it('pans by the pixels that it moved', () => {
    const target = new Vector3(...FIRST_POSE.target);
    const { x, y } = seen(panned(FIRST_POSE, 30, 40, 800), target, 1);
    expect((x * 800) / 2).toBeCloseTo(30, 6);
    expect((y * 800) / 2).toBeCloseTo(-40, 6);
  });

  it('glides the short way round and ends where it was sent', () => {
    const from: Pose = { ...FIRST_POSE, azimuth: 0.1 };
    const to: Pose = { ...FIRST_POSE, azimuth: 2 * Math.PI - 0.1, distance: 900 };
    expect(between(from, to, 0.5).azimuth).toBeCloseTo(0, 9);
    expect(between(from, to, 1).distance).toBeCloseTo(900, 9);
  });
});

describe('what was kept', () => {
  it('comes back as it was', () => {
    expect(readPose(JSON.parse(JSON.stringify(FIRST_POSE)))).toEqual(FIRST_POSE);
  });

  it('is dropped when it is no pose', () => {
    const wrong: readonly unknown[] = [
      null,
      7,
      [],
      {},
      { ...FIRST_POSE, target: [0, 0] },
      { ...FIRST_POSE, target: [0, 0, NaN] },
      { ...FIRST_POSE, target: [0, 0, 1e9] },
      { ...FIRST_POSE, distance: 0 },
      { ...FIRST_POSE, distance: Infinity },
      { ...FIRST_POSE, elevation: 3 },
      { ...FIRST_POSE, azimuth: '1' },
      { ...FIRST_POSE, parallel: 1 },
    ];
    for (const one of wrong) expect(readPose(one)).toBeNull();
  });
});
