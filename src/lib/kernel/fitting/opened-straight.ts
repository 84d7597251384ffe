import { tanDegrees } from '../geometry/angle.ts';
import type { Opening, Straight } from '../straight/straight.ts';
import type { Face } from '../straight/section.ts';
import type { Fitting, PieceBody } from './fitting.ts';
import { listPieceBodies } from './fitting.ts';
import { cutOpenings } from './cut-openings.ts';
import { measure } from './opening.ts';
import { describeStep, nameOpeningDeed, type Step } from './step.ts';
import type { WallEdge } from './wall.ts';

/** An opening with stations along the whole run, and what closes its edges. */
export interface RunOpening {
  readonly opening: Opening;
  readonly closing: NonNullable<WallEdge['closing']>;
  /** Whether its raw edge stays in the air, so that it is sealed as soon as it is cut. */
  readonly sealed: boolean;
}

/** Stations at which the straights of a run along x meet, mm. */
export function listRunJoints(run: Fitting): number[] {
  return listPieceBodies(run)
    .slice(1)
    .map(({ placement }) => placement.t[0]);
}

/**
 * A straight run with openings cut in its walls; each lies clear of the ends of the pieces. Null where no straight plane
 * parts two openings of one wall.
 */
export function openRun(run: Fitting, openings: readonly RunOpening[]): Fitting | null {
  const shaping: (() => Step[])[] = [];
  const opened = new Map<string, Opening[]>();
  const bodies: PieceBody[] = [];
  for (const body of listPieceBodies(run)) {
    const datum = body.placement.t[0];
    const straight = run.straights.find(({ name }) => name === body.straight)!;
    const own = openings.flatMap((one) => {
      const { x } = measure(one.opening);
      const isHere = x[0] >= datum + body.piece.from && x[1] <= datum + body.piece.from + body.piece.axis;
      return isHere ? [{ ...one, opening: shiftOpening(one.opening, -datum) }] : [];
    });
    opened.set(
      straight.name,
      own.map(({ opening }) => opening)
    );
    shaping.push(() =>
      own.flatMap(({ opening, sealed }) => describeCutting(opening, sealed, straight, body))
    );
    const walls = body.walls.flatMap((wall) => {
      const here = own.filter(({ opening }) => opening.face === wall.face);
      if (here.length === 0) return [wall];
      const closings = new Map(here.map(({ opening, closing }) => [opening.name, closing]));
      return (
        cutOpenings(
          wall,
          here.map(({ opening }) => opening),
          straight,
          ({ name }) => closings.get(name)!
        ) ?? []
      );
    });
    if (FACES_OF_A_DUCT.some((face) => !walls.some((wall) => wall.face === face))) return null;
    bodies.push({ ...body, walls });
  }
  return {
    ...run,
    straights: run.straights.map((straight) => ({ ...straight, openings: opened.get(straight.name)! })),
    shaping: () => [...run.shaping(), ...shaping.flatMap((tell) => tell())],
    bodies
  };
}

const FACES_OF_A_DUCT: readonly Face[] = ['top', 'right', 'bottom', 'left'];

function shiftOpening(opening: Opening, by: number): Opening {
  const shift = <P extends readonly [number, number]>([x, u]: P): [number, number] => [x + by, u];
  const { circle } = opening;
  return {
    ...opening,
    outer: opening.outer.map(shift),
    inner: opening.inner.map(shift),
    ...(circle ? { circle: { ...circle, at: shift(circle.at) } } : {})
  };
}

function describeCutting(opening: Opening, sealed: boolean, straight: Straight, body: PieceBody): Step[] {
  const { circle } = opening;
  const { x, u } = measure({
    outer: opening.outer,
    inner: opening.outer,
    ...(circle ? { circle: { ...circle, inner: circle.outer } } : {})
  });
  const on = { straight: straight.name, face: opening.face, pieces: [body.name] };
  const bevels = [...new Set(opening.edges.map(({ bevel }) => bevel))];
  const data = {
    opening: opening.name,
    face: opening.face,
    from: x[0],
    to: x[1],
    low: u[0],
    high: u[1],
    bevels,
    setbacks: bevels.map((bevel) => straight.thickness * tanDegrees(bevel)),
    ...(circle ? { diameter: 2 * circle.outer } : {})
  };
  return [
    describeStep('cut', { ...on, sentence: 'cut-opening', data }),
    ...(sealed
      ? [
          describeStep('seal', {
            ...on,
            sentence: 'seal-opening',
            does: [nameOpeningDeed(opening.name)],
            data: { opening: opening.name }
          })
        ]
      : [])
  ];
}
