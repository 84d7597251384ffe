import type { Motion } from '../geometry/motion.ts';
import { add, cross, scale, type Vec3 } from '../geometry/vector.ts';
import type { Board, Shop } from '../straight/board.ts';
import type { End, Lay } from '../straight/blank.ts';
import { growSection, placeCorner, type Corner, type Section } from '../straight/section.ts';
import type { Piece, Straight } from '../straight/straight.ts';
import type { Wall } from './wall.ts';

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

/** One rigid part of the fitting: a piece of a straight, with its walls in the straight's frame and where it goes. */
export interface Body {
  readonly name: string;
  readonly straight: string;
  readonly piece: Piece;
  readonly walls: readonly Wall[];
  /** Takes the straight's frame to the fitting's frame. */
  readonly placement: Motion;
  /** What sets its length. */
  readonly sizedBy: ParamReference;
  /** Length that its shortest outside edge should keep, mm: the shop's least throat or gore, 0 where there is none. */
  readonly least: number;
}

/** Where two bodies meet. */
export interface Joint {
  readonly bodies: readonly [string, string];
  /** Middle of the joint in the fitting's frame, mm. */
  readonly at: Vec3;
  readonly closing: MiterJoint | EndJoint;
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
}

/** What every view, check and export reads. The fitting's frame: origin at the inlet's centre, flow along x, y up. */
export interface Fitting {
  readonly straights: readonly Straight[];
  readonly bodies: readonly Body[];
  readonly joints: readonly Joint[];
  readonly ports: readonly Port[];
}

/** Where an outside corner of a port lies in the fitting's frame, mm; width lies along flow × up. */
export function placePortCorner(port: Port, thickness: number, corner: Corner): Vec3 {
  const [up, right] = placeCorner(growSection(port.section, thickness), corner);
  return add(port.at, add(scale(port.up, up), scale(cross(port.flow, port.up), right)));
}
