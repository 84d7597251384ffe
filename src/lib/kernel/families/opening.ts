import { add, type Vec3 } from '../geometry/vector.ts';
import { referTo, type Setting } from '../fitting/fitting.ts';
import { buildMiteredPath } from '../fitting/mitered-path.ts';
import { listRunJoints, openRun } from '../fitting/opened-straight.ts';
import { placeAcross, placeOnFace, sealEdge } from '../fitting/opening.ts';
import { defineFamily, type Handle } from './family.ts';
import { mirrorFace } from './hand.ts';
import { clamp, LEAST_DRAGGED_LENGTH, LONGEST } from './limits.ts';
import {
  checkBevel,
  checkOpening,
  layOpening,
  OPENING_PARAMS,
  referAcross,
  SAY_SIZE,
  settleSize,
  type OpeningValues
} from './opening-params.ts';
import { readOnWall, wallAxes } from './wall-axes.ts';

type Values = OpeningValues & { readonly length: number };

/** A straight with one hole in a wall: for a round collar or an access door. */
export const opening = defineFamily({
  name: 'opening',
  group: 'close',
  params: { length: { of: { kind: 'length', above: 0, max: LONGEST }, required: true }, ...OPENING_PARAMS },
  rules: [SAY_SIZE],
  example: { length: 800, wall: 'top', station: 400, aside: 0, shape: 'round', diameter: 160 },
  build(said, setting) {
    const values = said as Values;
    const run = buildMiteredPath(
      [{ axis: values.length, sizedBy: referTo('params.length', values.length) }],
      [],
      setting
    );
    if (!run.fitting) return run;
    const size = sizeOf(setting);
    const hole = layOpening('O1', values, size);
    const ground = { ...size, length: values.length, joints: listRunJoints(run.fitting) };
    const fault =
      checkBevel(hole, values, size.thickness, 'params') ??
      checkOpening(hole, values, ground, 'params', referAcross(values, 'params'));
    if (fault) return { fitting: null, findings: [fault] };
    const fitting = openRun(run.fitting, [{ opening: hole, closing: sealEdge('O1'), sealed: true }]);
    return { fitting, findings: [] };
  },
  handles(said, setting) {
    const values = said as Values;
    return [
      { id: 'length', at: [values.length, 0, 0], along: [1, 0, 0], kind: 'length', value: values.length },
      ...placeOpeningHandles(values, '', setting)
    ];
  },
  drag(said, id, point): Readonly<Record<string, unknown>> {
    const values = said as Values;
    if (id === 'length') {
      return { length: clamp(point[0], Math.min(LEAST_DRAGGED_LENGTH, values.length), LONGEST) };
    }
    return dragOpening(values, id, point);
  },
  derive: () => ({}),
  bladeValues: () => [],
  settle: settleSize,
  mirror: ({ wall, aside }) => mirrorOpening({ wall, aside }),
  reverse({ wall, aside, station, length }) {
    return { ...mirrorOpening({ wall, aside }), station: length - station };
  }
});

export function sizeOf({ section, board }: Setting): { section: Setting['section']; thickness: number } {
  return { section, thickness: board.thickness };
}

/** Left and right change places: so does what lies to the right of the middle of a top or bottom wall. */
export function mirrorOpening({ wall, aside }: Pick<OpeningValues, 'wall' | 'aside'>) {
  const isSide = wall === 'left' || wall === 'right';
  return { wall: mirrorFace(wall), aside: isSide ? aside : 0 - aside };
}

/** Where the middle of an opening lies on the facing, mm. */
function placeMiddle({ wall, station, aside }: OpeningValues, setting: Setting): Vec3 {
  const size = sizeOf(setting);
  return placeOnFace(wall, [station, placeAcross(wall, aside, size)], 0, size);
}

/** Handles of one opening; `prefix` is the path of its parameters. */
export function placeOpeningHandles(values: OpeningValues, prefix: string, setting: Setting): Handle[] {
  const at = placeMiddle(values, setting);
  const { aside } = wallAxes(values.wall);
  const beside = (along: number, across: number): Vec3 =>
    add(at, [along, aside[1] * across, aside[2] * across]);
  const handle = (id: string, place: Vec3, along: Vec3, value: number): Handle => ({
    id: `${prefix}${id}`,
    at: place,
    along,
    kind: 'length',
    value
  });
  const { station, diameter, along, across } = values;
  return [
    handle('station', at, [1, 0, 0], station),
    handle('aside', beside(0, HANDLE_GAP), aside, values.aside),
    ...(diameter !== undefined
      ? [handle('diameter', beside(diameter / 2, 0), [1, 0, 0], diameter)]
      : [
          handle('along', beside(along! / 2, 0), [1, 0, 0], along!),
          handle('across', beside(0, -across! / 2), [0, -aside[1], -aside[2]], across!)
        ])
  ];
}

/** The handle for the place across stands off the one for the station, mm. */
const HANDLE_GAP = 40;

/** The change of one opening's parameters that brings a handle to a point. */
export function dragOpening(
  values: OpeningValues,
  id: string,
  point: Vec3
): Readonly<Record<string, unknown>> {
  const [along, aside] = readOnWall(values.wall, point);
  const size = (length: number): number => {
    const now = values[id as 'diameter' | 'along' | 'across'] ?? LEAST_DRAGGED_LENGTH;
    return clamp(length, Math.min(LEAST_DRAGGED_LENGTH, now), LONGEST);
  };
  switch (id) {
    case 'station':
      return { station: clamp(along, 0, LONGEST) };
    case 'aside':
      return { aside: clamp(aside - HANDLE_GAP, -LONGEST, LONGEST) };
    case 'diameter':
      return { diameter: size(2 * (along - values.station)) };
    case 'along':
      return { along: size(2 * (along - values.station)) };
    case 'across':
      return { across: size(2 * (values.aside - aside)) };
    default:
      throw new Error(`an opening has no handle ${id}`);
  }
}
