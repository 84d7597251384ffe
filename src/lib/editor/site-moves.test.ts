import { describe, expect, it } from 'vitest';
import { build } from '../../../tests/duct.ts';
import { LENGTH_SNAP } from '../kernel/families/snap.ts';
import { placeObstacle, type Obstacle } from '../kernel/site/site.ts';
import { findView } from '../figures/view.ts';
import { listLevels, listSeenAxes, moveBox, moveEnd, moveSide, SIDES, spanBox } from './site-moves.ts';

// 450 × 300 outside: the top is 150 above the axis, the right side 225 from it.
const { fitting } = build({
  family: 'straight',
  section: { width: 400, height: 250 },
  params: { length: 1003 }
});
const detour = build({
  family: 'double-offset',
  section: { width: 400, height: 250 },
  params: { rise: -300, turn: 45, level: 320, throatIn: 450, throatOut: 400 }
}).fitting;

const MM = LENGTH_SNAP.mm;
const ELEVATION = listSeenAxes(findView('elevation', null));
const WANTED = 30;
const beam: Obstacle = { name: 'beam', kind: 'beam', min: [403, 211, -1000], max: [603, 611, 1000] };
const side = (name: string) => SIDES.find((one) => one.name === name)!;

describe('a box that is dragged', () => {
  const move = (by: readonly [number, number, number], lengths: typeof MM | null = MM, box = beam) =>
    moveBox(box, by, ELEVATION, fitting, WANTED, lengths);

  it('goes to steps of 5 mm and stays as large as it was', () => {
    const { to, reason } = move([11, 21, 0]);
    expect([to.min, to.max, reason]).toEqual([[415, 230, -1000], [615, 630, 1000], null]);
  });

  it('goes nowhere along the eye', () => {
    expect(move([11, 21, 700]).to.min[2]).toBe(-1000);
  });

  it('lies just as near to the top of the duct as it may, and says so', () => {
    // 150 + 30.
    const { to, reason } = move([0, -20, 0]);
    expect([to.min[1], reason]).toEqual([180, 'clearance']);
  });

  it('lies under the duct just as near', () => {
    // Its top at −150 − 30, 400 above its underside.
    const { to, reason } = move([0, -788, 0]);
    expect([to.max[1], to.min[1], reason]).toEqual([-180, -580, 'clearance']);
  });

  it('snaps to a round number and says so', () => {
    expect(move([95, 40, 0])).toMatchObject({ to: { min: [500, 250, -1000] }, reason: 'round' });
  });

  it('goes anywhere while it is free', () => {
    expect(move([1.25, -20, 0], null)).toMatchObject({ to: { min: [404.25, 191, -1000] }, reason: null });
  });

  it('does not snap a turned side to the duct, which is not square to it', () => {
    const turned = { ...beam, min: [403, 700, 211], max: [603, 900, 411], turn: 30 } as const;
    const seen = listSeenAxes(findView('plan', null));
    expect(moveBox(turned, [0, 0, 42], seen, fitting, WANTED, MM).reason).not.toBe('clearance');
  });
});

describe('a side of a box that is dragged', () => {
  const moveTo = (name: string, outward: number, box = beam) =>
    moveSide(box, side(name), outward, fitting, WANTED, MM);

  it('goes outward and leaves the others where they are', () => {
    const { to } = moveTo('far', 20);
    expect([to.min, to.max]).toEqual([beam.min, [625, 611, 1000]]);
  });

  it('comes as near to the duct as it may', () => {
    expect(moveTo('under', 35)).toMatchObject({ to: { min: [403, 180, -1000] }, reason: 'clearance' });
  });

  it('never passes the one opposite', () => {
    expect(moveTo('far', -900).to.max[0]).toBe(408);
    expect(moveTo('near', -900).to.min[0]).toBe(598);
  });

  it('of a turned box leaves the one opposite where it is in the room', () => {
    const turned: Obstacle = { ...beam, min: [400, 200, -100], max: [600, 600, 100], turn: 30 };
    const { to } = moveTo('far', 48, turned);
    expect(Math.abs(to.max[0] - to.min[0] - 250)).toBeLessThan(1e-9);
    // The four corners of the near side are the first ones.
    const near = (box: Obstacle) => placeObstacle(box).corners.slice(0, 4);
    near(to).forEach((corner, i) =>
      corner.forEach((value, axis) => expect(Math.abs(value - near(turned)[i]![axis]!)).toBeLessThan(2e-3))
    );
  });
});

describe('the end that is dragged', () => {
  const at = [1200, -40, null] as const;
  const end = { at, flow: [1, 0, 0], up: [0, 1, 0] } as const;
  const axes = listSeenAxes(findView('true', fitting));

  it('goes to where the fitting ends, and what is free stays free', () => {
    const moved = moveEnd(end, [-200, 45, 0], axes, fitting, MM);
    expect(moved).toEqual({ to: [1003, 0, null], reason: 'outlet' });
  });

  it('goes to steps elsewhere', () => {
    expect(moveEnd(end, [117, 3, 0], axes, fitting, MM)).toEqual({ to: [1315, -35, null], reason: null });
  });
});

describe('the levels of a duct', () => {
  it('are those of its outside faces that are square to an axis, each once', () => {
    expect(listLevels(fitting, 1, 1)).toEqual([150]);
    expect(listLevels(fitting, 2, -1)).toEqual([-225]);
    expect(listLevels(fitting, 0, 1)).toEqual([]);
    const tops = listLevels(detour, 1, 1).map((level) => Math.round(level * 1e6) / 1e6);
    expect([...new Set(tops)].sort((a, b) => a - b)).toEqual([-150, 150]);
  });
});

describe('a box that is drawn', () => {
  it('spans from corner to corner however it is drawn, on steps, and is 2 m deep about the duct', () => {
    const drawn = spanBox('box 1', [811, -203, 0], [402, 98, 0], {
      seen: ELEVATION,
      about: [500, 0, 301],
      depth: 1000,
      lengths: MM
    });
    expect(drawn).toEqual({
      name: 'box 1',
      kind: 'box',
      min: [400, -205, -700],
      max: [810, 100, 1300]
    });
  });
});
