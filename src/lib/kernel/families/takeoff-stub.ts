import type { Vec3 } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type Fitting, type PieceBody, type Port, type Setting } from '../fitting/fitting.ts';
import { layOutStraights } from '../fitting/laid-straights.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { edgeAllRound, startWalls, type WallEdge } from '../fitting/wall.ts';
import type { Cut } from '../straight/cut.ts';
import type { Piece, Straight } from '../straight/straight.ts';
import { STUB_SEALED, STUB_TAPED } from './takeoff-joints.ts';
import { placeOnBranch, placeStub, type TakeoffMeasures, type TakeoffValues } from './takeoff-measures.ts';
import { SQUARE } from './takeoff-measures.ts';

/** The branch's end as a port, so far from the facing. */
export function openBranch(body: string, along: number, end: Port['end'], measures: TakeoffMeasures): Port {
  return {
    name: 'branch',
    body,
    at: placeOnBranch(measures, along),
    flow: measures.frame.x,
    up: measures.frame.y,
    section: measures.section,
    end
  };
}

/** The axis of the branch from the facing on. */
export function traceAxis(along: number, measures: TakeoffMeasures): Vec3[] {
  return [measures.at, placeOnBranch(measures, along)];
}

/** The stub, cut at its datum end where it slants; the triangle before the cut is off-cut. */
export function cutStub(
  values: TakeoffValues,
  measures: TakeoffMeasures,
  main: Fitting,
  setting: Setting
): (Partial<Fitting> & { readonly straights: Straight[] }) | Finding {
  const { reach, through, section, heel } = measures;
  const length = values.neck + 2 * reach + through;
  const before = main.bodies.length;
  const laid = layOutStraights(
    [{ axis: length, from: 0, to: length, startReach: 0, endReach: 0, least: 0 }],
    [],
    { ...setting, section, ends: { inlet: undefined, outlet: undefined } },
    { numbering: { straights: main.straights.length, cuts: 0, pieces: before }, open: [false, true] }
  );
  if ('code' in laid) return laid.param === 'section' ? { ...laid, param: 'params.branch.along' } : laid;
  if (laid.length > 1) {
    return {
      level: 'error',
      code: 'one-straight',
      param: 'params.neck',
      would: suggestValue(
        values.neck,
        Math.max(0, Math.max(...laid.map(({ straight }) => straight.makeUp.yield)) - 2 * reach - through)
      ),
      data: { length },
      source: 'shop'
    };
  }
  const flat = laid[0]!.straight;
  const cut: Cut | null =
    values.angle === SQUARE ? null : { name: 'C1', station: reach, miter: SQUARE - values.angle, heel };
  const piece: Piece = {
    ...flat.pieces[0]!,
    from: reach,
    axis: length - reach,
    startCut: cut
  };
  const straight: Straight = { ...flat, cuts: cut ? [cut] : [], pieces: [piece] };
  const closing: WallEdge['closing'] =
    through > 0 ? { by: 'seal', needs: [STUB_SEALED] } : { by: 'joint', needs: [STUB_TAPED] };
  const square = edgeAllRound({ kind: 'plain', bevel: 0, closing });
  const walls = startWalls(straight, [square, {}])(piece).map((wall) => ({
    ...wall,
    edges: wall.edges.map((edge, i) => (i === 0 ? { ...edge, closing } : edge))
  }));
  const body: PieceBody = {
    kind: 'piece',
    name: piece.name,
    straight: straight.name,
    piece,
    walls,
    placement: placeStub(measures),
    sizedBy: referTo('params.neck', values.neck),
    least: setting.shop.minThroat + through
  };
  return {
    straights: [straight],
    bodies: [body],
    axes: [traceAxis(values.neck + reach, measures)],
    ports: [openBranch(piece.name, values.neck + reach, straight.ends[1], measures)]
  };
}
