// Marks folded back into space: the folded reducer has its corners where its marks say, and openings are where walls have them.
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import type { FacePoint, Straight } from '../../src/lib/kernel/straight/straight.ts';
import { measureTaper, profileFold, type ReducerParams } from './expected-reducer.ts';
import { drawFittings } from './generated-branches.ts';
import { free, measureOverlap } from './manifold.ts';
import { distance, minus } from './planes.ts';
import { movePoint, placeInPlane, PLANES, span, spanBody, type WallName } from './profiles.ts';

const RUNS = 150;
/** Places that are the same, mm, and angles, degrees. */
const SAME = 1e-6;
const DEGREES = 180 / Math.PI;

/** Where a point of a face lies in the straight's frame, so deep under the facing. */
function placeOnFace({ section, thickness }: Straight, face: WallName, [x, u]: FacePoint, depth = 0): Vec3 {
  const isSide = face === 'left' || face === 'right';
  const [wide, high] = [section.width / 2 + thickness, section.height / 2 + thickness];
  // Measured from the left edge on top and bottom, from the top edge on the sides.
  return placeInPlane(PLANES[face], [x, (isSide ? wide : high) - depth], isSide ? high - u : u - wide);
}

describe('a straight marked to be folded down', () => {
  it('has its slope, its groove, its wedge and its cheeks meet where the reducer has its corners', () => {
    let turned = 0;
    for (const { drawn, fitting, t, what } of drawFittings(
      { seed: 3, runs: RUNS },
      'reducer',
      ({ method }) => method === 'fold'
    )) {
      const params = drawn.said.params as unknown as ReducerParams;
      const profile = profileFold(params, drawn.said.section, t);
      const [straight] = fitting.straights;
      const [body] = fitting.bodies;
      const { marks } = straight!;
      const groove = marks.find(({ kind }) => kind === 'groove')!;
      const { face } = groove;
      const cuts = marks.filter((mark) => mark.kind === 'cut' && mark.face === face);
      const cheeks = marks.filter((mark) => mark.kind === 'cut' && mark.face !== face);
      const slits = marks.filter(({ kind }) => kind === 'slit');
      expect([cuts.length, cheeks.length, slits.length], what).toEqual([2, 4, 2]);
      const [before, after] = cuts.sort((a, b) => a.from[0] - b.from[0]) as [
        (typeof cuts)[0],
        (typeof cuts)[0]
      ];
      const begins = groove.from[0];
      const slope = 2 * groove.bevel * (Math.PI / 180);
      const ends = begins + (before.from[0] - begins) * Math.cos(slope);
      /** A point of the sloping wall as it lies flat, before or after the wedge, and where the fold takes it. */
      const fold = ([x, u]: FacePoint, depth: number, part: 'flat' | 'slope' | 'end'): Vec3 => {
        if (part === 'flat') return placeOnFace(straight!, face, [x, u], depth);
        const [cosine, sine] = [Math.cos(slope), Math.sin(slope)];
        const [along, fall] =
          part === 'slope'
            ? [begins + (x - begins) * cosine - depth * sine, (x - begins) * sine + depth * cosine]
            : [ends + (x - after.from[0]), (before.from[0] - begins) * sine + depth];
        return placeOnFace(straight!, face, [along, u], fall);
      };
      const isSide = face === 'left' || face === 'right';
      const whole = (isSide ? straight!.section.height : straight!.section.width) + 2 * t;
      const corners = (outline: typeof profile.outer, reach: number): Vec3[] =>
        outline.flatMap((point) =>
          [-reach, reach].map((aside) =>
            // The profile is out of the inlet's axis, whatever the outlet's.
            placeInPlane(PLANES[profile.wall], point, aside)
          )
        );
      const wanted = {
        outer: corners(profile.outer, profile.half + t),
        inner: corners(profile.inner, profile.half)
      };
      const hit = new Set<number>();
      const expectCorner = (point: Vec3, side: 'outer' | 'inner', name: string): void => {
        const placed = movePoint(body!.placement, point);
        const apart = wanted[side].map((corner) => distance(corner, placed));
        const nearest = apart.indexOf(Math.min(...apart));
        expect(apart[nearest], `${name} of ${what}`).toBeLessThan(SAME);
        if (side === 'outer') hit.add(nearest);
      };
      for (const u of [0, whole]) {
        const inside = u === 0 ? t : whole - t;
        expectCorner(fold([begins, u], 0, 'flat'), 'outer', 'groove');
        expectCorner(fold([before.from[0], u], 0, 'slope'), 'outer', 'end of the slope');
        expectCorner(fold([after.from[0], u], 0, 'end'), 'outer', 'beginning of the end');
        const side = t * Math.tan(groove.bevel / DEGREES);
        expectCorner(fold([begins - side, inside], t, 'flat'), 'inner', 'groove before');
        expectCorner(fold([begins + side, inside], t, 'slope'), 'inner', 'groove behind');
        // A blade whose top leans upstream comes out downstream on the inside.
        const through = ({ from, bevel, lean }: typeof before): number =>
          from[0] + (lean === 'upstream' ? 1 : -1) * t * Math.tan(bevel / DEGREES);
        expectCorner(fold([through(before), inside], t, 'slope'), 'inner', 'wedge before');
        expectCorner(fold([through(after), inside], t, 'end'), 'inner', 'wedge behind');
      }
      for (const { face: cheek, from, to, bevel } of cheeks) {
        expect(bevel).toBe(45);
        expectCorner(placeOnFace(straight!, cheek, from), 'outer', `slope of the ${cheek}`);
        expectCorner(placeOnFace(straight!, cheek, to), 'outer', `slope of the ${cheek}`);
      }
      // The two bends of the slope and its far end, on both cheeks.
      expect(hit.size, what).toBe(6);
      expect(slits.map(({ from }) => from[1]).sort((a, b) => a - b)).toEqual([0, whole]);
      for (const { from } of slits) expect(Math.abs(from[0] - begins), what).toBeLessThan(SAME);
      // What the wall is short of is trimmed off the three others, or closed by a strip.
      const { length, drops } = measureTaper(params, drawn.said.section);
      const drop = Math.max(...Object.values(drops).map(Math.abs));
      const short = Math.hypot(length, drop) - length + 2 * t * Math.tan(Math.atan2(drop, length) / 2);
      expect(Math.abs(after.from[0] - ends - short), what).toBeLessThan(SAME);
      const isTrimmed = params.finish === 'trim';
      const total = profile.whole + (isTrimmed ? short : 0);
      expect(Math.abs(straight!.length - total), what).toBeLessThan(SAME);
      const trims = marks.filter(({ kind }) => kind === 'trim');
      expect(trims, what).toHaveLength(isTrimmed ? 3 : 0);
      for (const { from, to } of trims) {
        expect(Math.abs(from[0] - profile.whole), what).toBeLessThan(SAME);
        expect(Math.abs(to[0] - profile.whole), what).toBeLessThan(SAME);
      }
      for (const { to } of slits) expect(Math.abs(to[0] - total), what).toBeLessThan(SAME);
      if (body!.placement.x[0] < 0) turned++;
    }
    expect(turned).toBeGreaterThan(RUNS / 5);
  });
});

describe.each(['takeoff', 'opening', 'box'])('the openings that are marked on a %s', (family) => {
  it('are those that its walls have, as deep as they are thick, with the bevels that are told', () => {
    let openings = 0;
    for (const { fitting, t, what } of drawFittings({ seed: 4, runs: RUNS }, family, () => true)) {
      const [straight] = fitting.straights;
      const pieces = fitting.bodies.filter(
        (body) => body.kind === 'piece' && body.straight === straight!.name
      );
      const walls = pieces.flatMap((body) => spanBody(body));
      const board = walls.reduce((sum, wall) => sum + wall.volume(), 0);
      let taken = 0;
      for (const { face, outer, inner, edges, circle } of straight!.openings) {
        const hole = span([
          ...outer.map((point) => placeOnFace(straight!, face, point)),
          ...inner.map((point) => placeOnFace(straight!, face, point, t))
        ]);
        if (circle) {
          const [a, b] = [circle.outer, circle.inner];
          taken += (Math.PI * t * (a * a + a * b + b * b)) / 3;
          for (const [ring, radius] of [
            [outer, a],
            [inner, b]
          ] as const) {
            for (const [x, u] of ring) {
              expect(Math.abs(Math.hypot(x - circle.at[0], u - circle.at[1]) - radius)).toBeLessThan(SAME);
            }
          }
          const lip = Math.atan2(Math.abs(a - b), t) * DEGREES;
          for (const { bevel } of edges) expect(Math.abs(Math.abs(bevel) - lip)).toBeLessThan(SAME);
        } else {
          taken += hole.volume();
          const shared = walls.reduce((sum, wall) => sum + measureOverlap(wall, hole), 0);
          expect(shared / board, what).toBeLessThan(1e-6);
          outer.forEach(([x, u], i) => {
            const [v, w] = outer[(i + 1) % outer.length]!;
            const away = minus([inner[i]![0], inner[i]![1], 0], [x, u, 0]);
            const run = Math.hypot(v - x, w - u);
            const lip = Math.abs(away[0] * (w - u) - away[1] * (v - x)) / run;
            const tilt = Math.atan2(lip, t) * DEGREES;
            expect(Math.abs(Math.abs(edges[i]!.bevel) - tilt), what).toBeLessThan(SAME);
          });
        }
        hole.delete();
        openings++;
      }
      const { width, height } = straight!.section;
      const tube = ((width + 2 * t) * (height + 2 * t) - width * height) * straight!.length;
      expect(Math.abs((board + taken) / tube - 1), what).toBeLessThan(1e-6);
      free(walls);
    }
    expect(openings).toBeGreaterThanOrEqual(RUNS);
  });
});
