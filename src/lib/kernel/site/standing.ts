import { atan2Degrees } from '../geometry/angle.ts';
import { measureGap } from '../geometry/gap.ts';
import { movePoint } from '../geometry/motion.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { cross, dot, norm, type Vec3 } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import type { Fitting, Joint, Port } from '../fitting/fitting.ts';
import { layPlane } from '../straight/cut.ts';
import { CORNERS, growSection, placeCorner } from '../straight/section.ts';
import type { Clearance } from './clearance.ts';
import { measureClosing } from './measuring-card.ts';
import { placeObstacle, straightenEnd, USUAL_HAND_ROOM, type Site } from './site.ts';

/** How far an outlet may be from the end of its site and still meet it: mm, and degrees of its flow and its up. */
export const END_MET = { away: 0.01, askew: 0.001 } as const;

/** What can be said of a fitting where it stands, in the order in which it is shown; none of it forbids building. */
export function checkStanding(fitting: Fitting, site: Site, clearances: readonly Clearance[]): Finding[] {
  return [
    ...clearances.flatMap(checkClearance),
    ...fitting.ports.flatMap((port) => [...checkEnd(port, site), ...checkSection(port, site)]),
    ...checkHandRoom(fitting, site),
    ...fitting.ports.flatMap((port) => adviseClosing(port, site))
  ];
}

function checkClearance({ obstacle, value, wanted }: Clearance): Finding[] {
  if (value >= wanted - SAME_LENGTH) return [];
  const data = { obstacle: obstacle.name, value, wanted };
  return [{ level: 'warning', code: 'clearance-small', data, source: 'shop' }];
}

/** Away and askew are in the data where they are more than is allowed. */
function checkEnd(port: Port, site: Site): Finding[] {
  if (port.name !== 'outlet') return [];
  const end = straightenEnd(site.end);
  const apart = end.at.map((wanted, axis) => (wanted === null ? 0 : port.at[axis]! - wanted));
  const isAway = apart.some((along) => Math.abs(along) > END_MET.away);
  const lean = measureAngle(port.up, end.up);
  // A duct stands as well on its head.
  const askew = Math.max(measureAngle(port.flow, end.flow), Math.min(lean, 180 - lean));
  const isAskew = askew > END_MET.askew;
  if (!isAway && !isAskew) return [];
  const data = { ...(isAway && { away: Math.hypot(...apart) }), ...(isAskew && { askew }) };
  return [{ level: 'warning', code: 'end-missed', data, source: 'shop' }];
}

/** Angle between two unit directions, degrees, 0 … 180. */
function measureAngle(a: Vec3, b: Vec3): number {
  return atan2Degrees(norm(cross(a, b)), dot(a, b));
}

function checkSection({ name, section }: Port, site: Site): Finding[] {
  if (name !== 'inlet' && name !== 'outlet') return [];
  const { width, height } = site.section;
  const apart = Math.max(Math.abs(section.width - width), Math.abs(section.height - height));
  if (apart < SAME_LENGTH) return [];
  const data = {
    port: name,
    width: section.width,
    height: section.height,
    siteWidth: width,
    siteHeight: height
  };
  return [{ level: 'warning', code: 'section-differs', data, source: 'shop' }];
}

/** The piece that closes the run is left long by what the tape may be off, where a measuring card says so. */
function adviseClosing({ name, body }: Port, { tape }: Site): Finding[] {
  const long = (name === 'outlet' && tape && measureClosing(tape)) || 0;
  if (long === 0) return [];
  return [{ level: 'note', code: 'closing-long', data: { piece: body, long }, source: 'shop' }];
}

/**
 * Joints right round the duct that hands could not reach in place: one finding a joint, at the obstacle that is nearest
 * to its outside outline. What is joined otherwise (a stub on its wall, panels) belongs to one part and is closed on the
 * bench anyway.
 */
function checkHandRoom(fitting: Fitting, site: Site): Finding[] {
  const wanted = site.handRoom ?? USUAL_HAND_ROOM;
  const boxes = site.obstacles.map((obstacle) => ({ obstacle, box: placeObstacle(obstacle) }));
  return fitting.joints.flatMap((joint): Finding[] => {
    if (joint.closing.kind === 'made') return [];
    const outline = placeOutline(joint, fitting);
    let nearest: { readonly obstacle: string; readonly value: number } | null = null;
    for (const { obstacle, box } of boxes) {
      const value = measureGap(outline, box.corners).distance;
      if (value < (nearest?.value ?? wanted - SAME_LENGTH)) nearest = { obstacle: obstacle.name, value };
    }
    if (!nearest) return [];
    const data = { joint: nameJoint(joint), ...nearest, wanted };
    return [{ level: 'note', code: 'hand-room', data, source: 'shop' }];
  });
}

/** The four outside corners of the duct where two pieces meet, in the fitting's frame: where the later one begins. */
function placeOutline({ bodies }: Joint, fitting: Fitting): Vec3[] {
  const later = fitting.bodies.find(({ name }) => name === bodies[1]);
  if (later?.kind !== 'piece') throw new Error(`the joint of ${bodies.join(' and ')} joins no pieces`);
  const { piece, placement } = later;
  const { section, thickness } = fitting.straights.find(({ name }) => name === later.straight)!;
  const outside = growSection(section, thickness);
  const beginAt = piece.startCut ? layPlane(piece.startCut) : () => piece.from;
  return CORNERS.map((corner) => {
    const [y, z] = placeCorner(outside, corner);
    return movePoint(placement, [beginAt(y, z), y, z]);
  });
}

function nameJoint({ bodies, closing }: Joint): string {
  return closing.kind === 'miter' ? closing.cut : bodies.join('–');
}
