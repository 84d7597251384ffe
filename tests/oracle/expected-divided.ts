import { BEYOND, RADIANS, type Expected, type Stuff, type Way } from './expected.ts';
import { makeBox, type Solid } from './manifold.ts';
import { extrudeProfile, hollow, placeInPlane, PLANES, type Flat } from './profiles.ts';

interface PartParams {
  readonly inside?: number;
  readonly length?: number;
  readonly turn?: number;
  readonly pieces?: number;
  readonly throatIn?: number;
  readonly gore?: number;
  readonly throatOut?: number;
}

/** Mitered ducts side by side, from left to right or from the top down; a turning one leaves to its own side. */
export function expectDivided(stuff: Stuff, names: readonly string[]): Expected {
  const { params, width, height, t } = stuff;
  const isWide = params['divide'] !== 'height';
  const [whole, across] = isWide ? [width, height] : [height, width];
  const toward = params['toward'] as string | undefined;
  const order = toward === 'right' || toward === 'bottom' ? [...names].reverse() : names;
  const parts = order.map((name) => params[name] as PartParams);
  const told = parts.flatMap(({ inside }) => inside ?? []).reduce((sum, one) => sum + one, 0);
  const untold = parts.filter(({ inside }) => inside === undefined).length;
  const rest = (whole - 2 * t * (parts.length - 1) - told) / untold;
  const insides = parts.map(({ inside }) => inside ?? rest);
  const board: Solid[] = [];
  const ways: Way[] = [
    {
      port: 'inlet',
      at: [0, 0, 0],
      flow: [1, 0, 0],
      plug: () => [makeBox(-BEYOND, 0, height, width)]
    }
  ];
  let volume = 0;
  order.forEach((name, i) => {
    const before = insides.slice(0, i).reduce((sum, inside) => sum + inside + 2 * t, 0);
    const middle = -(whole / 2 + t) + before + insides[i]! / 2 + t;
    // The last turns right or down, any other that turns turns left or up.
    const way = i === order.length - 1 ? 1 : -1;
    const plane = isWide ? PLANES[way === 1 ? 'right' : 'left'] : PLANES[way === 1 ? 'bottom' : 'top'];
    const path = layPath(parts[i]!, insides[i]! + 2 * t);
    const start = way * middle;
    const reach = across / 2;
    for (let k = 0; k + 1 < path.length; k++) {
      const solid = extrudeProfile(plane, profilePiece(path, k, insides[i]! / 2 + t, start, 0), [
        -reach - t,
        reach + t
      ]);
      const bore = extrudeProfile(plane, profilePiece(path, k, insides[i]! / 2, start, BEYOND), [
        -reach,
        reach
      ]);
      board.push(hollow(solid, bore));
      const [[x, y], [u, v]] = [path[k]!, path[k + 1]!];
      volume += ((insides[i]! + 2 * t) * (across + 2 * t) - insides[i]! * across) * Math.hypot(u - x, v - y);
    }
    const plug = (): Solid[] =>
      path
        .slice(1)
        .map((_, k) =>
          extrudeProfile(plane, profilePiece(path, k, insides[i]! / 2, start, 0), [-reach, reach])
        );
    const [end, last] = [path[path.length - 1]!, path[path.length - 2]!];
    const run = Math.hypot(end[0] - last[0], end[1] - last[1]);
    ways.push({
      port: name,
      at: placeInPlane(plane, [end[0], end[1] + start], 0),
      flow: placeInPlane(plane, [(end[0] - last[0]) / run, (end[1] - last[1]) / run], 0),
      plug
    });
  });
  return { board, ways, volume };
}

/** The points of a bend's axis: its throats and gores are the shortest outside edges, c = D/2·tan α at either side. */
function layPath(part: PartParams, deep: number): Flat[] {
  if (part.turn === undefined) {
    return [
      [0, 0],
      [part.length!, 0]
    ];
  }
  const { turn, pieces = 3, throatIn = 200, gore = 150, throatOut = 200 } = part;
  const step = (turn / (pieces - 1)) * RADIANS;
  const c = (deep / 2) * Math.tan(step / 2);
  const lengths = [throatIn + c, ...Array.from({ length: pieces - 2 }, () => gore + 2 * c), throatOut + c];
  const points: Flat[] = [[0, 0]];
  lengths.forEach((length, k) => {
    const [x, y] = points[k]!;
    points.push([x + length * Math.cos(k * step), y + length * Math.sin(k * step)]);
  });
  return points;
}

/** A piece of a path seen across: between the lines that halve its angles, `reach` to both sides of its axis. */
function profilePiece(
  path: readonly Flat[],
  k: number,
  reach: number,
  start: number,
  beyond: number
): Flat[] {
  const direction = (i: number): Flat => {
    const [[x, y], [u, v]] = [path[i]!, path[i + 1]!];
    const run = Math.hypot(u - x, v - y);
    return [(u - x) / run, (v - y) / run];
  };
  const own = direction(k);
  const corner = (joint: number, side: number, more: number): Flat => {
    const others =
      joint === 0 || joint === path.length - 1 ? [own, own] : [direction(joint - 1), direction(joint)];
    const [p, q] = others as [Flat, Flat];
    const [nx, ny] = [-(p[1] + q[1]) / 2, (p[0] + q[0]) / 2];
    // The half sum of two unit normals has the length cos α, its square brings the corner to the side's line.
    const scale = (side * reach) / (nx * nx + ny * ny);
    const [x, y] = path[joint]!;
    return [x + nx * scale + own[0] * more, y + ny * scale + own[1] * more + start];
  };
  return [corner(k, 1, -beyond), corner(k, -1, -beyond), corner(k + 1, -1, beyond), corner(k + 1, 1, beyond)];
}
