import type { Vec3 } from '../../src/lib/kernel/geometry/vector.ts';
import { BEYOND, makeTube, RADIANS, reachOf, type Expected, type Stuff } from './expected.ts';
import { makeBox, type Solid } from './manifold.ts';
import { extrudeProfile, hollow, PLANES, span, type Flat, type WallName } from './profiles.ts';

/** What a document says of a reducer. */
export interface ReducerParams {
  readonly outlet: { readonly width: number; readonly height: number };
  readonly alignY?: string | number;
  readonly alignZ?: string | number;
  readonly length?: number;
  readonly slope?: number;
  readonly collarIn?: number;
  readonly collarOut?: number;
  readonly finish?: string;
}

/** How far the outlet's axis lies up and to the right of the inlet's: inside faces are lined up. */
export function alignOutlet(
  { outlet, alignY, alignZ }: ReducerParams,
  { width, height }: ReducerParams['outlet']
) {
  const way = (align: string | number | undefined, less: number, high: string, low: string): number => {
    if (typeof align === 'number') return align;
    if (align === high) return less / 2;
    return align === low ? -less / 2 : 0;
  };
  return {
    up: way(alignY, height - outlet.height, 'top', 'bottom'),
    right: way(alignZ, width - outlet.width, 'right', 'left')
  };
}

/** How far each wall closes in from inlet to outlet, and the length: as said, or by the steepest slope. */
export function measureTaper(params: ReducerParams, section: ReducerParams['outlet']) {
  const { outlet } = params;
  const { up, right } = alignOutlet(params, section);
  const drops: Record<WallName, number> = {
    top: section.height / 2 - (up + outlet.height / 2),
    right: section.width / 2 - (right + outlet.width / 2),
    bottom: section.height / 2 - (outlet.height / 2 - up),
    left: section.width / 2 - (outlet.width / 2 - right)
  };
  const steepest = Math.max(...Object.values(drops).map(Math.abs));
  const length = params.length ?? steepest / Math.tan(params.slope! * RADIANS);
  return { up, right, drops, length, begins: params.collarIn ?? 100, collarOut: params.collarOut ?? 100 };
}

/** A taper of four walls between collars: outer rectangles spanned, less the inside ones. */
export function expectPanels(stuff: Stuff): Expected {
  const { width, height, t } = stuff;
  const params = stuff.params as unknown as ReducerParams;
  const { outlet } = params;
  const { up, right, drops, length, begins, collarOut } = measureTaper(params, { width, height });
  const ends = begins + length;
  // Square to the duct a wall that slopes takes t/cos δ.
  const thick = (wall: WallName): number => (t * Math.hypot(length, drops[wall])) / length;
  const ring = (x: number, grown: boolean): Vec3[] => {
    const [w, h, y, z] = x === begins ? [width, height, 0, 0] : [outlet.width, outlet.height, up, right];
    const more = (wall: WallName): number => (grown ? thick(wall) : 0);
    const [top, bottom] = [y + h / 2 + more('top'), y - h / 2 - more('bottom')];
    const [left, far] = [z - w / 2 - more('left'), z + w / 2 + more('right')];
    return [
      [x, top, left],
      [x, top, far],
      [x, bottom, far],
      [x, bottom, left]
    ];
  };
  const inside = (): Solid => span([...ring(begins, false), ...ring(ends, false)]);
  const taper = hollow(span([...ring(begins, true), ...ring(ends, true)]), inside());
  const far = { ...outlet, t };
  const move = (solid: Solid): Solid => {
    const moved = solid.translate([0, up, right]);
    solid.delete();
    return moved;
  };
  const collars = [
    ...(begins > 0 ? [makeTube(0, begins, stuff)] : []),
    ...(collarOut > 0 ? [move(makeTube(ends, ends + collarOut, far))] : [])
  ];
  return {
    board: [taper, ...collars],
    ways: [
      {
        port: 'outlet',
        at: [ends + collarOut, up, right],
        flow: [1, 0, 0],
        plug: () => [
          inside(),
          makeBox(-BEYOND, begins, height, width),
          move(makeBox(ends, ends + collarOut + BEYOND, outlet.height, outlet.width))
        ]
      }
    ],
    volume: null
  };
}

/** The wall of a folded reducer that slopes, and the profile of its outside and inside, out of that wall. */
export function profileFold(params: ReducerParams, section: ReducerParams['outlet'], t: number) {
  const { drops, length, begins, collarOut, up, right } = measureTaper(params, section);
  const wall = (Object.keys(drops) as WallName[]).reduce((a, b) =>
    Math.abs(drops[b]) > Math.abs(drops[a]) ? b : a
  );
  const drop = drops[wall];
  const { depth, half } = reachOf(wall, section);
  const lead = t * Math.tan(Math.atan2(drop, length) / 2);
  const [ends, whole] = [begins + length, begins + length + collarOut];
  const outline = (more: number, shift: number): Flat[] => [
    [0, -depth - more],
    [whole, -depth - more],
    [whole, depth - drop + more],
    [ends - shift, depth - drop + more],
    [begins - shift, depth + more],
    [0, depth + more]
  ];
  // The inside of the slope is parallel to its facing: both its bends lie upstream by t·tan(δ/2) where it closes.
  return { wall, drop, half, up, right, whole, outer: outline(t, 0), inner: outline(0, lead) };
}

/** A duct of which one wall slopes: two profiles of its sides, one as wide as the outside, one as the inside. */
export function expectFold({ params, width, height, t }: Stuff): Expected {
  const said = params as unknown as ReducerParams;
  const { wall, half, up, right, whole, outer, inner } = profileFold(said, { width, height }, t);
  const plane = PLANES[wall];
  const stretch = inner.map(([x, out]): Flat => [x === 0 ? -BEYOND : x === whole ? whole + BEYOND : x, out]);
  const inside = (): Solid => extrudeProfile(plane, stretch, [-half, half]);
  return {
    board: [hollow(extrudeProfile(plane, outer, [-half - t, half + t]), inside())],
    ways: [{ port: 'outlet', at: [whole, up, right], flow: [1, 0, 0], plug: () => [inside()] }],
    volume: measureFold(said, { width, height }, t)
  };
}

/**
 * A·[B·n − Δ(L/2 + x1)] − a·[b·n − Δ(L/2 + x1 + t·tan(δ/2))], n = x0 + L + x1: A, a across the slope, B, b the larger
 * depth, x0 the collar at the larger end, x1 that at the smaller.
 */
export function measureFold(params: ReducerParams, section: ReducerParams['outlet'], t: number): number {
  const { drops, length, begins, collarOut } = measureTaper(params, section);
  const [drop, other] = (
    [
      ['top', 'bottom'],
      ['right', 'left']
    ] as const
  )
    .map(([a, b]) => drops[a] + drops[b])
    .map(Math.abs) as [number, number];
  const [depthOf, acrossOf] = drop > other ? (['height', 'width'] as const) : (['width', 'height'] as const);
  const fall = Math.max(drop, other);
  const a = section[acrossOf];
  const b = Math.max(section[depthOf], params.outlet[depthOf]);
  const small = params.outlet[depthOf] < section[depthOf] ? collarOut : begins;
  const n = begins + length + collarOut;
  const lead = t * Math.tan(Math.atan2(fall, length) / 2);
  return (
    (a + 2 * t) * ((b + 2 * t) * n - fall * (length / 2 + small)) -
    a * (b * n - fall * (length / 2 + small + lead))
  );
}
