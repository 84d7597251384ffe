import { dot, norm, type Vec3 } from '../geometry/vector.ts';
import { isRecord } from './record.ts';

/** A value of a site that breaks a rule over several fields, by its path inside the site. */
export interface SiteFault {
  readonly path: readonly (string | number)[];
  readonly expected: string;
}

/** A direction shorter than this says none; it is a thousandth of the usual one, so that one of any unit does. */
const LEAST_DIRECTION = 1e-3;

/** How far up may lean along the flow, as a part of its length: directions typed to three decimals are square. */
const SQUARE = 1e-3;

/**
 * The rules of a site over several fields; each looks only at values whose types are right. `tags` are those of the
 * job's fittings, null where they are not known.
 */
export function checkSite(
  { fitting, end, obstacles }: Readonly<Record<string, unknown>>,
  tags: readonly string[] | null
): SiteFault[] {
  return [
    ...(typeof fitting === 'string' && tags && !tags.includes(fitting)
      ? [{ path: ['fitting'], expected: 'the tag of a fitting in the list' }]
      : []),
    ...(isRecord(end) ? checkDirections(end) : []),
    ...(Array.isArray(obstacles) ? obstacles.flatMap(checkSpan) : [])
  ];
}

function checkDirections({ flow, up }: Readonly<Record<string, unknown>>): SiteFault[] {
  const short = Object.entries({ flow, up }).flatMap(([name, direction]): SiteFault[] =>
    isPoint(direction) && norm(direction) < LEAST_DIRECTION
      ? [{ path: ['end', name], expected: `a direction, at least ${LEAST_DIRECTION} long` }]
      : []
  );
  if (short.length > 0 || !isPoint(flow) || !isPoint(up)) return short;
  const leans = Math.abs(dot(flow, up)) > SQUARE * norm(flow) * norm(up);
  return leans ? [{ path: ['end', 'up'], expected: 'a direction square to flow' }] : [];
}

function checkSpan(obstacle: unknown, position: number): SiteFault[] {
  if (!isRecord(obstacle)) return [];
  const { min, max } = obstacle;
  if (!Array.isArray(min) || !Array.isArray(max)) return [];
  return [0, 1, 2].flatMap((axis): SiteFault[] =>
    typeof min[axis] === 'number' && typeof max[axis] === 'number' && max[axis] < min[axis]
      ? [{ path: ['obstacles', position, 'max', axis], expected: `at least min[${axis}], ${min[axis]}` }]
      : []
  );
}

function isPoint(value: unknown): value is Vec3 {
  return (
    Array.isArray(value) &&
    value.length === 3 &&
    value.every((coordinate) => typeof coordinate === 'number' && Number.isFinite(coordinate))
  );
}
