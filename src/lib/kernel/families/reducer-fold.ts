import { IDENTITY, movePoint, type Motion } from '../geometry/motion.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type Port, type Setting } from '../fitting/fitting.ts';
import { buildMiteredPath, type Built } from '../fitting/mitered-path.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { spanRings, type EdgeKind, type Ring, type Wall, type WallEdge } from '../fitting/wall.ts';
import {
  CORNERS,
  FACES,
  findOppositeCorner,
  growSection,
  placeCorner,
  type Face,
  type Section
} from '../straight/section.ts';
import type { Straight } from '../straight/straight.ts';
import type { ReducerMeasures, ReducerValues } from './reducer-measures.ts';
import { FOLDED, measureFold, TAPED, type Fold } from './fold-measures.ts';
import { markFold, measureClosing, shapeFold } from './fold-marks.ts';

/**
 * A reducer folded from one straight of the larger section: one wall is slit free along its corners, grooved where the
 * slope begins, cut by a wedge where it ends, and laid down on the two cheeks cut to the slope.
 */
export function buildFoldedReducer(
  values: ReducerValues,
  measures: ReducerMeasures,
  setting: Setting
): Built {
  const sloping = measures.drops.flatMap((drop, i) => (Math.abs(drop) > SAME_LENGTH ? [i] : []));
  if (sloping.length !== 1) return refuse(describeSlopes(sloping.length));
  const reversed = measures.drops[sloping[0]!]! < 0;
  const fold = measureFold(values, measures, FACES[sloping[0]!]!, reversed, setting);
  const fault = checkFold(fold, values, reversed);
  if (fault) return refuse(fault);
  const trimmed = values.finish === 'trim';
  const { ends } = setting;
  const made = buildMiteredPath(
    [{ axis: fold.whole + (trimmed ? fold.short : 0), sizedBy: referTo('params.length', measures.length) }],
    [],
    {
      ...setting,
      section: fold.larger,
      seam: keepOff(setting.seam, fold.face),
      ends: {
        // Male points downstream, so a straight that lies against the flow has its male end at the datum.
        inlet: reversed ? (ends.outlet ?? (ends.inlet === 'male' ? 'female' : 'male')) : ends.inlet,
        outlet: trimmed ? 'plain' : reversed ? ends.inlet : ends.outlet
      }
    }
  );
  if (!made.fitting) return made;
  const [flat] = made.fitting.straights;
  if (made.fitting.straights.length > 1) return refuse(describeLong(flat!.length));
  const piece = { ...flat!.pieces[0]!, axis: fold.whole };
  const straight: Straight = {
    ...flat!,
    pieces: [piece],
    marks: markFold(fold, values.finish, setting)
  };
  const placement = reversed ? turnRound(fold) : IDENTITY;
  const atSmall = findSmallEnd(fold);
  const outletAt: Vec3 = [fold.whole, measures.up, measures.right];
  const port = (name: string, at: Vec3, section: Section, end: 0 | 1): Port => ({
    name,
    body: piece.name,
    at,
    flow: [1, 0, 0],
    up: [0, 1, 0],
    section,
    end: straight.ends[reversed ? 1 - end : end]!
  });
  const axis = [
    [0, 0, 0] as Vec3,
    [fold.begins, 0, 0] as Vec3,
    [fold.ends, atSmall[1], atSmall[2]] as Vec3,
    atSmall
  ];
  return {
    fitting: {
      straights: [straight],
      shaping: () => shapeFold(fold, values.finish, straight, setting),
      closed: [measureClosing(fold, values.finish, setting)],
      axes: [axis.map((point) => movePoint(placement, point))],
      bodies: [
        {
          ...made.fitting.bodies[0]!,
          kind: 'piece',
          straight: straight.name,
          piece,
          walls: foldWalls(fold, straight, setting),
          placement
        }
      ],
      joints: [],
      ports: [port('inlet', [0, 0, 0], setting.section, 0), port('outlet', outletAt, values.outlet, 1)]
    },
    findings: made.findings
  };
}

function refuse(finding: Finding): Built {
  return { fitting: null, findings: [finding] };
}

/** The slope's first bend needs board before it, and after its end the wall must reach over the gap it leaves. */
function checkFold(fold: Fold, values: ReducerValues, reversed: boolean): Finding | null {
  const small = fold.whole - fold.ends;
  const [atLarge, atSmall] = reversed ? ['collarOut', 'collarIn'] : ['collarIn', 'collarOut'];
  const needs = values.finish === 'strip' ? fold.short : 0;
  const tell = (param: string, is: number, needed: number): Finding => ({
    level: 'error',
    code: 'fold-collar',
    param: `params.${param}`,
    would: suggestValue(is, needed + 1),
    data: { collar: is, needed },
    source: 'geometry'
  });
  if (fold.begins <= fold.lead + SAME_LENGTH) return tell(atLarge!, fold.begins, fold.lead);
  return small <= needs + SAME_LENGTH ? tell(atSmall!, small, needs) : null;
}

function describeSlopes(walls: number): Finding {
  return {
    level: 'error',
    code: 'fold-one-wall',
    param: 'params.method',
    would: 'panels',
    data: { walls },
    source: 'geometry'
  };
}

function describeLong(length: number): Finding {
  return {
    level: 'error',
    code: 'one-straight',
    param: 'params.method',
    would: 'panels',
    data: { length },
    source: 'shop'
  };
}

/** The seam must not lie on the sloping wall: it goes to the opposite one. */
function keepOff(seam: Setting['seam'], face: Face): Setting['seam'] {
  const at = FACES.indexOf(face);
  return [CORNERS[at], CORNERS[(at + 1) % 4]].includes(seam) ? findOppositeCorner(seam) : seam;
}

/** The middle of the small end in the straight's frame. */
function findSmallEnd({ face, drop, whole }: Fold): Vec3 {
  const [y, z] = towards(face);
  return [whole, (-y * drop) / 2, (-z * drop) / 2];
}

/** Half a turn about the upright, so that the small end comes to the origin. */
function turnRound(fold: Fold): Motion {
  const [x, y, z] = findSmallEnd(fold);
  return { x: [-1, 0, 0], y: [0, 1, 0], z: [0, 0, -1], t: [x, -y, z] };
}

function towards(face: Face): [y: number, z: number] {
  return { top: [1, 0], right: [0, 1], bottom: [-1, 0], left: [0, -1] }[face] as [number, number];
}

/** Three stretches of duct between four rings; at the bends of the sloping wall every ring lies in a plane square to the cheeks. */
function foldWalls(fold: Fold, straight: Straight, { board }: Setting): Wall[] {
  const outside = growSection(fold.larger, board.thickness);
  const at = FACES.indexOf(fold.face);
  const own = [at, (at + 1) % 4];
  const [y, z] = towards(fold.face);
  const place = (section: Section, station: number, drop: number): Vec3[] =>
    CORNERS.map((corner, i): Vec3 => {
      const [cy, cz] = placeCorner(section, corner);
      const down = own.includes(i) ? drop : 0;
      return [station, cy - y * down, cz - z * down];
    });
  const ring = (station: number, lead: number, drop: number, edges: WallEdge[]): Ring => ({
    outer: place(outside, station, drop),
    inner: place(fold.larger, station - lead, drop),
    edges
  });
  const across = (kind: EdgeKind, closing: WallEdge['closing']): WallEdge[] =>
    FACES.map((face) =>
      face === fold.face
        ? { kind, bevel: fold.slope / 2, ...(closing ? { closing } : {}) }
        : { kind: 'whole', bevel: 0 }
    );
  const end = (index: 0 | 1): WallEdge[] =>
    FACES.map(() => ({
      kind: straight.ends[index] as Exclude<(typeof straight.ends)[0], 'miter'>,
      bevel: 0
    }));
  const rings = [
    ring(0, 0, 0, end(0)),
    ring(fold.begins, fold.lead, 0, across('fold', { by: 'fold', needs: [FOLDED] })),
    ring(fold.ends, fold.lead, fold.drop, across('cut', { by: 'joint', needs: [TAPED] })),
    ring(fold.whole, 0, fold.drop, end(1))
  ];
  const slit: WallEdge = { kind: 'seam', bevel: 45, closing: { by: 'seam', needs: [TAPED] } };
  const corners = CORNERS.map((corner): WallEdge => ({
    kind: straight.makeUp.seams.includes(corner) ? 'seam' : 'fold',
    bevel: 45
  }));
  return rings
    .slice(1)
    .flatMap((to, k) =>
      spanRings(
        rings[k]!,
        to,
        k === 0 ? corners : corners.map((corner, i) => (own.includes(i) ? slit : corner))
      )
    );
}
