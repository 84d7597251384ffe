import type { Motion } from '../geometry/motion.ts';
import { add, cross, scale, type Vec3 } from '../geometry/vector.ts';
import type { Board, Shop } from '../straight/board.ts';
import type { End, Lay } from '../straight/blank.ts';
import { growSection, placeCorner, type Corner, type Face, type Section } from '../straight/section.ts';
import type { Piece, Straight } from '../straight/straight.ts';
import type { Step } from './step.ts';
import type { Wall, WallEdge } from './wall.ts';

/** All a family needs to know beside its own parameters. */
export interface Setting {
  readonly tag: string;
  readonly section: Section;
  readonly board: Board;
  readonly shop: Shop;
  /** As said in the document; undefined: chosen by what the board yields. */
  readonly lay: Lay | undefined;
  readonly seam: Corner;
  readonly ends: { readonly inlet: End | undefined; readonly outlet: End | undefined };
}

/** The parameter that sets a measure of the fitting. */
export interface ParamReference {
  /** Path inside the fitting of the document, `params.gore`. */
  readonly param: string;
  /** Its value now; null where it follows from the others. */
  readonly value: number | null;
  /** Its value once the measure has grown by so much; null where none does, or where it only follows. */
  raise(by: number): number | null;
}

/** A parameter that grows by `rate` where the measure grows by 1. */
export function referTo(param: string, value: number | null, rate = 1): ParamReference {
  return { param, value, raise: (by) => (value === null ? null : value + by * rate) };
}

/**
 * A parameter that says how to lengthen its own piece, but not how to shorten the whole: what it takes from its piece it
 * gives, at least in part, to others.
 */
export function lengthenOnly(reference: ParamReference): ParamReference {
  return { ...reference, raise: (by) => (by < 0 ? null : reference.raise(by)) };
}

/** One rigid part of the fitting: its walls in its own frame and where it goes. */
export type Body = PieceBody | PanelBody;

/** A piece of a straight; its frame is the straight's. */
export interface PieceBody extends BodyBase {
  readonly kind: 'piece';
  readonly straight: string;
  readonly piece: Piece;
}

/** A panel; its frame has x downstream along the facing, z clockwise round the duct, the facing at y = 0, up. */
export interface PanelBody extends BodyBase {
  readonly kind: 'panel';
  readonly panel: Panel;
}

/** A wall cut flat from board. Its points are [clockwise, downstream] on the facing, mm, the inner ones dropped square onto it. */
export interface Panel {
  /** The face of the duct that it makes; null where it is none of a rectangular duct's. */
  readonly face: Face | null;
  readonly outer: readonly PanelPoint[];
  readonly inner: readonly PanelPoint[];
  /** `edges[i]` runs from point i to i + 1. */
  readonly edges: readonly WallEdge[];
}

export type PanelPoint = readonly [clockwise: number, downstream: number];

interface BodyBase {
  readonly name: string;
  /** Convex solids of board; where a wall is not convex, or has an opening, it is several. */
  readonly walls: readonly Wall[];
  /** Takes its frame to the fitting's frame. */
  readonly placement: Motion;
  /** What sets its length. */
  readonly sizedBy: ParamReference;
  /** How much of the inside of its walls other board covers, so that no air passes there, mm². */
  readonly covered?: number;
  /** Length that its shortest outside edge should keep, mm: the shop's least throat or gore, 0 where there is none. */
  readonly least: number;
}

/** Where two bodies meet. */
export interface Joint {
  readonly bodies: readonly [string, string];
  /** Middle of the joint in the fitting's frame, mm. */
  readonly at: Vec3;
  readonly closing: MiterJoint | EndJoint | MadeJoint;
}

/** Two bodies that share one cut, glued and taped. */
export interface MiterJoint {
  readonly kind: 'miter';
  readonly cut: string;
  /** A straight that carries the cut. */
  readonly straight: string;
  /** Miter of the cut, degrees; the duct turns by twice as much. */
  readonly miter: number;
  /** What sets the miter. */
  readonly turnedBy: ParamReference;
}

/** Two straights that meet end to end inside a piece. */
export interface EndJoint {
  readonly kind: 'ends';
  readonly ends: readonly [End, End];
}

/** Two bodies joined as its steps say; of a joint of several bodies only the first two carry steps and lengths. */
export interface MadeJoint {
  readonly kind: 'made';
  /** Told when they are asked for, which a drag seldom does. */
  readonly steps: () => readonly Step[];
  /** Length of its glue line and of its tape, mm. */
  readonly glue: number;
  readonly outline: number;
}

/** The joints of a fitting that are glued miters. */
export function listMiterJoints(fitting: Fitting): MiterJoint[] {
  return fitting.joints.flatMap(({ closing }) => (closing.kind === 'miter' ? [closing] : []));
}

/** Whether two ends go into each other. */
export function isMating([first, second]: readonly [End, End]): boolean {
  return (first === 'male' && second === 'female') || (first === 'female' && second === 'male');
}

/** An open end of the fitting. */
export interface Port {
  readonly name: string;
  /** The body whose end it is. */
  readonly body: string;
  /** Centre of the inside section in the end plane, mm. */
  readonly at: Vec3;
  /** Unit direction of the flow: into the fitting at an inlet, out of it elsewhere. */
  readonly flow: Vec3;
  readonly up: Vec3;
  readonly section: Section;
  readonly end: End;
  /** Other bodies that end there, of parts side by side. */
  readonly others?: readonly string[];
  /** A hole in a wall: it has no profile and needs none. */
  readonly isOpening?: true;
}

/** What every view, check and export reads. The fitting's frame: origin at the inlet's centre, flow along x, y up. */
export interface Fitting {
  readonly straights: readonly Straight[];
  /** What is done to a straight beyond its cuts, once it is marked, in order; each step names its straight. */
  readonly shaping: () => readonly Step[];
  /** The axes of its air ways, each a broken line of points, mm. */
  readonly axes: readonly (readonly Vec3[])[];
  readonly bodies: readonly Body[];
  readonly joints: readonly Joint[];
  /** What is glued and taped within one body, mm. */
  readonly closed: readonly { readonly glue: number; readonly outline: number }[];
  readonly ports: readonly Port[];
}

/** Where an outside corner of a port lies in the fitting's frame, mm; width lies along flow × up. */
export function placePortCorner(port: Port, thickness: number, corner: Corner): Vec3 {
  const [up, right] = placeCorner(growSection(port.section, thickness), corner);
  return add(port.at, add(scale(port.up, up), scale(cross(port.flow, port.up), right)));
}

/** The bodies that are pieces of straights. */
export function listPieceBodies(fitting: Fitting): PieceBody[] {
  return fitting.bodies.filter((body) => body.kind === 'piece');
}

/** The bodies that are panels. */
export function listPanelBodies(fitting: Fitting): PanelBody[] {
  return fitting.bodies.filter((body) => body.kind === 'panel');
}

/** The middle of a body in its own frame, mm: of a piece on the axis, of a panel in the middle of its facing. */
export function findMiddle(body: Body): Vec3 {
  if (body.kind === 'piece') return [body.piece.from + body.piece.axis / 2, 0, 0];
  const { outer } = body.panel;
  const mean = (i: 0 | 1): number => outer.reduce((sum, point) => sum + point[i], 0) / outer.length;
  return [mean(1), 0, mean(0)];
}
