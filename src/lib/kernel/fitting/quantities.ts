import { measureArea } from '../geometry/polygon.ts';
import { measureOutline } from '../straight/cut.ts';
import { growSection } from '../straight/section.ts';
import { listMiterJoints, type Fitting } from './fitting.ts';
import { measureWallVolume } from './wall.ts';

/** What one fitting takes. Lengths mm, areas mm², volume mm³, mass kg. */
export interface Quantities {
  readonly volume: number;
  /** Volume of every body, in the order of the fitting's bodies. */
  readonly bodies: readonly number[];
  /** Area of the facing. */
  readonly outside: number;
  /** Area of the air way's wall. */
  readonly inside: number;
  /** Mass of the board only. */
  readonly mass: number;
  /** Length of all seams along the corners. */
  readonly seam: number;
  /** Number of glued and taped joints. */
  readonly joints: number;
  /** Outside outlines of all glued cuts and of all other joints: where tape goes. */
  readonly jointOutline: number;
  /** Inside outlines of all glued cuts and the glue lines of all other joints. */
  readonly glue: number;
}

/** Counts what a fitting takes, from its wall solids and its cuts. `density` in kg/m³. */
export function countQuantities(fitting: Fitting, density: number): Quantities {
  const walls = fitting.bodies.flatMap((body) => body.walls);
  const bodies = fitting.bodies.map((body) => sum(body.walls.map(measureWallVolume)));
  const volume = sum(bodies);
  const cuts = listMiterJoints(fitting).map((joint) => {
    const straight = fitting.straights.find(({ name }) => name === joint.straight)!;
    const cut = straight.cuts.find(({ name }) => name === joint.cut)!;
    return {
      outside: measureOutline(cut, growSection(straight.section, straight.thickness)),
      inside: measureOutline(cut, straight.section)
    };
  });
  const made = fitting.joints.flatMap(({ closing }) => (closing.kind === 'made' ? [closing] : []));
  return {
    volume,
    bodies,
    outside: sum(walls.map(({ outer }) => measureArea(outer))),
    inside:
      sum(walls.map(({ inner }) => measureArea(inner))) -
      sum(fitting.bodies.map(({ covered = 0 }) => covered)),
    mass: volume * 1e-9 * density,
    // A seam runs the whole length of its straight: neighbouring pieces share their cuts.
    seam: sum(fitting.straights.map(({ length, makeUp }) => length * makeUp.seams.length)),
    joints: cuts.length + made.filter(({ outline }) => outline > 0).length,
    jointOutline:
      sum(cuts.map(({ outside }) => outside)) +
      sum([...made, ...fitting.closed].map(({ outline }) => outline)),
    glue: sum(cuts.map(({ inside }) => inside)) + sum([...made, ...fitting.closed].map(({ glue }) => glue))
  };
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}
