import type { Step } from '../kernel/fitting/step.ts';
import type { BuiltModel } from '../kernel/evaluate.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import type { Words } from '../words/words.ts';
import type { Figure, Item } from './figure.ts';
import { drawCutting, drawSeparating, drawSupports, drawTurning } from './step-cutting.ts';
import { drawEndsMeeting, drawGlueEnds, drawNosing, drawSealedEnd } from './step-ends.ts';
import {
  drawFit,
  drawGlue,
  drawInspection,
  drawJoining,
  drawJointTape,
  drawRolling,
  drawTabs
} from './step-joining.ts';
import {
  drawBlanks,
  drawDiagonals,
  drawFlap,
  drawFolding,
  drawGrooves,
  drawSeamTape,
  drawStaples
} from './step-making.ts';
import { drawAllMarks, drawLabels } from './step-marking.ts';

export { PICTURE } from './step-ink.ts';

/**
 * The picture of a step in ink, in a box of PICTURE's size from [0, 0], mm on paper (scale 1): schematic, but with the
 * section, angles, blade and names of that step. `built` is the model the step is from.
 */
export function drawStep(step: Step, built: BuiltModel, words: Words): Figure {
  return { layers: [{ name: 'picture', items: draw(step, built, words) }] };
}

function draw(step: Step, built: BuiltModel, words: Words): Item[] {
  const straight = (): Straight => findStraight(step, built);
  switch (step.kind) {
    case 'check':
      return drawBlanks(straight());
    case 'groove':
      return drawGrooves(step, straight());
    case 'strip':
      return drawFlap();
    case 'fold':
      return drawFolding(straight());
    case 'square':
      return drawDiagonals(straight());
    case 'staple':
      return drawStaples(step);
    case 'mark':
      return drawAllMarks(straight());
    case 'label':
      return drawLabels(step, words);
    case 'turn':
      return drawTurning(step, straight(), findFaceUp(step, built));
    case 'support':
      return drawSupports(step, straight());
    case 'cut':
      return drawCutting(step, straight());
    case 'separate':
      return drawSeparating(step, straight());
    case 'flip':
      return drawRolling(step, built);
    case 'fit':
      return drawFit(step, built);
    case 'glue':
      return step.sentence === 'glue-ends' ? drawGlueEnds() : drawGlue(straight());
    case 'join':
      if (step.sentence === 'join') return drawJoining(step, built);
      return drawEndsMeeting(step.sentence === 'join-ends');
    case 'tab':
      return drawTabs(step, built);
    case 'tape':
      return step.sentence === 'tape-seam' ? drawSeamTape() : drawJointTape(step, built);
    case 'seal':
      return drawSealedEnd(step.data['port'] === 'inlet');
    case 'nose':
      return drawNosing();
    case 'inspect':
      return drawInspection(step, built);
  }
}

function findStraight({ straight, kind }: Step, { fitting }: BuiltModel): Straight {
  const found = fitting.straights.find(({ name }) => name === straight);
  if (!found) throw new Error(`the fitting has no straight ${straight} for the picture of a step (${kind})`);
  return found;
}

/** Which face is up before a step: the one the straight was last turned to, the top to begin with. */
function findFaceUp(step: Step, { steps }: BuiltModel): Face {
  const turns = steps
    .slice(0, steps.indexOf(step))
    .filter(({ kind, straight }) => kind === 'turn' && straight === step.straight);
  return turns[turns.length - 1]?.face ?? 'top';
}
