import { atan2Degrees } from '../geometry/angle.ts';
import { FACE_CLOCK, growSection, type Face } from '../straight/section.ts';
import type { RouteForm, RouteTask } from '../fitting/route.ts';
import { measureReach } from '../straight/cut.ts';
import { LARGEST_TURN } from './bend-measures.ts';
import { LEAST_PIECES, MOST_PIECES, SHARPEST_TURN } from './limits.ts';
import { combine, LENGTH, readNumbers, spread } from './routes.ts';

/** A part of a direction that counts as none: 0.0005 degrees. */
const NO_PART = 1e-5;

/** Bends of two to nine pieces, in the plane in which the end leads away. */
export function listBendRoutes(task: RouteTask): RouteForm[] {
  return listPlanes(task).flatMap(({ turn, heel }) =>
    spread(LEAST_PIECES, MOST_PIECES, MOST_PIECES - LEAST_PIECES + 1)
      .filter((pieces) => turn <= (pieces - 1) * SHARPEST_TURN)
      .map((pieces) => describeBend(task, turn, heel, pieces))
  );
}

/** The heels with which a bend leads into the flow of the end, and how far it turns. Half a turn has four ways. */
function listPlanes({ end: { flow } }: RouteTask): { turn: number; heel: Face }[] {
  const [x, up, right] = flow;
  if (Math.hypot(up, right) < NO_PART)
    return x > 0
      ? []
      : (['right', 'left', 'bottom', 'top'] as const).map((heel) => ({ turn: LARGEST_TURN, heel }));
  if (Math.abs(right) < NO_PART)
    return [{ turn: atan2Degrees(Math.abs(up), x), heel: up > 0 ? 'bottom' : 'top' }];
  if (Math.abs(up) < NO_PART)
    return [{ turn: atan2Degrees(Math.abs(right), x), heel: right > 0 ? 'left' : 'right' }];
  return [];
}

function describeBend({ setting, longest }: RouteTask, turn: number, heel: Face, pieces: number): RouteForm {
  const joints = pieces - 1;
  const clock = FACE_CLOCK[heel];
  const outside = growSection(setting.section, setting.board.thickness);
  const reach = measureReach(outside, turn / (2 * joints), clock);
  const { minThroat, minGore } = setting.shop;
  const room = Math.max(minThroat, longest / 2);
  const throats = spread(minThroat, room, 2);
  const gores = joints === 1 ? [] : [spread(minGore, Math.max(minGore, longest / joints), 3)];
  return {
    joints,
    fixed: true,
    variables: joints === 1 ? [LENGTH, LENGTH] : [LENGTH, LENGTH, LENGTH],
    starts: combine(throats, throats, ...gores),
    layOut: ([throatIn, throatOut, gore]) => ({
      legs: [
        throatIn! + reach,
        ...Array.from({ length: joints - 1 }, () => gore! + 2 * reach),
        throatOut! + reach
      ],
      turns: Array.from({ length: joints }, () => ({ turn: turn / joints, heel: clock }))
    }),
    writeParams: ([throatIn, throatOut, gore]) => ({
      turn,
      pieces,
      heel,
      throatIn,
      gore: gore ?? minGore,
      throatOut
    }),
    readParams: (params) =>
      params['pieces'] === pieces && params['heel'] === heel
        ? readNumbers(params, ['throatIn', 'throatOut', 'gore'].slice(0, joints === 1 ? 2 : 3))
        : null
  };
}
