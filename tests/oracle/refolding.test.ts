// Panels and marks folded back into space: what is cut from flat board by them has its corners where planes meet that are
// laid through the parameters alone.
import { describe, expect, it } from 'vitest';
import { listPanelBodies, type Fitting, type PanelBody } from '../../src/lib/kernel/fitting/fitting.ts';
import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import type { FacePoint, Straight } from '../../src/lib/kernel/straight/straight.ts';
import { build } from '../duct.ts';
import { measureTaper, profileFold, profileShoe, type ReducerParams } from './expected-solids.ts';
import { generateBranch } from './generated-branches.ts';
import type { GeneratedFitting } from './generated-fittings.ts';
import { makeRandom } from './generated-paths.ts';
import { free, measureOverlap } from './manifold.ts';
import { cross, distance, dot, layPlane, meetPlanes, minus, shiftPlane, type Flatness } from './planes.ts';
import {
  measureProfile,
  movePoint,
  placeInPlane,
  PLANES,
  span,
  spanBody,
  type WallName
} from './profiles.ts';

const RUNS = 150;
/** Places that are the same, mm, and angles, degrees. */
const SAME = 1e-6;
const DEGREES = 180 / Math.PI;

type Said = GeneratedFitting['said'];

function* drawFittings(
  seed: number,
  family: string,
  wanted: (params: Said['params']) => boolean
): Generator<{ drawn: GeneratedFitting; fitting: Fitting; t: number; what: string }> {
  const random = makeRandom(seed);
  for (let found = 0; found < RUNS;) {
    const drawn = generateBranch(random, family);
    if (!wanted(drawn.said.params)) continue;
    found++;
    const { fitting } = build(drawn.said, drawn.stock);
    yield { drawn, fitting, t: drawn.stock.board.thickness, what: JSON.stringify(drawn) };
  }
}

/** The corners of a panel where its placement takes them: on the facing, and a thickness below. */
function foldBack({ panel, placement }: PanelBody, t: number): { outer: Vec3[]; inner: Vec3[] } {
  const lay = (points: PanelBody['panel']['outer'], depth: number): Vec3[] =>
    points.map(([clockwise, downstream]) => movePoint(placement, [downstream, -depth, clockwise]));
  return { outer: lay(panel.outer, 0), inner: lay(panel.inner, t) };
}

/** That a placement moves and turns only, and the panel's outline runs against the clock seen from outside. */
function expectFlatPanel({ panel, placement }: PanelBody, what: string): void {
  const { x, y, z } = placement;
  expect(distance(cross(x, y), z), what).toBeLessThan(1e-12);
  for (const [a, b] of [
    [x, y],
    [y, z],
    [z, x]
  ] as const) {
    expect(Math.abs(dot(a, b)), what).toBeLessThan(1e-12);
    expect(Math.abs(dot(a, a) - 1), what).toBeLessThan(1e-12);
  }
  expect(panel.outer[0], what).toEqual([0, 0]);
  expect(measureProfile(panel.outer), what).toBeGreaterThan(0);
  expect(measureProfile(panel.inner), what).toBeGreaterThan(0);
}

const across = (x: number): Flatness => ({ normal: [1, 0, 0], offset: x });

describe('the four panels of a reducer', () => {
  const ORDER: readonly WallName[] = ['top', 'right', 'bottom', 'left'];

  it('fold back to where the planes through its inside rectangles meet, and neighbours share their corner', () => {
    let bare = 0;
    for (const { drawn, fitting, t, what } of drawFittings(1, 'reducer', ({ method }) => method !== 'fold')) {
      const params = drawn.said.params as unknown as ReducerParams;
      const { section } = drawn.said;
      const { up, right, length, begins } = measureTaper(params, section);
      const ring = (x: number, { width, height }: typeof section, y: number, z: number): Vec3[] => [
        [x, y + height / 2, z - width / 2],
        [x, y + height / 2, z + width / 2],
        [x, y - height / 2, z + width / 2],
        [x, y - height / 2, z - width / 2]
      ];
      const from = ring(begins, section, 0, 0);
      const to = ring(begins + length, params.outlet, up, right);
      const inner = ORDER.map((wall, i) => layPlane(from[i]!, from[(i + 1) % 4]!, to[i]!, PLANES[wall].out));
      const outer = inner.map((plane) => shiftPlane(plane, t));
      const panels = listPanelBodies(fitting);
      expect(panels.map(({ name, panel }) => [name, panel.face])).toEqual(
        ORDER.map((wall, i) => [`W${i + 1}`, wall])
      );
      const corner = (side: readonly Flatness[], i: number, x: number): Vec3 =>
        meetPlanes(side[(i + 3) % 4]!, side[i % 4]!, across(x));
      panels.forEach((body, i) => {
        expectFlatPanel(body, what);
        const folded = foldBack(body, t);
        for (const [side, planes] of [
          ['outer', outer],
          ['inner', inner]
        ] as const) {
          const wanted = [
            corner(planes, i, begins),
            corner(planes, i + 1, begins),
            corner(planes, i + 1, begins + length),
            corner(planes, i, begins + length)
          ];
          expect(folded[side], what).toHaveLength(4);
          folded[side].forEach((point, k) => {
            expect(distance(point, wanted[k]!), `${side} ${k} of ${body.name} of ${what}`).toBeLessThan(SAME);
          });
        }
        const next = panels[(i + 1) % 4]!;
        const beside = foldBack(next, t);
        for (const side of ['outer', 'inner'] as const) {
          expect(distance(folded[side][1]!, beside[side][0]!), what).toBeLessThan(SAME);
          expect(distance(folded[side][2]!, beside[side][3]!), what).toBeLessThan(SAME);
        }
        // Each of two neighbours takes half of what their facings turn; its ends are square to the duct, not to the wall.
        const turn = Math.acos(dot(outer[i]!.normal, outer[(i + 1) % 4]!.normal)) * DEGREES;
        expect(Math.abs(body.panel.edges[1]!.bevel - turn / 2), what).toBeLessThan(SAME);
        expect(Math.abs(next.panel.edges[3]!.bevel - turn / 2), what).toBeLessThan(SAME);
        const slope = Math.asin(Math.abs(outer[i]!.normal[0])) * DEGREES;
        for (const end of [0, 2]) {
          expect(Math.abs(body.panel.edges[end]!.bevel - slope), what).toBeLessThan(SAME);
        }
      });
      if (fitting.straights.length === 0) bare++;
    }
    expect(bare).toBeGreaterThan(0);
  });

  it('have the outlines of the worked example: the top of 400 × 250 to 300 × 150, bottom in line, over 400', () => {
    const { fitting } = build({
      family: 'reducer',
      section: { width: 400, height: 250 },
      params: { outlet: { width: 300, height: 150 }, alignY: 'bottom', length: 400 }
    });
    const { panel } = listPanelBodies(fitting)[0]!;
    const rounded = (points: PanelBody['panel']['outer']): number[][] =>
      points.map((point) => point.map((one) => Math.round(one * 1000) / 1000));
    expect(rounded(panel.outer)).toEqual([
      [0, 0],
      [450.389, 0],
      [400.389, 412.311],
      [50, 412.311]
    ]);
    expect(rounded(panel.inner)).toEqual([
      [25.195, 6.25],
      [425.195, 6.25],
      [375.195, 418.561],
      [75.195, 418.561]
    ]);
    expect(panel.edges.map(({ bevel }) => Math.round(bevel * 1000) / 1000)).toEqual([
      14.036, 44.138, 14.036, 44.138
    ]);
  });
});

describe('the five panels of a shoe', () => {
  it('fold back to where the planes of its walls meet', () => {
    for (const { drawn, fitting, t, what } of drawFittings(2, 'takeoff', ({ entry }) => entry === 'shoe')) {
      const params = drawn.said.params as unknown as Parameters<typeof profileShoe>[0] & {
        readonly wall: WallName;
        readonly station: number;
        readonly aside?: number;
      };
      const { wall, station, aside = 0, branch, neck = 200 } = params;
      const { out, aside: beside } = PLANES[wall];
      const { width, height } = drawn.said.section;
      const facing = (wall === 'top' || wall === 'bottom' ? height : width) / 2 + t;
      const { foot } = profileShoe(params, t);
      const at = placeInPlane(PLANES[wall], [station, facing], aside);
      const plane = (normal: Vec3, point: Vec3): Flatness => ({ normal, offset: dot(normal, point) });
      const far = (down: number, away: number): Vec3 => [
        at[0] + down,
        at[1] + out[1] * away,
        at[2] + out[2] * away
      ];
      const half = Math.SQRT1_2;
      const ground = plane(out, at);
      const mouth = shiftPlane(ground, neck);
      const inner = {
        slope: plane([-half, half * out[1], half * out[2]], far(-foot, 0)),
        upright: plane([-1, 0, 0], far(-branch.along / 2, 0)),
        down: plane([1, 0, 0], far(branch.along / 2, 0)),
        one: shiftPlane(plane(beside, at), branch.across / 2),
        other: shiftPlane(plane([0, -beside[1], -beside[2]], at), branch.across / 2)
      };
      const outer = Object.fromEntries(
        Object.entries(inner).map(([name, one]) => [name, shiftPlane(one, t)])
      ) as typeof inner;
      const corners = (side: typeof inner) => {
        const wallBetween = (name: keyof typeof inner, a: Flatness, b: Flatness): Vec3[] =>
          [a, b].flatMap((end) => [side.one, side.other].map((cheek) => meetPlanes(side[name], end, cheek)));
        const cheek = (name: 'one' | 'other'): Vec3[] =>
          [
            [side.slope, ground],
            [side.down, ground],
            [side.down, mouth],
            [side.upright, mouth],
            [side.upright, side.slope]
          ].map(([a, b]) => meetPlanes(a!, b!, side[name]));
        return [
          wallBetween('slope', ground, side.upright),
          wallBetween('upright', side.slope, mouth),
          wallBetween('down', ground, mouth),
          cheek('one'),
          cheek('other')
        ];
      };
      const wanted = { outer: corners(outer), inner: corners(inner) };
      const panels = listPanelBodies(fitting);
      expect(panels.map(({ name }) => name)).toEqual(['W1', 'W2', 'W3', 'W4', 'W5']);
      const left = new Set(wanted.outer.keys());
      for (const body of panels) {
        expectFlatPanel(body, what);
        const folded = foldBack(body, t);
        // Either cheek may come first; the other panels are in order.
        const mine = [...left].find(
          (k) =>
            Math.min(...wanted.outer[k]!.map((point) => distance(point, folded.outer[0]!))) < SAME &&
            wanted.outer[k]!.length === folded.outer.length &&
            folded.outer.every((point) => wanted.outer[k]!.some((one) => distance(point, one) < SAME))
        );
        expect(mine, `${body.name} of ${what}`).toBeDefined();
        left.delete(mine!);
        if (mine! < 3) expect(body.name).toBe(`W${mine! + 1}`);
        folded.outer.forEach((point, i) => {
          const k = wanted.outer[mine!]!.findIndex((one) => distance(point, one) < SAME);
          expect(distance(folded.inner[i]!, wanted.inner[mine!]![k]!), what).toBeLessThan(SAME);
        });
      }
      expect(left.size).toBe(0);
    }
  });
});

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
    for (const { drawn, fitting, t, what } of drawFittings(3, 'reducer', ({ method }) => method === 'fold')) {
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
    for (const { fitting, t, what } of drawFittings(4, family, () => true)) {
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
