import { tanDegrees } from '../geometry/angle.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type Fitting, type Setting } from '../fitting/fitting.ts';
import { mergeParts } from '../fitting/merge.ts';
import { buildMiteredPath } from '../fitting/mitered-path.ts';
import { listRunJoints, openRun } from '../fitting/opened-straight.ts';
import { sealEdge } from '../fitting/opening.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { FACES } from '../straight/section.ts';
import { defineFamily } from './family.ts';
import { LONGEST } from './limits.ts';
import { mirrorOpening, sizeOf } from './opening.ts';
import { checkOpening } from './opening-params.ts';
import { joinShoe, joinStub, STUB_TAPED } from './takeoff-joints.ts';
import {
  measureTakeoff,
  referBranch,
  type TakeoffMeasures,
  type TakeoffValues,
  LEAST_SHOE
} from './takeoff-measures.ts';
import { cutShoe } from './takeoff-shoe.ts';
import { dragTakeoff, placeTakeoffHandles } from './takeoff-handles.ts';
import { cutStub, openBranch, traceAxis } from './takeoff-stub.ts';
import { FLATTEST, SQUARE } from './takeoff-measures.ts';

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
    shoe: { of: { kind: 'length', min: 0, max: LONGEST } },
    fit: { of: { kind: 'choice', of: ['butt', 'enter'] }, default: 'butt' },
    play: { of: { kind: 'length', min: 0, max: LONGEST }, default: 1 }
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
  handles: (values, setting) => placeTakeoffHandles(values as TakeoffValues, setting),
  drag: (values, id, point, setting) => dragTakeoff(values as TakeoffValues, id, point, setting),
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
  if (shoe <= SAME_LENGTH) return tell('shoe-none', 'shoe', LEAST_SHOE, {});
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
