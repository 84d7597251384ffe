/** The inside of a rectangular duct, mm: width across (z), height up (y). */
export interface Section {
  readonly width: number;
  readonly height: number;
}

export type Face = 'top' | 'right' | 'bottom' | 'left';
export type Corner = 'top-left' | 'top-right' | 'bottom-right' | 'bottom-left';

/** The faces in clockwise order, looking downstream. */
export const FACES: readonly Face[] = ['top', 'right', 'bottom', 'left'];

/** The corners in clockwise order; corner i is where face i begins and face i − 1 ends. */
export const CORNERS: readonly Corner[] = ['top-left', 'top-right', 'bottom-right', 'bottom-left'];

/** Clock angle of a face's outward normal, degrees: clockwise from the top looking downstream. */
export const FACE_CLOCK: Record<Face, number> = { top: 0, right: 90, bottom: 180, left: 270 };

/**
 * The corners where a mark on a face starts and ends: on top and bottom from the edge to the left face to the edge to
 * the right face, on right and left from the edge to the top face to the edge to the bottom face.
 */
export const MARK_CORNERS: Record<Face, readonly [Corner, Corner]> = {
  top: ['top-left', 'top-right'],
  right: ['top-right', 'bottom-right'],
  bottom: ['bottom-left', 'bottom-right'],
  left: ['top-left', 'bottom-left']
};

const CORNER_SIGNS: Record<Corner, readonly [number, number]> = {
  'top-left': [1, -1],
  'top-right': [1, 1],
  'bottom-right': [-1, 1],
  'bottom-left': [-1, -1]
};

/** The outside of a duct with the given inside: the board's thickness added all round. */
export function growSection(section: Section, thickness: number): Section {
  return { width: section.width + 2 * thickness, height: section.height + 2 * thickness };
}

/** Where a corner of a section lies in the cross-section: [y, z], mm from the axis. */
export function placeCorner(section: Section, corner: Corner): [y: number, z: number] {
  const [up, right] = CORNER_SIGNS[corner];
  return [(up * section.height) / 2, (right * section.width) / 2];
}

/** Width of a face of a section, mm: the width for top and bottom, the height for right and left. */
export function measureFace(section: Section, face: Face): number {
  return face === 'top' || face === 'bottom' ? section.width : section.height;
}

/** The corner diagonally opposite: where a corner lies after half a turn about the length. */
export function findOppositeCorner(corner: Corner): Corner {
  return CORNERS[(CORNERS.indexOf(corner) + 2) % 4]!;
}

/** The face opposite: where a face lies after half a turn about the length. */
export function findOppositeFace(face: Face): Face {
  return FACES[(FACES.indexOf(face) + 2) % 4]!;
}
