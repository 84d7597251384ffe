import type { Vec3 } from '../geometry/vector.ts';
import { lengthenOnly, referTo, type ParamReference, type Setting } from '../fitting/fitting.ts';
import { buildMiteredPath } from '../fitting/mitered-path.ts';
import { listDetourRoutes } from './detour-routes.ts';
import { allowOneRest, defineFamily, type Handle } from './family.ts';
import { clamp, LONGEST, SHARPEST_TURN } from './limits.ts';
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

type DetourValues = SlopeValues & Throats & { readonly turn: number; readonly level: number };

/** The shortest level a drag gives, mm; a document may say any above 0. */
const LEAST_LEVEL = 1;

/** A detour under, over or around something: a slope there, a level piece, the same slope back. */
export const doubleOffset = defineFamily({
  name: 'double-offset',
  group: 'shift',
  params: {
    ...SHIFT_PARAMS,
    roll: { ...SHIFT_PARAMS.roll, default: 0 },
    turn: { of: { kind: 'angle', above: 0, max: SHARPEST_TURN }, default: 45 },
    level: { of: { kind: 'length', above: 0, max: LONGEST }, required: true },
    throatIn: THROAT,
    throatOut: THROAT
  },
  rules: [allowOneRest(['throatIn', 'throatOut'])],
  example: { rise: -300, roll: 0, turn: 45, level: 150, piecesPerTurn: 2, throatIn: 205, throatOut: 205 },
  build(values, setting) {
    const measured = measureDetour(values, setting);
    if ('code' in measured) return { fitting: null, findings: [measured] };
    const { reach, cuts, throatIn, throatOut } = measured;
    const turnedBy = referTo('params.turn', values.turn, 2 * cuts);
    const sizedBy = referTravel(values, measured, setting);
    const there = layOutSlope(measured, turnedBy, sizedBy);
    const back = layOutSlope({ ...measured, heel: measured.heel + 180 }, turnedBy, sizedBy);
    return buildMiteredPath(
      [
        { axis: throatIn + reach, sizedBy: referThroat('throatIn', values.throatIn) },
        ...there.legs,
        { axis: values.level + 2 * reach, sizedBy: referTo('params.level', values.level) },
        ...back.legs,
        { axis: throatOut + reach, sizedBy: referThroat('throatOut', values.throatOut) }
      ],
      [...there.turns, ...back.turns],
      setting
    );
  },
  handles(values, setting) {
    const measured = measureDetour(values, setting);
    if ('code' in measured) return [];
    const { heel, depth, reach, advance, offset, throatIn, throatOut } = measured;
    const levelFrom = throatIn + advance + 2 * reach;
    const run = levelFrom + values.level + advance + 2 * reach + throatOut;
    const along: Vec3 = [1, 0, 0];
    const handles: Handle[] = [
      { id: 'throatIn', at: placeAt(throatIn, depth / 2, heel), along, kind: 'length', value: throatIn },
      {
        id: 'level',
        at: placeAt(levelFrom + values.level, offset - depth / 2, heel),
        along,
        kind: 'length',
        value: values.level
      },
      { id: 'throatOut', at: placeAt(run, depth / 2, heel), along, kind: 'length', value: throatOut },
      ...handleSlope(values, measured, throatIn, levelFrom + values.level / 2, setting)
    ];
    return handles;
  },
  drag(values, handle, point, setting) {
    const measured = measureDetour(values, setting);
    if ('code' in measured) return {};
    const { heel, reach, advance, throatIn } = measured;
    const [along] = seeInPlane(point, heel);
    const levelFrom = throatIn + advance + 2 * reach;
    switch (handle) {
      case 'throatIn':
        return { throatIn: clamp(along, 0, LONGEST) };
      case 'level':
        return { level: clamp(along - levelFrom, LEAST_LEVEL, LONGEST) };
      case 'throatOut':
        return { throatOut: clamp(along - levelFrom - values.level - advance - 2 * reach, 0, LONGEST) };
      default:
        return dragSlope(values, measured, throatIn, handle, point, setting);
    }
  },
  derive(values, setting): Record<string, number> {
    const measured = measureDetour(values, setting);
    if ('code' in measured) return {};
    const { advance, travel, reach, throatIn, throatOut } = measured;
    const run = throatIn + throatOut + values.level + 2 * advance + 4 * reach;
    return { run, advance, travel, throatIn, throatOut };
  },
  bladeValues: (values, param, shop) => (param === 'turn' ? listBladeTurns(values, shop) : []),
  listRoutes: listDetourRoutes,
  mirror: ({ roll }) => ({ roll: 0 - roll }),
  // The detour goes to the same side of the duct; right and left change places with the ends.
  reverse: ({ roll, throatIn, throatOut }) => ({ roll: 0 - roll, throatIn: throatOut, throatOut: throatIn })
});

function measureDetour(values: DetourValues, setting: Setting) {
  const slope = measureSlope(values, setting);
  if ('code' in slope) return slope;
  const { travel, cuts, gore, reach } = slope;
  const others = 2 * (travel + 2 * (cuts - 1) * gore) + values.level + 4 * reach;
  const throats = resolveThroats(values, others, setting);
  return 'code' in throats ? throats : { ...slope, ...throats };
}

/** The slopes grow when the duct turns less. */
function referTravel(values: DetourValues, { travel }: Slope, setting: Setting): ParamReference {
  const raise = (by: number): number | null => findTurnForTravel(values, travel + by, setting);
  return lengthenOnly({ param: 'params.turn', value: values.turn, raise });
}
