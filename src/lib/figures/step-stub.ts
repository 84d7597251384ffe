import type { BuiltModel } from '../kernel/evaluate.ts';
import { listPanelBodies } from '../kernel/fitting/fitting.ts';
import type { Step } from '../kernel/fitting/step.ts';
import { sinDegrees, tanDegrees } from '../kernel/geometry/angle.ts';
import { dot } from '../kernel/geometry/vector.ts';
import type { Item, Point } from './figure.ts';
import { boxPoints, drawLine } from './ink.ts';
import { drawArcArrow, drawArrow, drawBoard, drawTape } from './step-ink.ts';

/** The pictures of a stub on a wall, cut lengthwise, downstream to the right; mm on paper, y down. */

/** Facing and inside of the main's wall, the end of the stub that is shown, and the board's drawn thickness. */
const FACING = 12;
const THICK = 3.6;
const INSIDE = FACING + THICK;
const HEAD = 1.5;

/** Outside width of the stub along the main, how far a flap of facing reaches, how far a shoe does, inside. */
const WIDTH = 14;
const FLAP = 5;
const SHOE = 3.5;

/** How far the stub is lifted off its place before it is joined, standing on the wall or going into it. */
const LIFT = { stands: 3.5, enters: 4.5 } as const;

/** A flatter branch is not drawn flatter, degrees. */
const FLATTEST = 45;

interface Stub {
  /** Whether it goes through the wall; else it stands on it. */
  readonly enters: boolean;
  readonly sides: readonly Side[];
  /** How far further downstream it is for every mm up. */
  readonly slope: number;
}

/** Its upstream or downstream wall: where its outer and inner side are at a level, and the levels of its bends. */
interface Side {
  readonly out: -1 | 1;
  outer(level: number): number;
  inner(level: number): number;
  readonly bends: { readonly outer: readonly number[]; readonly inner: readonly number[] };
}

/** The facing of the stub, its wool stripped, turned out to a flap. */
export function drawFlapTurning(step: Step, built: BuiltModel): Item[] {
  const { sides } = placeStub(step, built);
  const bend = FACING - 3;
  return sides.flatMap((side): Item[] => {
    const { out } = side;
    const hinge: Point = [side.outer(bend), bend];
    const radius = FLAP * 0.8;
    return [
      ...drawBoard(outlineWall(side, bend)),
      drawLine([hinge, [side.outer(bend + FLAP), bend + FLAP]], 'hidden'),
      drawLine([hinge, [hinge[0] + out * FLAP, bend]], 'visible'),
      ...drawArcArrow(hinge, radius, radius, out < 0 ? 262 : -82, out < 0 ? 190 : -10)
    ];
  });
}

/** The stub over its opening, or half in it, on its way. */
export function drawStubJoining(step: Step, built: BuiltModel): Item[] {
  const stub = placeStub(step, built);
  const lift = stub.enters ? LIFT.enters : LIFT.stands;
  const middle = (level: number): number => {
    const [a, b] = stub.sides.map(({ inner }) => inner(FACING - 6)) as [number, number];
    return (a + b) / 2 + stub.slope * (FACING - 6 - level);
  };
  return [
    ...drawMain(stub),
    ...drawStub(stub, lift),
    ...drawArrow([middle(3), 3], [middle(FACING - 2), FACING - 2])
  ];
}

/** A line of glue where the stub meets the wall. */
export function drawStubGlue(step: Step, built: BuiltModel): Item[] {
  const stub = placeStub(step, built);
  return [
    ...drawMain(stub),
    ...drawStub(stub, stub.enters ? LIFT.enters : LIFT.stands),
    ...stub.sides.map(({ inner, outer, out }) =>
      drawLine(
        stub.enters
          ? [FACING + 0.8, INSIDE - 0.8].map((level): Point => [outer(level), level])
          : [
              [inner(FACING) + out * 0.6, FACING - 0.6],
              [inner(FACING) + out * 2, FACING - 0.6]
            ],
        'cut'
      )
    )
  ];
}

/** The stub in its place, its flaps stapled to the wall. */
export function drawStubStaples(step: Step, built: BuiltModel): Item[] {
  const stub = placeStub(step, built);
  return [
    ...drawMain(stub),
    ...drawStub(stub),
    ...stub.sides.flatMap(({ outer, out }): Item[] => {
      const foot = outer(FACING);
      return [
        drawLine(
          [
            [foot, FACING - 0.5],
            [foot + out * FLAP, FACING - 0.5]
          ],
          'visible'
        ),
        ...[1.8, 4].map((along) => {
          const x = foot + out * along;
          return drawLine([
            [x - 0.6, FACING + 2],
            [x - 0.6, FACING - 1.1],
            [x + 0.6, FACING - 1.1],
            [x + 0.6, FACING + 2]
          ]);
        })
      ];
    })
  ];
}

/** The stub in its place, tape over where it meets the wall and up its own walls. */
export function drawStubTape(step: Step, built: BuiltModel): Item[] {
  const stub = placeStub(step, built);
  const [up, thick] = [FACING - 4.5, 0.9];
  return [
    ...drawMain(stub),
    ...drawStub(stub),
    ...stub.sides.flatMap(({ outer, out }) => {
      const foot = outer(FACING);
      return drawTape([
        [outer(up), up],
        [foot, FACING],
        [foot + out * FLAP, FACING],
        [foot + out * FLAP, FACING - thick],
        [outer(FACING - thick) + out * thick, FACING - thick],
        [outer(up) + out * thick, up]
      ]);
    })
  ];
}

/** The stub in its place, what is raw in the air covered: the end of the stub, or else the edge of the opening. */
export function drawStubSeal(step: Step, built: BuiltModel): Item[] {
  const stub = placeStub(step, built);
  const [deep, cover] = [0.7, 2.6];
  return [
    ...drawMain(stub),
    ...drawStub(stub),
    ...stub.sides.map(({ outer, inner, out }) => {
      const [foot, edge] = stub.enters ? [INSIDE, outer(INSIDE)] : [FACING, inner(INSIDE)];
      return drawLine(
        [
          [inner(foot - cover) - out * deep, foot - cover],
          [inner(INSIDE + deep) - out * deep, INSIDE + deep],
          [edge + out * cover, INSIDE + deep]
        ],
        'cut'
      );
    })
  ];
}

/** A wall with an opening, cut through both: nothing raw is left to the air. */
export function drawOpeningSeal(): Item[] {
  return [
    { edge: 11, far: 1.5, out: 1 },
    { edge: 23, far: 32.5, out: -1 }
  ].flatMap(({ edge, far, out }): Item[] => [
    ...drawBoard(boxPoints(Math.min(edge, far), 7.5, Math.max(edge, far), 12.5)),
    drawLine(
      [
        [edge - out * 4, 6.8],
        [edge + out * 0.8, 6.8],
        [edge + out * 0.8, 13.2],
        [edge - out * 4, 13.2]
      ],
      'cut'
    )
  ]);
}

/** A stub at the angle at which the branch leaves, upright where there is none; of panels with a shoe upstream. */
function placeStub(step: Step, built: BuiltModel): Stub {
  const { fitting, steps } = built;
  if (listPanelBodies(fitting).some(({ name }) => step.pieces.includes(name))) return placeShoe();
  const enters = steps.some(
    ({ sentence, pieces }) => sentence === 'enter-stub' && pieces.some((piece) => step.pieces.includes(piece))
  );
  const inlet = fitting.ports.find(({ name }) => name === 'inlet');
  const branch = fitting.ports.find(({ name }) => name === 'branch');
  const toward = inlet && branch ? dot(inlet.flow, branch.flow) : 0;
  const flat = (Math.acos(Math.min(1, Math.max(0, toward))) * 180) / Math.PI;
  const angle = Math.max(FLATTEST, flat);
  const slope = 1 / tanDegrees(angle);
  const middle = 17 - ((FACING - HEAD - 3) * slope) / 2;
  const thick = THICK / sinDegrees(angle);
  const at = (x: number) => (level: number) => x + (FACING - level) * slope;
  const side = (out: -1 | 1): Side => ({
    out,
    outer: at(middle + (out * WIDTH) / 2),
    inner: at(middle + out * (WIDTH / 2 - thick)),
    bends: { outer: [], inner: [] }
  });
  return { enters, slope, sides: [side(-1), side(1)] };
}

/** The upstream wall leaves the facing at 45° and turns upright; its two sides bend a little apart, t·tan 22.5°. */
function placeShoe(): Stub {
  const [left, right] = [14, 26];
  const [low, high] = [FACING - SHOE, FACING - SHOE - THICK * tanDegrees(22.5)];
  const upstream: Side = {
    out: -1,
    outer: (level) => left - Math.max(0, level - high),
    inner: (level) => left + THICK - Math.max(0, level - low),
    bends: { outer: [high], inner: [low] }
  };
  const downstream: Side = {
    out: 1,
    outer: () => right,
    inner: () => right - THICK,
    bends: { outer: [], inner: [] }
  };
  return { enters: false, slope: 0, sides: [upstream, downstream] };
}

/** A wall of the stub from a level up, its foot at another. */
function outlineWall({ outer, inner, bends }: Side, foot: number, head = HEAD): Point[] {
  const run = (at: (level: number) => number, between: readonly number[]): Point[] =>
    [head, ...between, foot].map((level) => [at(level), level]);
  return [...run(outer, bends.outer), ...run(inner, bends.inner).reverse()];
}

/** The stub, lifted off its place along its own axis. */
function drawStub({ enters, sides, slope }: Stub, lift = 0): Item[] {
  return sides.flatMap((side) =>
    drawBoard(
      outlineWall(side, enters ? INSIDE : FACING, HEAD + lift).map(([x, y]): Point => [
        x + lift * slope,
        y - lift
      ])
    )
  );
}

/** The main's wall on either side of the opening, which is as wide as what goes through it. */
function drawMain({ enters, sides }: Stub): Item[] {
  return sides.flatMap(({ outer, inner, out }) => {
    const edge = enters ? outer : inner;
    const far = out < 0 ? 1.5 : 32.5;
    return drawBoard([
      [far, FACING],
      [edge(FACING), FACING],
      [edge(INSIDE), INSIDE],
      [far, INSIDE]
    ]);
  });
}
