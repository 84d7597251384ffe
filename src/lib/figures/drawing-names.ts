import { findMiddle, type Body } from '../kernel/fitting/fitting.ts';
import { movePoint, turnDirection } from '../kernel/geometry/motion.ts';
import { dot } from '../kernel/geometry/vector.ts';
import { compareDepth, type BodyShape } from './drawing-body.ts';
import type { Item, Point, Text } from './figure.ts';
import { findTextRoom, LETTERING } from './lettering.ts';
import { isInside, type Room } from './room.ts';
import { project, type View } from './view.ts';

/**
 * From the axis to the middle of a piece's name, mm on paper: clear of a handle on the axis, further where that slopes.
 */
const NAME_ASIDE = [5, 6, 7.5, 10];

/** The same of a smaller name in a narrow duct, between its axis and the dashed line of its inside. */
const NARROW_ASIDE = 2.6;

/** From the middle of the axis to where a name is tried, as shares of its length. */
const NAME_ALONG = [0, 0.25, -0.25, 0.4, -0.4];

/** Where a name is tried beside the axis: how large, at which share of the length, how far aside. */
interface Try {
  readonly height: number;
  readonly share: number;
  readonly aside: number;
}

/** A panel has no axis that a name could lie over. */
const TRIES: Readonly<Record<Body['kind'], readonly Try[]>> = { piece: listTries([]), panel: listTries([0]) };

function listTries(first: readonly number[]): Try[] {
  const asides = [...first, ...NAME_ASIDE.flatMap((aside) => [aside, -aside])];
  return [
    { height: LETTERING.names, at: asides },
    { height: LETTERING.figures, at: asides },
    { height: LETTERING.figures, at: [NARROW_ASIDE, -NARROW_ASIDE] }
  ].flatMap(({ height, at }) => NAME_ALONG.flatMap((share) => at.map((aside) => ({ height, share, aside }))));
}

/** A piece whose length is shortened to less than this share is seen from its end: its name stands above or below it. */
const END_ON = 0.3;

/** From the outline to the middle of a name outside it, mm on paper. */
const NAME_OUTSIDE = 3.2;

/** A panel whose facing is turned to the eye by more than this cosine is named. */
const NAMED = 0.3;

/**
 * The name of a piece stands beside the axis, square to it on the one side or the other, at the middle or further along;
 * smaller where it would lie over a line, over one where there is no other room; of one seen from its end outside it. The name
 * of a panel stands on its facing, where that is turned to the eye. A name that would lie over another, or on what
 * hides its piece, or a panel's over a line, is left out.
 */
export function drawName(
  shape: BodyShape,
  inFront: readonly BodyShape[],
  view: View,
  scale: number,
  room: Room
): Item[] {
  const { body, silhouettes } = shape;
  if (body.kind === 'panel' && dot(view.eye, turnDirection(body.placement, [0, 1, 0])) < NAMED) return [];
  const [x, y] = project(view, movePoint(body.placement, findMiddle(body)));
  const [fx, fy] = project(view, turnDirection(body.placement, [1, 0, 0]));
  const write = (height: number, at: Point): Text => ({
    kind: 'text',
    text: body.name,
    bold: true,
    about: { piece: body.name },
    anchor: 'middle',
    height,
    at
  });
  const length = body.kind === 'piece' ? body.piece.axis : measureDownstream(body.panel.outer);
  const beside = TRIES[body.kind];
  const writeBeside = ({ height, share, aside }: Try): Text => {
    const [along, across] = [share * length, (aside * height) / LETTERING.names / scale];
    return write(height, [x + along * fx - across * fy, y + along * fy + across * fx]);
  };
  const isOn = (at: Point, outlines: BodyShape['silhouettes']): boolean =>
    outlines.some((outline) => isInside(at, outline));
  const endOn = Math.hypot(fx, fy) < END_ON && !inFront.some((other) => isOn([x, y], other.silhouettes));
  const ys = silhouettes.flatMap((outline) => outline.map((point) => point[1]));
  const outside =
    endOn && body.kind === 'piece'
      ? [Math.max(...ys) + NAME_OUTSIDE / scale, Math.min(...ys) - NAME_OUTSIDE / scale]
      : [];
  const texts = [
    ...beside.map((one) => () => writeBeside(one)),
    ...outside.map((level) => () => write(LETTERING.names, [x, level]))
  ];
  const places = texts.map((tryText, i) => () => {
    const text = tryText();
    if (i < beside.length && !isOn(text.at, silhouettes)) return null;
    const outline = findTextRoom(text, scale);
    const corners = outline.map(([px, py]): Point => [px / scale, py / scale]);
    // Of a neighbour in the same depth a little may be written over, of what hides the piece nothing.
    const isHidden = inFront.some((other) =>
      [text.at, ...(compareDepth(shape, other) < 0 ? corners : [])].some((at) => isOn(at, other.silhouettes))
    );
    return isHidden ? null : [outline];
  });
  const found = texts[room.take(places, body.kind === 'panel')];
  return found ? [found()] : [];
}

function measureDownstream(outer: readonly (readonly [number, number])[]): number {
  const ys = outer.map(([, downstream]) => downstream);
  return Math.max(...ys) - Math.min(...ys);
}
