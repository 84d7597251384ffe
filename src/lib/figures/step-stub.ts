import type { BuiltModel } from '../kernel/evaluate.ts';
import type { Step } from '../kernel/fitting/step.ts';
import { cosDegrees, sinDegrees, tanDegrees } from '../kernel/geometry/angle.ts';
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

/** Outside width of the stub along the main, and how far a flap of facing reaches. */
const WIDTH = 14;
const FLAP = 5;

/** A flatter branch is not drawn flatter, degrees. */
const FLATTEST = 45;

interface Stub {
  /** Whether it goes through the wall; else it stands on it. */
  readonly enters: boolean;
  /** Outer and inner side of its upstream and downstream wall where it meets the facing, x. */
  readonly sides: readonly { readonly outer: number; readonly inner: number; readonly out: -1 | 1 }[];
  /** How far its walls lie further downstream at a level than at the facing. */
  readonly shift: (level: number) => number;
}

/** The facing of the stub, its wool stripped, turned out to a flap. */
export function drawFlapTurning(step: Step, built: BuiltModel): Item[] {
  const stub = placeStub(step, built);
  const foot = FACING + 1;
  return [
    ...stub.sides.flatMap((side) => drawStubWall(stub, side, foot - FLAP)),
    ...stub.sides.flatMap(({ outer, out }): Item[] => {
      const bent: Point = [outer + stub.shift(foot - FLAP), foot - FLAP];
      const hanging: Point = [outer + stub.shift(foot), foot];
      const turned: Point = [bent[0] + out * FLAP, bent[1]];
      const radius = FLAP * 0.8;
      return [
        drawLine([bent, hanging], 'hidden'),
        drawLine([bent, turned], 'visible'),
        ...(out < 0
          ? drawArcArrow(bent, radius, radius, 270 - lean(hanging, bent), 190)
          : drawArcArrow(bent, radius, radius, -90 - lean(hanging, bent), -10))
      ];
    })
  ];
}

/** The stub over its opening, or half in it, on its way. */
export function drawStubJoining(step: Step, built: BuiltModel): Item[] {
  const stub = placeStub(step, built);
  const foot = stub.enters ? FACING + THICK / 2 - 3 : FACING - 3.5;
  const middle = (stub.sides[0]!.inner + stub.sides[1]!.inner) / 2;
  const [from, to] = [foot - 6, foot];
  return [
    ...drawMain(stub),
    ...stub.sides.flatMap((side) => drawStubWall(stub, side, foot)),
    ...drawArrow([middle + stub.shift(from), from], [middle + stub.shift(to), to])
  ];
}

/** A line of glue where the stub meets the wall. */
export function drawStubGlue(step: Step, built: BuiltModel): Item[] {
  const stub = placeStub(step, built);
  const foot = stub.enters ? FACING - 4.5 : FACING - 3.5;
  return [
    ...drawMain(stub),
    ...stub.sides.flatMap((side) => drawStubWall(stub, side, foot)),
    ...stub.sides.map(({ inner, outer, out }) =>
      stub.enters
        ? drawLine(
            [
              [outer + stub.shift(FACING + 0.8), FACING + 0.8],
              [outer + stub.shift(INSIDE - 0.8), INSIDE - 0.8]
            ],
            'cut'
          )
        : drawLine(
            [
              [inner + out * 0.6, FACING - 0.6],
              [inner + out * 2, FACING - 0.6]
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
    ...drawPlaced(stub),
    ...stub.sides.flatMap(({ outer, out }): Item[] => [
      drawLine(
        [
          [outer, FACING - 0.5],
          [outer + out * FLAP, FACING - 0.5]
        ],
        'visible'
      ),
      ...[1.8, 4].map((along) => {
        const x = outer + out * along;
        return drawLine(
          [
            [x - 0.6, FACING + 2],
            [x - 0.6, FACING - 1.1],
            [x + 0.6, FACING - 1.1],
            [x + 0.6, FACING + 2]
          ],
          'narrow'
        );
      })
    ])
  ];
}

/** The stub in its place, tape over its flaps and up its walls. */
export function drawStubTape(step: Step, built: BuiltModel): Item[] {
  const stub = placeStub(step, built);
  const up = FACING - 5;
  return [
    ...drawPlaced(stub),
    ...stub.sides.flatMap(({ outer, out }) =>
      drawTape([
        [outer + stub.shift(up), up],
        [outer, FACING],
        [outer + out * (FLAP + 1.5), FACING],
        [outer + out * (FLAP + 1.5), FACING - 0.9],
        [outer + out * 0.9 + stub.shift(FACING - 0.9), FACING - 0.9],
        [outer + out * 0.9 + stub.shift(up), up]
      ])
    )
  ];
}

/** The stub in its place, what is raw in the air covered: the edges of the opening, or the end of the stub. */
export function drawStubSeal(step: Step, built: BuiltModel): Item[] {
  const stub = placeStub(step, built);
  return [
    ...drawPlaced(stub),
    ...stub.sides.map(({ outer, inner, out }) => {
      const [deep, cover] = [0.7, 3.4];
      if (stub.enters) {
        return drawLine(
          [
            [inner - out * 0.7 + stub.shift(INSIDE - cover), INSIDE - cover],
            [inner - out * 0.7 + stub.shift(INSIDE + deep), INSIDE + deep],
            [outer + out * cover + stub.shift(INSIDE + deep), INSIDE + deep]
          ],
          'cut'
        );
      }
      return drawLine(
        [
          [inner - out * 0.7 + stub.shift(FACING - cover), FACING - cover],
          [inner - out * 0.7 + stub.shift(INSIDE + deep), INSIDE + deep],
          [inner + out * cover + stub.shift(INSIDE + deep), INSIDE + deep]
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

function lean([x, y]: Point, [fromX, fromY]: Point): number {
  return (Math.atan2(fromX - x, y - fromY) * 180) / Math.PI;
}

/** A stub at the angle at which the branch leaves, upright where there is none. */
function placeStub(step: Step, { fitting, steps }: BuiltModel): Stub {
  const enters = steps.some(
    ({ sentence, pieces }) =>
      sentence === 'enter-stub' &&
      (pieces.length === 0 || pieces.some((piece) => step.pieces.includes(piece)))
  );
  const inlet = fitting.ports.find(({ name }) => name === 'inlet');
  const branch = fitting.ports.find(({ name }) => name === 'branch');
  const toward = inlet && branch ? dot(inlet.flow, branch.flow) : 0;
  const angle = Math.max(FLATTEST, (Math.acos(Math.min(1, Math.max(0, toward))) * 180) / Math.PI);
  const slope = cosDegrees(angle) < 1e-9 ? 0 : 1 / tanDegrees(angle);
  const shift = (level: number): number => (FACING - level) * slope;
  const wide = WIDTH / 2;
  const middle = 17 - shift(HEAD) / 2;
  const thick = THICK / sinDegrees(angle);
  return {
    enters,
    shift,
    sides: [
      { outer: middle - wide, inner: middle - wide + thick, out: -1 },
      { outer: middle + wide, inner: middle + wide - thick, out: 1 }
    ]
  };
}

function drawStubWall(stub: Stub, { outer, inner }: Stub['sides'][number], foot: number): Item[] {
  return drawBoard([
    [outer + stub.shift(HEAD), HEAD],
    [inner + stub.shift(HEAD), HEAD],
    [inner + stub.shift(foot), foot],
    [outer + stub.shift(foot), foot]
  ]);
}

/** The main's wall on either side of the opening, which is as wide as what goes through it. */
function drawMain({ enters, sides, shift }: Stub): Item[] {
  return sides.flatMap(({ outer, inner, out }) => {
    const edge = enters ? outer : inner;
    const far = out < 0 ? 1.5 : 32.5;
    return drawBoard([
      [far, FACING],
      [edge, FACING],
      [edge + shift(INSIDE), INSIDE],
      [far, INSIDE]
    ]);
  });
}

function drawPlaced(stub: Stub): Item[] {
  const foot = stub.enters ? INSIDE : FACING;
  return [...drawMain(stub), ...stub.sides.flatMap((side) => drawStubWall(stub, side, foot))];
}
