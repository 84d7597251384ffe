import type { Vec3 } from '../geometry/vector.ts';
import { lengthenOnly, referTo, type ParamReference, type Setting } from '../fitting/fitting.ts';
import { SAME_BEVEL } from '../straight/board.ts';
import { WRITTEN_LENGTH } from '../geometry/tolerance.ts';
import { buildMiteredPath } from '../fitting/mitered-path.ts';
import { allowOneOf, allowOneRest, defineFamily, type Handle } from './family.ts';
import { clamp, LONGEST, SHARPEST_TURN } from './limits.ts';
import { listOffsetRoutes } from './offset-routes.ts';
import { seeInPlane } from './plane.ts';
import { referThroat, resolveThroats, THROAT, type Throats } from './rest.ts';
import {
  dragSlope,
  findTurnForTravel,
  handleSlope,
  layOutSlope,
  listBladeTurns,
  measureSlope,
  placeAt,
  SHIFT_PARAMS,
  type Slope,
  type SlopeValues
} from './slope.ts';

const DRIVERS = ['turn', 'advance', 'travel'] as const;

type OffsetValues = SlopeValues & Throats;

interface OffsetMeasures extends Slope {
  readonly throatIn: number;
  readonly throatOut: number;
}

/** A shift up or down and sideways at once, by two equal turns the other way round: parallel cuts / / on the straight. */
export const offset = defineFamily({
  name: 'offset',
  group: 'shift',
  params: {
    ...SHIFT_PARAMS,
    roll: { ...SHIFT_PARAMS.roll, required: true },
    turn: { of: { kind: 'angle', above: 0, max: SHARPEST_TURN } },
    advance: { of: { kind: 'length', min: 0, max: LONGEST } },
    travel: { of: { kind: 'length', min: 0, max: LONGEST } },
    throatIn: THROAT,
    throatOut: THROAT
  },
  drivers: { names: DRIVERS, usual: 'turn', default: 45 },
  rules: [allowOneOf(DRIVERS), allowOneRest(['throatIn', 'throatOut'])],
  example: { rise: 220, roll: 140, turn: 45, piecesPerTurn: 2, throatIn: 200, throatOut: 200 },
  build(values, setting) {
    const measured = measureOffset(values, setting);
    if ('code' in measured) return { fitting: null, findings: [measured] };
    const { reach, throatIn, throatOut } = measured;
    const slope = layOutSlope(
      measured,
      referTurn(values, measured, setting),
      referTravel(values, measured, setting)
    );
    return buildMiteredPath(
      [
        { axis: throatIn + reach, sizedBy: referThroat('throatIn', values.throatIn) },
        ...slope.legs,
        { axis: throatOut + reach, sizedBy: referThroat('throatOut', values.throatOut) }
      ],
      slope.turns,
      setting
    );
  },
  handles(values, setting) {
    const measured = measureOffset(values, setting);
    if ('code' in measured) return [];
    const { heel, depth, reach, advance, offset: shift, throatIn, throatOut } = measured;
    const run = throatIn + advance + throatOut + 2 * reach;
    const along: Vec3 = [1, 0, 0];
    const handles: Handle[] = [
      { id: 'throatIn', at: placeAt(throatIn, depth / 2, heel), along, kind: 'length', value: throatIn },
      { id: 'throatOut', at: placeAt(run, shift - depth / 2, heel), along, kind: 'length', value: throatOut },
      ...handleSlope(values, measured, throatIn, run, setting)
    ];
    return handles;
  },
  drag(values, handle, point, setting) {
    const measured = measureOffset(values, setting);
    if ('code' in measured) return {};
    const { heel, reach, advance, throatIn } = measured;
    const [along] = seeInPlane(point, heel);
    switch (handle) {
      case 'throatIn':
        return { throatIn: clamp(along, 0, LONGEST) };
      case 'throatOut':
        return { throatOut: clamp(along - throatIn - advance - 2 * reach, 0, LONGEST) };
      default:
        return dragSlope(values, measured, throatIn, handle, point, setting);
    }
  },
  derive(values, setting): Record<string, number> {
    const measured = measureOffset(values, setting);
    if ('code' in measured) return {};
    const { turn, advance, travel, throatIn, throatOut } = measured;
    return { turn, advance, travel, throatIn, throatOut };
  },
  bladeValues: (values, param, shop) => (param === 'turn' ? listBladeTurns(values, shop) : []),
  listRoutes: listOffsetRoutes,
  mirror: ({ roll }) => ({ roll: 0 - roll }),
  // From the other end a rise is a fall. Right stays right: the way there and the side change places together.
  reverse: ({ rise, throatIn, throatOut }) => ({ rise: 0 - rise, throatIn: throatOut, throatOut: throatIn })
});

function measureOffset(values: OffsetValues, setting: Setting) {
  const slope = measureSlope(values, setting);
  if ('code' in slope) return slope;
  const others = slope.travel + 2 * (slope.cuts - 1) * slope.gore + 2 * slope.reach;
  const throats = resolveThroats(values, others, setting);
  return 'code' in throats ? throats : ({ ...slope, ...throats } satisfies OffsetMeasures);
}

/** What sets the miter: the driver, whichever it is. */
function referTurn(values: OffsetValues, { turn, cuts, at }: Slope, setting: Setting): ParamReference {
  const driver = DRIVERS.find((name) => values[name] !== undefined)!;
  const raise = (by: number): number | null => {
    const wanted = turn + 2 * cuts * by;
    if (wanted <= 0 || wanted > SHARPEST_TURN) return null;
    const value = Math.round(at(wanted)[driver] / WRITTEN_LENGTH) * WRITTEN_LENGTH;
    // Where the gores shift the duct further than it should go, two turns have one advance; and near a right angle a
    // travel as it is written may stand for another turn.
    const there = measureSlope({ ...values, [driver]: value }, setting);
    return 'turn' in there && Math.abs(there.turn - wanted) < SAME_BEVEL ? value : null;
  };
  return { param: `params.${driver}`, value: values[driver]!, raise };
}

/** What sets the piece between the two turns: it grows when the duct turns less, or with the advance or the travel said. */
function referTravel(values: OffsetValues, { travel, at }: Slope, setting: Setting): ParamReference {
  if (values.travel !== undefined) return lengthenOnly(referTo('params.travel', values.travel));
  const driver = values.advance === undefined ? 'turn' : 'advance';
  const raise = (by: number): number | null => {
    const turn = findTurnForTravel(values, travel + by, setting);
    return turn === null ? null : at(turn)[driver];
  };
  return lengthenOnly({ param: `params.${driver}`, value: values[driver]!, raise });
}
