import { asinDegrees, atanDegrees, cosDegrees, sinDegrees, tanDegrees } from '../geometry/angle.ts';
import {
  FACE_CLOCK,
  FACES,
  MARK_CORNERS,
  measureFace,
  placeCorner,
  type Face,
  type Section
} from './section.ts';

/**
 * A plane through a straight: x = station + tan(miter)·(y·cos heel + z·sin heel), in the straight's frame (origin in
 * the middle of its datum end, x along it, y up, z right). Station in mm along the axis; angles in degrees, the heel
 * as a clock angle. The heel is the side on which the piece before the cut is longer.
 */
export interface Cut {
  readonly name: string;
  readonly station: number;
  readonly miter: number;
  readonly heel: number;
}

/** The largest turn of one joint, degrees. */
export const SHARPEST_TURN = 90;

export type Lean = 'downstream' | 'upstream';

/** What a cut asks of one face. Stations and lengths in mm, angles in degrees, line and bevel without sign. */
export interface FaceMark {
  readonly face: Face;
  /** Stations where the mark meets the face's two edges, in the order of {@link MARK_CORNERS}. */
  readonly start: number;
  readonly end: number;
  /** Angle of the mark from square across the face. */
  readonly line: number;
  /** Tilt of the blade from upright on the face. */
  readonly bevel: number;
  /** Where the blade's top leans; null for an upright blade. */
  readonly lean: Lean | null;
  /** How far the line on the inside lies from the mark, square to it. */
  readonly setback: number;
  /** How far the blade reaches, measured along it. */
  readonly depth: number;
}

/** The plane of a cut: the station at a point of the cross-section, mm. Its trigonometry is done once. */
export function layPlane({ station, miter, heel }: Omit<Cut, 'name'>): (y: number, z: number) => number {
  const [slope, up, right] = [tanDegrees(miter), cosDegrees(heel), sinDegrees(heel)];
  return (y, z) => station + slope * (y * up + z * right);
}

/** Station of a cut's plane at one point of the cross-section, mm. */
export function findStation(cut: Cut, y: number, z: number): number {
  return layPlane(cut)(y, z);
}

/** The tilt of the blade from upright on every face, degrees, in the order of FACES. */
export function measureBevels(cut: Cut): number[] {
  return FACES.map((face) => measureBevel(cut, face));
}

function measureBevel({ miter, heel }: Cut, face: Face): number {
  return asinDegrees(sinDegrees(miter) * Math.abs(cosDegrees(heel - FACE_CLOCK[face])));
}

/**
 * Half of what a cut of this miter and heel takes from one end of a section along its axis, mm: how much the axis is
 * longer than the shortest corner edge. tan(miter)·(height/2·|cos heel| + width/2·|sin heel|), of the outside section.
 */
export function measureReach(outside: Section, miter: number, heel: number): number {
  const across =
    (outside.height / 2) * Math.abs(cosDegrees(heel)) + (outside.width / 2) * Math.abs(sinDegrees(heel));
  return tanDegrees(miter) * across;
}

/**
 * The marks of a cut on the four faces of a straight, in the order of FACES. Line angle tan λ = tan α·sin φ on top and
 * bottom, tan α·cos φ on the sides; bevel sin τ = sin α·cos φ on top and bottom, sin α·sin φ on the sides: the pair of
 * the compound-miter tables of finish carpentry. Set-back t·tan τ, depth t/cos τ.
 */
export function markCut(cut: Cut, outside: Section, thickness: number): FaceMark[] {
  return FACES.map((face) => markFace(cut, outside, thickness, face));
}

/** How far a blade so tilted from upright, degrees, comes through beside its mark, and how deep it goes along itself; mm. */
export function measureBlade(bevel: number, thickness: number): Pick<FaceMark, 'setback' | 'depth'> {
  return { setback: thickness * tanDegrees(bevel), depth: thickness / cosDegrees(bevel) };
}

function markFace(cut: Cut, outside: Section, thickness: number, face: Face): FaceMark {
  const [startCorner, endCorner] = MARK_CORNERS[face];
  const toward = cosDegrees(cut.heel - FACE_CLOCK[face]);
  const along = sinDegrees(cut.heel - FACE_CLOCK[face]);
  const bevel = measureBevel(cut, face);
  const { setback, depth } = measureBlade(bevel, thickness);
  return {
    face,
    start: findStation(cut, ...placeCorner(outside, startCorner)),
    end: findStation(cut, ...placeCorner(outside, endCorner)),
    line: atanDegrees(tanDegrees(cut.miter) * Math.abs(along)),
    bevel,
    lean: bevel === 0 ? null : toward > 0 ? 'downstream' : 'upstream',
    setback,
    depth
  };
}

/** Length of the outline a cut leaves on a section (outside or inside), mm: the glue line or the tape line. */
export function measureOutline(cut: Cut, section: Section): number {
  const stationAt = layPlane(cut);
  return FACES.reduce((sum, face) => {
    const [startCorner, endCorner] = MARK_CORNERS[face];
    const rise =
      stationAt(...placeCorner(section, endCorner)) - stationAt(...placeCorner(section, startCorner));
    return sum + Math.hypot(measureFace(section, face), rise);
  }, 0);
}
