import type { Fitting, PieceBody } from '../fitting/fitting.ts';
import { cutOpenings } from '../fitting/cut-openings.ts';
import type { Step } from '../fitting/step.ts';
import { startWalls, type Wall } from '../fitting/wall.ts';

/**
 * The walls of every body when a step is done, in its own frame: openings are there once they are cut, and a wall that is
 * folded down lies straight with the others until then. Without a step: those of the finished fitting.
 */
export function shapeWalls(
  fitting: Fitting,
  steps: readonly Step[],
  step: number | null
): (readonly Wall[])[] {
  const done = step === null ? steps : steps.slice(0, step + 1);
  return fitting.bodies.map((body) => (body.kind === 'panel' ? body.walls : shapePiece(body, fitting, done)));
}

function shapePiece(body: PieceBody, { straights }: Fitting, done: readonly Step[]): readonly Wall[] {
  const straight = straights.find(({ name }) => name === body.straight)!;
  const own = done.filter((step) => step.straight === straight.name);
  const isFolded = straight.marks.length === 0 || own.some(({ sentence }) => sentence === 'fold-slope');
  const cut = new Set(
    own.flatMap(({ sentence, data }) => (sentence === 'cut-opening' ? [data['opening']] : []))
  );
  const openings = straight.openings.filter(({ name }) => cut.has(name));
  if (isFolded && openings.length === straight.openings.length) return body.walls;
  return startWalls(straight)(body.piece).flatMap((wall) => {
    const here = openings.filter(({ face }) => face === wall.face);
    if (here.length === 0) return [wall];
    // What closes the edges of an opening is of no account before the fitting is finished.
    return cutOpenings(wall, here, straight, () => ({ by: 'seal', needs: [] })) ?? [wall];
  });
}
