import type { Vec3 } from '../geometry/vector.ts';
import type { Board } from '../straight/board.ts';
import { CORNERS, growSection, placeCorner, type Section } from '../straight/section.ts';
import type { Joint, PanelBody, ParamReference, PieceBody } from './fitting.ts';
import { joinAll } from './merge.ts';
import { cutPanel } from './panel.ts';
import { holdByTabs } from './practice.ts';
import { describeStep, type Step } from './step.ts';
import type { WallEdge } from './wall.ts';

/** A panel that closes an end: set into it flush, or on it. */
export interface EndPanel {
  readonly name: string;
  readonly set: 'in' | 'on';
  /** Station of the end that it closes, mm, and whether the duct lies upstream of it. */
  readonly station: number;
  readonly isFar: boolean;
  readonly section: Section;
  readonly sizedBy: ParamReference;
}

/** What the step that tapes an end panel does. */
function nameDeed(panel: string): string {
  return `tape ${panel}`;
}

/** The edges of the duct's walls at an end that a panel closes. */
export function edgeAtPanel(panel: string): WallEdge {
  return { kind: 'plain', bevel: 0, closing: { by: 'joint', needs: [nameDeed(panel)] } };
}

/** "in": inside × t, flush with the end; "on": outside × t, beyond it. Its facing looks out of the duct. */
export function cutEndPanel(end: EndPanel, { thickness }: Board): PanelBody {
  const { name, set, station, isFar, sizedBy } = end;
  const size = set === 'in' ? end.section : growSection(end.section, thickness);
  const way = isFar ? 1 : -1;
  const facing = set === 'in' ? station : station + way * thickness;
  const ring = (x: number): Vec3[] => CORNERS.map((corner) => [x, ...placeCorner(size, corner)]);
  // Corners run with the clock looking downstream: seen from outside, that is against it at the far end only.
  const order = (corners: Vec3[]): Vec3[] => (isFar ? corners : [1, 0, 3, 2].map((i) => corners[i]!));
  const edge = { ...edgeAtPanel(name), kind: 'cut' as const };
  // Of a panel on the end the air meets only what is inside the duct.
  const { width, height } = end.section;
  const covered = set === 'on' ? size.width * size.height - width * height : 0;
  const panel = cutPanel({
    name,
    face: null,
    outer: order(ring(facing)),
    inner: order(ring(facing - way * thickness)),
    edges: [edge, edge, edge, edge],
    sizedBy
  });
  return { ...panel, covered };
}

/** The piece at a closed end: a panel set into it covers the inside of its walls by its own thickness. */
export function coverEnd(body: PieceBody, { set, section }: EndPanel, { thickness }: Board): PieceBody {
  if (set === 'on') return body;
  const covered = (body.covered ?? 0) + 2 * (section.width + section.height) * thickness;
  return { ...body, covered };
}

/** The panel glued into or on the end of a piece, and taped. */
export function joinEndPanel(piece: string, end: EndPanel, { thickness }: Board): Joint[] {
  const { name, set, section, station, isFar } = end;
  const outside = growSection(section, thickness);
  const outline = 2 * (outside.width + outside.height);
  const glue = 2 * (section.width + section.height);
  const on = { pieces: [piece, name] };
  const data = { piece, panel: name, set };
  const steps = (): Step[] => [
    describeStep('glue', { ...on, sentence: 'glue-cap', data: { ...data, length: glue } }),
    describeStep('join', { ...on, sentence: 'join-cap', data }),
    holdByTabs([outside.width, outside.height, outside.width, outside.height], on),
    describeStep('tape', {
      ...on,
      sentence: 'tape-cap',
      source: 'closure',
      does: [nameDeed(name)],
      data: { ...data, outline }
    })
  ];
  return joinAll([isFar ? [piece, name] : [name, piece]], [station, 0, 0], { steps, glue, outline });
}
