import type { FittingModel, Model } from '../kernel/evaluate.ts';
import type { Step } from '../kernel/fitting/step.ts';
import { listPanelBodies, type PanelBody, type Port } from '../kernel/fitting/fitting.ts';
import type { Finding } from '../kernel/fitting/finding.ts';
import type { Quantities } from '../kernel/fitting/quantities.ts';
import { SOURCES } from '../kernel/sources.ts';
import { markCut, type Cut, type FaceMark } from '../kernel/straight/cut.ts';
import { findOppositeCorner, growSection, type Section } from '../kernel/straight/section.ts';
import { measureEdges, type LineMark, type Opening, type Straight } from '../kernel/straight/straight.ts';
import { makeSpeech, speak, tellFinding, tellStep, type Speech, type Words } from '../words/words.ts';
import { round, roundClock, roundDirection } from './round.ts';
import type { Sheet, SheetFitting, SheetPanel, SheetStraight } from './schema.ts';

const SQUARE_MM_PER_SQUARE_M = 1e6;

/** The sheet of a model: what the product answers, rounded, with its sentences in the language of the job. */
export function writeSheet(model: Model): Sheet {
  const words = speak(model.show.language);
  const say = makeSpeech(model.show);
  return {
    format: 'gorewright-sheet',
    version: 1,
    name: model.name,
    fittings: model.fittings.map((fitting) => writeFitting(fitting, words, say))
  };
}

/** One fitting's part of the sheet. */
export function writeFitting(
  { resolved, findings, built }: FittingModel,
  words: Words,
  say: Speech
): SheetFitting {
  const { tag, quantity, family } = resolved;
  return {
    tag,
    quantity,
    family: family.name,
    buildable: built !== null,
    volume: round(built?.quantities.volume ?? 0),
    openEdges: built?.openEdges ?? 0,
    straights: built?.fitting.straights.map((straight) => writeStraight(straight, built)) ?? [],
    panels: built ? listPanelBodies(built.fitting).map(writePanel) : [],
    ports: built?.fitting.ports.map(writePort) ?? [],
    steps: built?.steps.map((step) => writeStep(step, words, say)) ?? [],
    quantities: writeQuantities(built?.quantities),
    findings: findings.map((finding) => writeFinding(finding, words, say))
  };
}

/** A straight as the sheet says it: its cuts, marks, openings and pieces, rounded. */
export function writeStraight(
  straight: Straight,
  { fitting, quantities }: NonNullable<FittingModel['built']>
): SheetStraight {
  const { name, section, thickness, length, makeUp, ends, cuts, marks, openings, pieces } = straight;
  return {
    name,
    section: writeSection(section),
    thickness: round(thickness),
    length: round(length),
    lay: makeUp.lay,
    make: makeUp.make,
    ends: [...ends],
    cuts: cuts.map((cut) => writeCut(cut, straight)),
    marks: marks.map(writeLineMark),
    openings: openings.map(writeOpening),
    pieces: pieces.map((piece) => {
      const edges = measureEdges(piece, section, thickness).map((edge) => edge.length);
      return {
        name: piece.name,
        flipped: piece.flipped,
        seam: piece.flipped ? findOppositeCorner(makeUp.seams[0]!) : makeUp.seams[0]!,
        axis: round(piece.axis),
        shortest: round(Math.min(...edges)),
        longest: round(Math.max(...edges)),
        volume: round(quantities.bodies[fitting.bodies.findIndex((body) => body.name === piece.name)]!)
      };
    })
  };
}

function writeCut(cut: Cut, { section, thickness }: Straight): SheetStraight['cuts'][number] {
  const [top, right, bottom, left] = markCut(cut, growSection(section, thickness), thickness).map(writeMark);
  return {
    name: cut.name,
    station: round(cut.station),
    miter: round(cut.miter),
    heel: roundClock(cut.heel),
    faces: { top: top!, right: right!, bottom: bottom!, left: left! }
  };
}

/** A bevel that rounds to nothing is an upright blade, so it has no lean. */
function writeMark({ start, end, line, bevel, lean, setback, depth }: FaceMark) {
  return {
    start: round(start),
    end: round(end),
    line: round(line),
    bevel: round(bevel),
    ...(lean && round(bevel) > 0 ? { lean } : {}),
    setback: round(setback),
    depth: round(depth)
  };
}

function writeLineMark({
  name,
  kind,
  face,
  from,
  to,
  bevel,
  lean
}: LineMark): SheetStraight['marks'][number] {
  return {
    name,
    kind,
    face,
    from: roundPoint(from),
    to: roundPoint(to),
    bevel: round(bevel),
    ...(lean && round(bevel) > 0 ? { lean } : {})
  };
}

function writeOpening({
  name,
  face,
  outer,
  inner,
  edges,
  circle
}: Opening): SheetStraight['openings'][number] {
  return {
    name,
    face,
    outer: outer.map(roundPoint),
    inner: inner.map(roundPoint),
    edges: edges.map(({ bevel }) => ({ bevel: round(bevel) })),
    ...(circle
      ? { circle: { at: roundPoint(circle.at), outer: round(circle.outer), inner: round(circle.inner) } }
      : {})
  };
}

/** A panel as the sheet says it. */
export function writePanel({ name, panel: { face, outer, inner, edges } }: PanelBody): SheetPanel {
  return {
    name,
    ...(face ? { face } : {}),
    outer: outer.map(roundPoint),
    inner: inner.map(roundPoint),
    edges: edges.map(({ kind, bevel }) => {
      if (kind === 'whole') throw new Error(`the outline of panel ${name} runs through its board`);
      return { kind, bevel: round(bevel) };
    })
  };
}

function roundPoint([first, second]: readonly [number, number]): [number, number] {
  return [round(first), round(second)];
}

function writePort({ name, at, flow, up, section, end }: Port): SheetFitting['ports'][number] {
  return {
    name,
    at: [round(at[0]), round(at[1]), round(at[2])],
    flow: [roundDirection(flow[0]), roundDirection(flow[1]), roundDirection(flow[2])],
    up: [roundDirection(up[0]), roundDirection(up[1]), roundDirection(up[2])],
    section: writeSection(section),
    end
  };
}

function writeSection({ width, height }: Section): Section {
  return { width: round(width), height: round(height) };
}

function writeStep(step: Step, words: Words, say: Speech): SheetFitting['steps'][number] {
  const { title, text } = tellStep(step, words, say);
  return {
    kind: step.kind,
    text: `${title}. ${text}`,
    ...(step.straight ? { straight: step.straight } : {}),
    cuts: [...step.cuts],
    ...(step.face ? { face: step.face } : {}),
    pieces: [...step.pieces],
    ...(step.blade !== null ? { blade: round(step.blade) } : {})
  };
}

function writeQuantities(quantities: Quantities | undefined): SheetFitting['quantities'] {
  return {
    outside: round((quantities?.outside ?? 0) / SQUARE_MM_PER_SQUARE_M),
    inside: round((quantities?.inside ?? 0) / SQUARE_MM_PER_SQUARE_M),
    mass: round(quantities?.mass ?? 0),
    seam: round(quantities?.seam ?? 0),
    joints: quantities?.joints ?? 0,
    jointOutline: round(quantities?.jointOutline ?? 0),
    glue: round(quantities?.glue ?? 0)
  };
}

function writeFinding(finding: Finding, words: Words, say: Speech): SheetFitting['findings'][number] {
  const { level, code, param, would, source } = finding;
  return {
    level,
    code,
    ...(param !== undefined ? { param } : {}),
    ...(would !== undefined ? { would: typeof would === 'number' ? round(would) : would } : {}),
    message: tellFinding(finding, words, say),
    source: SOURCES[source].cite
  };
}
