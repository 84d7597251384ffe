import type { Face } from '../kernel/straight/section.ts';
import type { FacePoint, Straight } from '../kernel/straight/straight.ts';
import type { Point } from './figure.ts';
import { unrollFaces } from './unroll.ts';

/**
 * Where a point of a face lies on the unrolled faces, mm. Its distance across counts from the face's first edge, which
 * on bottom and left is the one that comes last clockwise round the duct.
 */
export function unrollPoint(straight: Straight, face: Face, [station, across]: FacePoint): Point {
  const { from, to } = unrollFaces(straight).faces.find((unrolled) => unrolled.face === face)!;
  return [station, face === 'top' || face === 'right' ? from + across : to - across];
}
