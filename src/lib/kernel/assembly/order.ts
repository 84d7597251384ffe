import { distance } from '../geometry/vector.ts';
import {
  isMating,
  listMiterJoints,
  listPanelBodies,
  listPieceBodies,
  placePortCorner,
  type EndJoint,
  type Fitting,
  type Joint,
  type MiterJoint,
  type PanelBody,
  type Setting
} from '../fitting/fitting.ts';
import { findBlade, type Board } from '../straight/board.ts';
import { findStation, measureOutline } from '../straight/cut.ts';
import {
  growSection,
  measureFace,
  MARK_CORNERS,
  FACES,
  placeCorner,
  type Face
} from '../straight/section.ts';
import type { Straight } from '../straight/straight.ts';
import { USUAL, type CuttingChoice } from './choice.ts';
import { describeTurn, orderCuts } from './cutting.ts';
import { holdByTabs, PRACTICE } from '../fitting/practice.ts';
import { describeStep, nameSealDeed, type Step } from '../fitting/step.ts';

/**
 * The order of work of a fitting, from grooving the blanks of its straights to the inspection. A chosen sequence of cuts
 * that cannot be followed ({@link findSequenceFault}) is not.
 */
export function orderWork(
  fitting: Fitting,
  setting: Pick<Setting, 'board' | 'shop'>,
  choice: CuttingChoice = USUAL
): Step[] {
  const shaping = fitting.shaping();
  return [
    ...fitting.straights.flatMap((straight) => [
      ...makeStraight(straight, setting.board),
      ...markStraight(straight, fitting),
      ...turnForShaping(straight, shaping),
      ...(straight.cuts.length > 0 ? orderCuts(straight, setting.shop, choice) : [])
    ]),
    ...makePanels(listPanelBodies(fitting), setting),
    ...assemble(fitting, setting.board),
    ...sealEnds(fitting, setting.board),
    inspect(fitting, setting.board.thickness)
  ];
}

function makeStraight(straight: Straight, board: Board): Step[] {
  const { makeUp, section, thickness, length } = straight;
  const outside = growSection(section, thickness);
  const on = { straight: straight.name };
  const marks = straight.cuts.flatMap((cut) =>
    FACES.flatMap((face) =>
      MARK_CORNERS[face].map((corner) => findStation(cut, ...placeCorner(outside, corner)))
    )
  );
  // The fold hinges on the facing; what the groove takes on the inside depends on the corner profile.
  const groove =
    board.corner === 'miter'
      ? { before: thickness, after: thickness }
      : { before: thickness, after: thickness / 2 };
  const widths = makeUp.blanks.map((blank) => blank.width);
  // Stations count from shoulder to shoulder; the spigot of a male end is board beyond it.
  const blankLength = straight.ends.includes('male') ? length + board.spigot : length;
  return [
    describeStep('check', {
      ...on,
      data: { thickness, length: blankLength, widths, lay: makeUp.lay, make: makeUp.make }
    }),
    ...makeUp.blanks
      .filter(({ folds }) => folds.length > 0)
      .map(({ folds, walls }) =>
        describeStep('groove', {
          ...on,
          data: { folds, walls, corner: board.corner, ...groove, facing: thickness }
        })
      ),
    describeStep('strip', { ...on, data: { flap: board.flap } }),
    describeStep('fold', {
      ...on,
      data: { corners: makeUp.blanks.reduce((sum, { folds }) => sum + folds.length, 0) }
    }),
    describeStep('square', {
      ...on,
      data: { diagonal: Math.hypot(outside.width, outside.height), within: PRACTICE.squareness }
    }),
    describeStep('staple', {
      ...on,
      source: 'closure',
      data: { pitch: PRACTICE.staplePitch, clear: PRACTICE.stapleClearance, marks: marks.length }
    }),
    describeStep('tape', {
      ...on,
      sentence: 'tape-seam',
      source: 'closure',
      data: { seam: length * makeUp.seams.length }
    })
  ];
}

/** Marks and labels; a straight that is a fitting by itself needs neither. */
function markStraight(straight: Straight, { bodies }: Fitting): Step[] {
  const cuts = straight.cuts.map(({ name }) => name);
  const others = [...straight.marks, ...straight.openings].map(({ name }) => name);
  if (bodies.length === 1 && others.length === 0) return [];
  const pieces = straight.pieces.map(({ name }) => name);
  const flipped = straight.pieces.filter((piece) => piece.flipped).map(({ name }) => name);
  const staying = straight.pieces.filter((piece) => !piece.flipped).map(({ name }) => name);
  return [
    ...(cuts.length + others.length > 0
      ? [describeStep('mark', { straight: straight.name, cuts, data: { cuts: [...cuts, ...others] } })]
      : []),
    describeStep('label', { straight: straight.name, pieces, data: { staying, flipped } })
  ];
}

/** The shaping of a straight, turned for every face that is worked on, and back for its cuts. */
function turnForShaping(straight: Straight, shaping: readonly Step[]): Step[] {
  let up: Face = 'top';
  const turnTo = (face: Face): Step[] => {
    const steps = describeTurn(straight.name, up, face);
    up = face;
    return steps;
  };
  const steps = shaping
    .filter((step) => step.straight === straight.name)
    .flatMap((step) => [...(step.face ? turnTo(step.face) : []), step]);
  return straight.cuts.length > 0 ? [...steps, ...turnTo('top')] : steps;
}

/** Panels are marked on the facing and cut one by one, each edge at its bevel. */
function makePanels(panels: readonly PanelBody[], { board, shop }: Pick<Setting, 'board' | 'shop'>): Step[] {
  if (panels.length === 0) return [];
  const pieces = panels.map(({ name }) => name);
  return [
    describeStep('check', {
      sentence: 'check-panels',
      pieces,
      data: { panels: pieces, thickness: board.thickness }
    }),
    describeStep('label', { sentence: 'label-panels', pieces, data: { panels: pieces } }),
    ...panels.map(({ name, panel }) => {
      const across = panel.outer.map(([clockwise]) => clockwise);
      const along = panel.outer.map(([, downstream]) => downstream);
      const bevels = [...new Set(panel.edges.map(({ bevel }) => Math.round(bevel * 1e9) / 1e9))];
      return describeStep('cut', {
        sentence: 'cut-panel',
        pieces: [name],
        face: panel.face,
        blade: bevels.length === 1 ? findBlade(shop, bevels[0]!) : null,
        data: {
          panel: name,
          width: Math.max(...across) - Math.min(...across),
          length: Math.max(...along) - Math.min(...along),
          bevels
        }
      });
    })
  ];
}

function assemble(fitting: Fitting, board: Board): Step[] {
  if (fitting.joints.length === 0) return [];
  const cuts = listMiterJoints(fitting).map(({ cut }) => cut);
  const flipped = listPieceBodies(fitting)
    .filter(({ piece }) => piece.flipped)
    .map(({ name }) => name);
  const pieces = fitting.bodies.map(({ name }) => name);
  return [
    ...(flipped.length > 0 ? [describeStep('flip', { pieces: flipped, data: { pieces: flipped } })] : []),
    describeStep('fit', { pieces, cuts, data: { gap: PRACTICE.dryGap } }),
    ...fitting.joints.flatMap(({ bodies, closing }) => {
      switch (closing.kind) {
        case 'miter':
          return joinMiter(fitting, bodies, closing);
        case 'ends':
          return joinEnds(fitting, bodies, closing, board);
        case 'made':
          return closing.steps();
      }
    })
  ];
}

function joinMiter(fitting: Fitting, bodies: Joint['bodies'], joint: MiterJoint): Step[] {
  const straight = fitting.straights.find(({ name }) => name === joint.straight)!;
  const cut = straight.cuts.find(({ name }) => name === joint.cut)!;
  const outside = growSection(straight.section, straight.thickness);
  const sides = FACES.map((face) => {
    const [from, to] = MARK_CORNERS[face].map((corner) => findStation(cut, ...placeCorner(outside, corner)));
    return Math.hypot(measureFace(outside, face), to! - from!);
  });
  const on = { straight: joint.straight, cuts: [joint.cut], pieces: [...bodies] };
  return [
    describeStep('glue', { ...on, data: { cut: joint.cut, length: measureOutline(cut, straight.section) } }),
    describeStep('join', { ...on, data: { first: bodies[0], second: bodies[1], turn: 2 * joint.miter } }),
    holdByTabs(sides, on),
    describeStep('tape', {
      ...on,
      sentence: 'tape-joint',
      source: 'closure',
      data: { cut: joint.cut, outline: measureOutline(cut, outside) }
    })
  ];
}

/** Two straights end to end: a male end goes into a female one, two that do not mate are made to or butted and glued. */
function joinEnds(fitting: Fitting, bodies: Joint['bodies'], { ends }: EndJoint, board: Board): Step[] {
  const { straight, piece } = listPieceBodies(fitting).find(({ name }) => name === bodies[0])!;
  const { section, thickness } = fitting.straights.find(({ name }) => name === straight)!;
  const outside = growSection(section, thickness);
  const sides = FACES.map((face) => measureFace(outside, face));
  const on = { straight, pieces: [...bodies] };
  const data = { first: bodies[0], second: bodies[1], spigot: board.spigot };
  return [
    ...(isMating(ends)
      ? [describeStep('join', { ...on, sentence: 'join-ends', data })]
      : [
          describeStep('glue', {
            ...on,
            sentence: 'glue-ends',
            data: { ...data, length: 2 * (section.width + section.height) }
          }),
          describeStep('join', { ...on, sentence: 'join-plain', data })
        ]),
    holdByTabs(sides, on),
    describeStep('tape', {
      ...on,
      sentence: 'tape-ends',
      source: 'closure',
      data: { piece: piece.name, outline: sides.reduce((sum, side) => sum + side, 0) }
    })
  ];
}

function sealEnds(fitting: Fitting, board: Board): Step[] {
  return fitting.ports
    .filter((port) => port.end === 'plain' && !port.isOpening)
    .map((port) => {
      const body = fitting.bodies.find(({ name }) => name === port.body)!;
      return describeStep('seal', {
        straight: body.kind === 'piece' ? body.straight : null,
        pieces: [body.name, ...(port.others ?? [])],
        does: [nameSealDeed(port.name)],
        data: { port: port.name, spigot: board.spigot }
      });
    });
}

/** The inspection measures from corner to corner of the ends, where a tape can lie: outside, top left at both. */
function inspect(fitting: Fitting, thickness: number): Step {
  const corners = fitting.ports.map((port) => placePortCorner(port, thickness, 'top-left'));
  return describeStep('inspect', {
    pieces: fitting.bodies.map(({ name }) => name),
    data: {
      twist: PRACTICE.twist,
      angle: PRACTICE.angle,
      outlet: PRACTICE.outlet,
      corners: corners.slice(1).map((corner) => distance(corners[0]!, corner))
    }
  });
}
