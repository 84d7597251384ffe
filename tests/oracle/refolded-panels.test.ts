// Panels folded back into space: what is cut from flat board by them has its corners where planes meet that are laid
// through the parameters alone.
import { describe, expect, it } from 'vitest';
import { listPanelBodies, type PanelBody } from '../../src/lib/kernel/fitting/fitting.ts';
import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import { build } from '../duct.ts';
import { measureTaper, type ReducerParams } from './expected-reducer.ts';
import { profileShoe } from './expected-takeoff.ts';
import { drawFittings } from './generated-branches.ts';
import { cross, distance, dot, layPlane, meetPlanes, shiftPlane, type Flatness } from './planes.ts';
import { measureProfile, movePoint, placeInPlane, PLANES, type WallName } from './profiles.ts';

const RUNS = 150;
/** Places that are the same, mm, and angles, degrees. */
const SAME = 1e-6;
const DEGREES = 180 / Math.PI;

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
    for (const { drawn, fitting, t, what } of drawFittings(
      { seed: 1, runs: RUNS },
      'reducer',
      ({ method }) => method !== 'fold'
    )) {
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
    for (const { drawn, fitting, t, what } of drawFittings(
      { seed: 2, runs: RUNS },
      'takeoff',
      ({ entry }) => entry === 'shoe'
    )) {
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
