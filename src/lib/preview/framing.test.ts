import { describe, expect, it } from 'vitest';
import { cross, dot, norm, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import { frameView, hasChangedMuch, isInSight, wrapBall, type Axes } from './framing.ts';

const unit = (v: Vec3): Vec3 => scale(v, 1 / norm(v));
const back = unit([-0.62, 0.62, 1]);
const right = unit(cross([0, 1, 0], back));
const sides: Axes[] = [
  { right: [1, 0, 0], up: [0, 1, 0], back: [0, 0, 1] },
  { right, up: cross(back, right), back }
];
const duct: Vec3[] = [0, 1400].flatMap((x) =>
  [-150, 150].flatMap((y) => [-225, 225].map((z): Vec3 => [x, y, z]))
);

/** Where a point is in the picture, as a share of half its width and height. */
function see(
  point: Vec3,
  axes: Axes,
  slopes: { across: number; upward: number },
  look: { target: Vec3; distance: number }
) {
  const off = subtract(point, look.target);
  const depth = look.distance - dot(off, axes.back);
  return [dot(off, axes.right) / depth / slopes.across, dot(off, axes.up) / depth / slopes.upward] as const;
}

describe.each([
  ['a wide view', { across: 0.3, upward: 0.13 }],
  ['a narrow view', { across: 0.08, upward: 0.2 }]
])('in %s', (_, slopes) => {
  it.each(sides.map((axes, i) => [i, axes] as const))(
    'a duct is wholly in sight, as large as it goes and in the middle (side %i)',
    (_, axes) => {
      const look = frameView(duct, axes, slopes);
      const seen = duct.map((point) => see(point, axes, slopes, look));
      const across = seen.map(([x]) => x);
      const upward = seen.map(([, y]) => y);
      expect(Math.max(...across.map(Math.abs), ...upward.map(Math.abs))).toBeCloseTo(1, 6);
      expect(Math.max(...across) + Math.min(...across)).toBeCloseTo(0, 2);
      expect(Math.max(...upward) + Math.min(...upward)).toBeCloseTo(0, 2);
      const { target, distance } = look;
      expect(isInSight(duct, axes, slopes, { target, distance: distance * 1.001 })).toBe(true);
      expect(isInSight(duct, axes, slopes, { target, distance: distance * 0.999 })).toBe(false);
    }
  );
});

it('the ball round a duct is about its middle and holds its corners', () => {
  const { centre, radius } = wrapBall(duct);
  expect(centre).toEqual([700, 0, 0]);
  expect(radius).toBeCloseTo(Math.hypot(700, 150, 225), 9);
});

describe('a duct that is dragged', () => {
  const before = wrapBall(duct);
  it('is not fitted to the view again for a little more length', () => {
    expect(hasChangedMuch(before, wrapBall(duct.map(([x, y, z]) => [x * 1.1, y, z])))).toBe(false);
  });
  it('is fitted again when it is half as long again, or half as long, or somewhere else', () => {
    for (const factor of [1.5, 0.5]) {
      expect(hasChangedMuch(before, wrapBall(duct.map(([x, y, z]) => [x * factor, y, z])))).toBe(true);
    }
    expect(hasChangedMuch(before, wrapBall(duct.map(([x, y, z]) => [x, y + 500, z])))).toBe(true);
  });
});
