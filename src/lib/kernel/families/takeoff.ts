import { atan2Degrees, sinDegrees, tanDegrees } from '../geometry/angle.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import { dot, subtract, type Vec3 } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type Fitting, type PieceBody, type Port, type Setting } from '../fitting/fitting.ts';
import { layOutStraights } from '../fitting/laid-straights.ts';
import { mergeParts } from '../fitting/merge.ts';
import { buildMiteredPath } from '../fitting/mitered-path.ts';
import { listRunJoints, openRun } from '../fitting/opened-straight.ts';
import { sealEdge } from '../fitting/opening.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { edgeAllRound, startWalls, type WallEdge } from '../fitting/wall.ts';
import type { Cut } from '../straight/cut.ts';
import { FACES } from '../straight/section.ts';
import type { Piece, Straight } from '../straight/straight.ts';
import { defineFamily, type Handle } from './family.ts';
import { clamp, LEAST_DRAGGED_LENGTH, LONGEST } from './limits.ts';
import { mirrorOpening, sizeOf } from './opening.ts';
import { checkOpening } from './opening-params.ts';
import { joinShoe, joinStub, STUB_SEALED, STUB_TAPED } from './takeoff-joints.ts';
import {
  measureTakeoff,
  placeBeside,
  placeOnBranch,
  placeStub,
  referBranch,
  type TakeoffMeasures,
  type TakeoffValues
} from './takeoff-measures.ts';
import { cutShoe } from './takeoff-shoe.ts';
import { readOnWall, wallAxes } from './wall-axes.ts';

const FLATTEST = 30;
const SQUARE = 90;

/** A branch out of a wall of a straight: square or slanting, plain or with a shoe, butted on the wall or let into it. */
export const takeoff = defineFamily({
  name: 'takeoff',
  group: 'divide',
  params: {
    length: { of: { kind: 'length', above: 0, max: LONGEST }, required: true },
    wall: { of: { kind: 'choice', of: FACES }, required: true },
    station: { of: { kind: 'length', min: 0, max: LONGEST }, required: true },
    aside: { of: { kind: 'length', min: -LONGEST, max: LONGEST }, default: 0 },
    branch: {
      of: {
        kind: 'group',
        fields: {
          across: { of: { kind: 'length', min: 20, max: 5000 }, required: true },
          along: { of: { kind: 'length', min: 20, max: 5000 }, required: true }
        }
      },
      required: true
    },
    angle: { of: { kind: 'angle', min: FLATTEST, max: SQUARE }, default: SQUARE },
    neck: { of: { kind: 'length', min: 0, max: LONGEST }, default: 200 },
    entry: { of: { kind: 'choice', of: ['plain', 'shoe'] }, default: 'plain' },
    shoe: { of: { kind: 'length', above: 0, max: LONGEST } },
    fit: { of: { kind: 'choice', of: ['butt', 'enter'] }, default: 'butt' },
    play: { of: { kind: 'length', min: 0, max: 50 }, default: 1 }
  },
  rules: [],
  example: {
    length: 900,
    wall: 'right',
    station: 450,
    aside: 0,
    branch: { across: 120, along: 200 },
    angle: 45,
    neck: 250,
    entry: 'plain',
    fit: 'enter'
  },
  build(said, setting) {
    const values = said as TakeoffValues;
    const measures = measureTakeoff(values, setting);
    const run = buildMiteredPath(
      [{ axis: values.length, sizedBy: referTo('params.length', values.length) }],
      [],
      setting
    );
    if (!run.fitting) return run;
    const fault =
      checkEntry(values, measures, setting) ??
      checkOpening(
        measures.opening,
        values,
        { ...sizeOf(setting), length: values.length, joints: listRunJoints(run.fitting) },
        'params',
        referBranch(values)
      );
    if (fault) return { fitting: null, findings: [fault] };
    const covered = values.fit === 'enter';
    const main = openRun(run.fitting, [
      {
        opening: measures.opening,
        closing: covered ? { by: 'joint', needs: [STUB_TAPED] } : sealEdge('O1'),
        sealed: !covered
      }
    ])!;
    const holed = main.straights.find(({ openings }) => openings.length > 0)!;
    const piece = holed.pieces[0]!.name;
    if (values.entry === 'shoe') {
      const panels = cutShoe(values, measures, setting);
      const port = openBranch('W2', values.neck, 'plain', measures);
      const part: Partial<Fitting> = {
        bodies: panels,
        ports: [port],
        axes: [traceAxis(values.neck, measures)]
      };
      return {
        fitting: mergeParts([main, part], joinShoe(piece, panels, values, measures, setting)),
        findings: adviseNeck(values, setting)
      };
    }
    const stub = cutStub(values, measures, main, setting);
    if ('code' in stub) return { fitting: null, findings: [stub] };
    const joints = joinStub(piece, stub.straights[0]!, values, measures, setting);
    return { fitting: mergeParts([main, stub], joints), findings: [] };
  },
  handles: (values, setting) => placeHandles(values as TakeoffValues, setting),
  drag(said, id, point, setting): Readonly<Record<string, unknown>> {
    const values = said as TakeoffValues;
    const measures = measureTakeoff(values, setting);
    const { wall, branch, angle } = values;
    const [along, aside] = readOnWall(wall, point);
    const size = (length: number): number => clamp(length, 20, 5000);
    const { out } = wallAxes(wall);
    const away = subtract(point, measures.at);
    switch (id) {
      case 'length':
        return { length: clamp(point[0], Math.min(LEAST_DRAGGED_LENGTH, values.length), LONGEST) };
      case 'station':
        return { station: clamp(along, 0, LONGEST) };
      case 'aside':
        return { aside: clamp(aside, -LONGEST, LONGEST) };
      case 'branch.along':
        return { branch: { ...branch, along: size(2 * sinDegrees(angle) * (along - values.station)) } };
      case 'branch.across':
        return { branch: { ...branch, across: size(2 * (aside - values.aside)) } };
      case 'angle':
        return { angle: clamp(atan2Degrees(dot(away, out), away[0]), FLATTEST, SQUARE) };
      case 'neck':
        return { neck: clamp(dot(away, measures.frame.x) - measures.reach, 0, LONGEST) };
      case 'shoe':
        return {
          shoe: clamp(values.station - branch.along / 2 - along, LEAST_DRAGGED_LENGTH, LONGEST)
        };
      default:
        throw new Error(`a take-off has no handle ${id}`);
    }
  },
  derive(values, setting): Record<string, number> {
    const { shoe } = measureTakeoff(values as TakeoffValues, setting);
    return shoe > 0 ? { shoe } : {};
  },
  bladeValues(_values, param, shop) {
    if (param !== 'angle') return [];
    return shop.blades
      .map(({ angle }) => SQUARE - angle)
      .filter((angle) => angle >= FLATTEST && angle <= SQUARE)
      .sort((a, b) => a - b);
  },
  mirror: ({ wall, aside }) => mirrorOpening({ wall, aside })
});

/** A shoe is for a square branch butted on the main, and its neck rises above it. */
function checkEntry(values: TakeoffValues, { shoe }: TakeoffMeasures, { board }: Setting): Finding | null {
  if (values.entry !== 'shoe') return null;
  const tell = (
    code: Finding['code'],
    param: string,
    would: number | string,
    data: Finding['data']
  ): Finding => ({
    level: 'error',
    code,
    param: `params.${param}`,
    would,
    data,
    source: 'geometry'
  });
  if (values.angle !== SQUARE) return tell('shoe-angle', 'angle', SQUARE, { angle: values.angle });
  if (values.fit !== 'butt') return tell('shoe-butt', 'fit', 'butt', {});
  const bend = shoe + board.thickness * tanDegrees(22.5);
  if (values.neck > bend + SAME_LENGTH) return null;
  return tell('shoe-high', 'neck', suggestValue(values.neck, bend + LEAST_ABOVE), {
    neck: values.neck,
    bend
  });
}

/** The shop's least throat holds for the neck of a shoe too, which is no piece of a straight. */
function adviseNeck({ neck }: TakeoffValues, { shop }: Setting): Finding[] {
  if (neck >= shop.minThroat - SAME_LENGTH) return [];
  return [
    {
      level: 'warning',
      code: 'throat-short',
      param: 'params.neck',
      would: shop.minThroat,
      data: { piece: 'W2', corner: 'top-left', shortest: neck, least: shop.minThroat },
      source: 'shop'
    }
  ];
}

/** The upright wall above a shoe is at least so high where it is suggested, mm. */
const LEAST_ABOVE = 50;

function openBranch(body: string, along: number, end: Port['end'], measures: TakeoffMeasures): Port {
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

function traceAxis(along: number, measures: TakeoffMeasures): Vec3[] {
  return [measures.at, placeOnBranch(measures, along)];
}

/** The stub, cut at its datum end where it slants; the triangle before the cut is off-cut. */
function cutStub(
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

function placeHandles(values: TakeoffValues, setting: Setting): Handle[] {
  const measures = measureTakeoff(values, setting);
  const { wall, branch, angle, neck, entry } = values;
  const { out, aside } = wallAxes(wall);
  const { at, frame, reach, shoe } = measures;
  const length = (id: string, place: Vec3, along: Vec3, value: number): Handle => ({
    id,
    at: place,
    along,
    kind: 'length',
    value
  });
  const swing: Vec3 = [-sinDegrees(angle), out[1] * frame.x[0], out[2] * frame.x[0]];
  return [
    length('length', [values.length, 0, 0], [1, 0, 0], values.length),
    length('station', at, [1, 0, 0], values.station),
    length('aside', placeBeside(measures, wall, 0, 0), aside, values.aside),
    length(
      'branch.along',
      placeBeside(measures, wall, branch.along / 2 / sinDegrees(angle), 0),
      [1, 0, 0],
      branch.along
    ),
    length('branch.across', placeBeside(measures, wall, 0, branch.across / 2), aside, branch.across),
    length('neck', placeOnBranch(measures, neck + reach), frame.x, neck),
    {
      id: 'angle',
      at: placeOnBranch(measures, (neck + reach) / 2),
      along: swing,
      kind: 'angle',
      value: angle
    },
    ...(entry === 'shoe'
      ? [length('shoe', placeBeside(measures, wall, -branch.along / 2 - shoe, 0), [-1, 0, 0] as Vec3, shoe)]
      : [])
  ];
}
