import type { Step, StepSentence } from '../kernel/fitting/step.ts';
import type { BuiltModel } from '../kernel/evaluate.ts';
import type { Face } from '../kernel/straight/section.ts';
import type { Straight } from '../kernel/straight/straight.ts';
import type { Speech, Words } from '../words/words.ts';
import type { Figure, Item } from './figure.ts';
import { drawCap, drawCollar, drawCorner } from './step-collar.ts';
import { drawCutting, drawSeparating, drawSupports, drawTurning } from './step-cutting.ts';
import { drawEndsMeeting, drawGlueEnds, drawNosing, drawSealedEnd } from './step-ends.ts';
import {
  drawGapFilling,
  drawSlits,
  drawSlopeCut,
  drawSlopeFold,
  drawSlopeGroove,
  drawSlopeTape,
  drawTrim,
  drawWedge
} from './step-fold.ts';
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
import { drawOpening } from './step-opening.ts';
import { drawPanelCut, drawPanelLabels, drawPanelsLaidOut } from './step-panels.ts';
import { drawPartsJoining, drawPartsTape } from './step-parts.ts';
import {
  drawFlapTurning,
  drawOpeningSeal,
  drawStubGlue,
  drawStubJoining,
  drawStubSeal,
  drawStubStaples,
  drawStubTape
} from './step-stub.ts';

export { PICTURE } from './step-ink.ts';

/**
 * The picture of a step in ink, in a box of PICTURE's size from [0, 0], mm on paper (scale 1): schematic, but with the
 * section, angles, blade and names of that step. `built` is the model the step is from.
 */
export function drawStep(step: Step, built: BuiltModel, words: Words, say: Speech): Figure {
  return { layers: [{ name: 'picture', items: PICTURES[step.sentence](step, built, words, say) }] };
}

type Draw = (step: Step, built: BuiltModel, words: Words, say: Speech) => Item[];

/** Every sentence has its picture; several may share one. */
const PICTURES: Readonly<Record<StepSentence, Draw>> = {
  check: onStraight((_, straight) => drawBlanks(straight)),
  groove: onStraight(drawGrooves),
  strip: drawFlap,
  fold: onStraight((_, straight) => drawFolding(straight)),
  square: onStraight((_, straight) => drawDiagonals(straight)),
  staple: drawStaples,
  'tape-seam': drawSeamTape,
  mark: onStraight((_, straight) => drawAllMarks(straight)),
  label: (step, _, words) => drawLabels(step, words),
  turn: (step, built) => drawTurning(step, findStraight(step, built), findFaceUp(step, built)),
  support: onStraight(drawSupports),
  cut: onStraight(drawCutting),
  separate: onStraight(drawSeparating),
  flip: drawRolling,
  fit: drawFit,
  glue: onStraight((_, straight) => drawGlue(straight)),
  join: drawJoining,
  tab: drawTabs,
  'tape-joint': drawJointTape,
  'glue-ends': drawGlueEnds,
  'join-ends': () => drawEndsMeeting(true),
  'join-plain': () => drawEndsMeeting(false),
  'tape-ends': drawJointTape,
  seal: (step) => drawSealedEnd(step.data['port'] === 'inlet'),
  nose: drawNosing,
  inspect: drawInspection,

  'check-panels': drawPanelsLaidOut,
  'label-panels': drawPanelLabels,
  'cut-panel': (step, built, _, say) => drawPanelCut(step, built, say),
  'join-corners': (step) => drawCorner(step, false),
  'tape-corners': (step) => drawCorner(step, true),
  'glue-panels': onWall(drawStubGlue, (step, built) => drawCollar(step, built, 'glue')),
  'join-panels': onWall(drawStubJoining, (step, built) => drawCollar(step, built, 'join')),
  'tape-panels': onWall(drawStubTape, (step, built) => drawCollar(step, built, 'tape')),
  'glue-cap': (step, built) => drawCap(step, built, 'glue'),
  'join-cap': (step, built) => drawCap(step, built, 'join'),
  'tape-cap': (step, built) => drawCap(step, built, 'tape'),

  'cut-opening': onStraight(drawOpening),
  'seal-opening': drawOpeningSeal,
  'turn-out-flap': drawFlapTurning,
  'join-stub': drawStubJoining,
  'glue-stub': drawStubGlue,
  'enter-stub': drawStubJoining,
  'staple-stub': drawStubStaples,
  'tape-stub': drawStubTape,
  'seal-stub': drawStubSeal,

  'join-parts': drawPartsJoining,
  'tape-parts': drawPartsTape,

  'cut-slits': onStraight((_, straight) => drawSlits(straight)),
  'groove-slope': drawSlopeGroove,
  'cut-wall': drawWedge,
  'cut-slope': onStraight((_, straight) => drawSlopeCut(straight)),
  trim: onStraight((_, straight) => drawTrim(straight)),
  'fold-slope': onStraight((_, straight) => drawSlopeFold(straight)),
  'fill-gap': onStraight((_, straight) => drawGapFilling(straight)),
  'tape-slope': onStraight((_, straight) => drawSlopeTape(straight))
};

/** Panels are set on a wall with an opening, or else on the end of a collar. */
function onWall(draw: Draw, otherwise: Draw): Draw {
  return (step, built, words, say) => {
    const isOnWall = built.fitting.straights.some(
      ({ openings, pieces }) => openings.length > 0 && pieces.some(({ name }) => step.pieces.includes(name))
    );
    return (isOnWall ? draw : otherwise)(step, built, words, say);
  };
}

function onStraight(draw: (step: Step, straight: Straight) => Item[]): Draw {
  return (step, built) => draw(step, findStraight(step, built));
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
