import { tanDegrees } from '../geometry/angle.ts';
import { movePoint } from '../geometry/motion.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { referTo, type PanelBody, type Setting } from '../fitting/fitting.ts';
import { cutPanel, type Slab } from '../fitting/panel.ts';
import { nameSealDeed } from '../fitting/step.ts';
import type { WallEdge } from '../fitting/wall.ts';
import type { Face } from '../straight/section.ts';
import type { TakeoffMeasures, TakeoffValues } from './takeoff-measures.ts';

/** What the steps of a shoe's joints do. */
export const SHOE_CORNERS_TAPED = 'tape corners of the shoe';
export const SHOE_TAPED = 'tape the shoe to the main';

const FOOT: WallEdge = { kind: 'cut', bevel: 0, closing: { by: 'joint', needs: [SHOE_TAPED] } };
const CORNER: WallEdge = { kind: 'seam', bevel: 45, closing: { by: 'seam', needs: [SHOE_CORNERS_TAPED] } };
const BEND: WallEdge = { kind: 'seam', bevel: 22.5, closing: { by: 'seam', needs: [SHOE_CORNERS_TAPED] } };
const MOUTH: WallEdge = { kind: 'plain', bevel: 0, closing: { by: 'seal', needs: [nameSealDeed('branch')] } };
const WHOLE: WallEdge = { kind: 'whole', bevel: 0 };

/** A point of the branch seen across: how far from the facing, and how far downstream of the branch's axis, mm. */
type ProfilePoint = readonly [out: number, down: number];

/**
 * A square branch with a shoe, of five panels: the slope, the upright wall behind it, the downstream wall and two cheeks.
 * On the facing the inside of the slope begins `shoe` upstream of the branch's own wall and rises at 45°; it meets the
 * upright wall at the height shoe inside and shoe + t·tan 22.5° outside.
 */
export function cutShoe(
  { branch, neck, wall }: TakeoffValues,
  { shoe, frame }: TakeoffMeasures,
  { board }: Setting
): PanelBody[] {
  const t = board.thickness;
  const [half, deep] = [branch.along / 2, branch.along / 2 + t];
  const bend = shoe + t * tanDegrees(22.5);
  const [inside, outside] = [branch.across / 2, branch.across / 2 + t];
  // The frame of the branch has its axis along x; which of its walls lies upstream depends on the wall of the main.
  const place = ([out, down]: ProfilePoint, side: number): Vec3 =>
    movePoint(frame, orient(wall, out, down, side));
  const slopeFoot = { outer: [0, -deep - shoe - t * (Math.SQRT2 - 1)], inner: [0, -half - shoe] } as const;
  const corner = { outer: [bend, -deep], inner: [shoe, -half] } as const;
  const upMouth = { outer: [neck, -deep], inner: [neck, -half] } as const;
  const downFoot = { outer: [0, deep], inner: [0, half] } as const;
  const downMouth = { outer: [neck, deep], inner: [neck, half] } as const;
  type Pair = { readonly outer: ProfilePoint; readonly inner: ProfilePoint };
  /** A wall across the branch between two lines; `sense` 1 where its outside looks downstream. */
  const across = (from: Pair, to: Pair, sense: 1 | -1, edges: readonly [WallEdge, WallEdge]): Slab => {
    const ring = (side: 'outer' | 'inner', reach: number): Vec3[] => [
      place(from[side], -sense * reach),
      place(from[side], sense * reach),
      place(to[side], sense * reach),
      place(to[side], -sense * reach)
    ];
    return {
      ...turnOut(ring('outer', outside), ring('inner', inside), wall),
      edges: [edges[0], CORNER, edges[1], CORNER]
    };
  };
  const cheek = (pairs: readonly Pair[], side: 1 | -1, edges: readonly WallEdge[]): Slab => {
    const ring = (way: 'outer' | 'inner', reach: number): Vec3[] =>
      pairs.map((pair) => place(pair[way], side * reach));
    const [outer, inner] = [ring('outer', outside), ring('inner', inside)];
    const slab = { outer, inner, edges };
    return side === -senseOf(wall) ? slab : reverseSlab(slab);
  };
  const below = { outer: [0, -deep], inner: [0, -half] } as const;
  const outline = [slopeFoot, downFoot, downMouth, upMouth, corner];
  const whole = [FOOT, CORNER, MOUTH, CORNER, CORNER];
  const describe = (name: string, face: Face | null, slab: Slab, parts?: readonly Slab[]): PanelBody =>
    cutPanel({
      name,
      face,
      ...slab,
      ...(parts ? { parts } : {}),
      sizedBy: referTo('params.neck', neck)
    });
  const makeCheek = (name: string, side: 1 | -1): PanelBody =>
    describe(name, null, cheek(outline, side, whole), [
      cheek([slopeFoot, below, corner], side, [FOOT, WHOLE, CORNER]),
      cheek([below, downFoot, downMouth, upMouth, corner], side, [FOOT, CORNER, MOUTH, CORNER, WHOLE])
    ]);
  return [
    describe('W1', null, across(slopeFoot, corner, -1, [{ ...FOOT, bevel: 45 }, BEND])),
    describe('W2', null, across(corner, upMouth, -1, [BEND, MOUTH])),
    describe('W3', null, across(downFoot, downMouth, 1, [FOOT, MOUTH])),
    makeCheek('W4', 1),
    makeCheek('W5', -1)
  ];
}

/** Whether the branch's own y or z runs downstream of the main, and which way: a square branch is carried by a quarter turn. */
function orient(wall: Face, out: number, down: number, side: number): Vec3 {
  switch (wall) {
    case 'top':
      return [out, -down, side];
    case 'bottom':
      return [out, down, side];
    case 'right':
      return [out, side, -down];
    case 'left':
      return [out, side, down];
  }
}

/** 1 where (out, down, side) are right-handed in the branch's frame, else −1. */
function senseOf(wall: Face): 1 | -1 {
  return wall === 'bottom' || wall === 'right' ? 1 : -1;
}

/** Outlines are counter-clockwise seen from outside. */
function turnOut(outer: Vec3[], inner: Vec3[], wall: Face): Pick<Slab, 'outer' | 'inner'> {
  return senseOf(wall) === 1 ? { outer, inner } : { outer: flip(outer), inner: flip(inner) };
}

/** The same four corners the other way round, the first edge still the first. */
function flip(ring: readonly Vec3[]): Vec3[] {
  return [ring[1]!, ring[0]!, ring[3]!, ring[2]!];
}

/** The other way round; the first edge stays the first. */
function reverseSlab({ outer, inner, edges }: Slab): Slab {
  const turn = <T>(list: readonly T[]): T[] => [list[1]!, list[0]!, ...[...list.slice(2)].reverse()];
  return { outer: turn(outer), inner: turn(inner), edges: [edges[0]!, ...[...edges.slice(1)].reverse()] };
}
