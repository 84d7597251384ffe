import { atan2Degrees, sinDegrees } from '../geometry/angle.ts';
import { dot, subtract, type Vec3 } from '../geometry/vector.ts';
import type { Setting } from '../fitting/fitting.ts';
import type { Handle } from './family.ts';
import { clamp, LEAST_DRAGGED_LENGTH, LONGEST } from './limits.ts';
import { measureTakeoff, placeBeside, placeOnBranch, type TakeoffValues } from './takeoff-measures.ts';
import { readOnWall, wallAxes } from './wall-axes.ts';
import { FLATTEST, SQUARE } from './takeoff-measures.ts';

/** The handles of a take-off: its main, the place on the wall, the branch. */
export function placeTakeoffHandles(values: TakeoffValues, setting: Setting): Handle[] {
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

/** The parameter changes that bring a handle to a point. */
export function dragTakeoff(
  values: TakeoffValues,
  id: string,
  point: Vec3,
  setting: Setting
): Readonly<Record<string, unknown>> {
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
}
