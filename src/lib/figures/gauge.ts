import { cosDegrees, sinDegrees, tanDegrees } from '../kernel/geometry/angle.ts';
import { SAME_LENGTH } from '../kernel/geometry/tolerance.ts';
import type { FittingModel, Model } from '../kernel/evaluate.ts';
import { listPanelBodies } from '../kernel/fitting/fitting.ts';
import { SAME_BEVEL } from '../kernel/straight/board.ts';
import { markCut } from '../kernel/straight/cut.ts';
import { FACES, growSection, type Face } from '../kernel/straight/section.ts';
import type { LineMark } from '../kernel/straight/straight.ts';
import { speakOfPrint } from '../words/speak-of-print.ts';
import { drawSweep } from './dimensions.ts';
import type { Box, Figure, Item, Point } from './figure.ts';
import { drawLine, writeLine } from './ink.ts';
import { findTextRoom } from './lettering.ts';
import type { Manner } from './manner.ts';
import { measureLineAngle } from './mark-lines.ts';
import { startRoom } from './room.ts';

/** An angle that the marks of a job ask for, and where: one of a line on a face, or a bevel of the blade, degrees. */
export interface Gauge {
  readonly kind: 'line' | 'bevel';
  readonly angle: number;
  /** Of a bevel, mm. */
  readonly setback: number;
  readonly depth: number;
  readonly uses: readonly Use[];
}

/** Cuts, marks, openings and panels of a fitting, by name, that have the angle on the same faces; none: on no face of its own. */
export interface Use {
  readonly tag: string;
  readonly cuts: readonly string[];
  readonly faces: readonly Face[];
}

/** Angles closer than this are one gauge, degrees: what a blade of the shop may be off. */
const SAME = SAME_BEVEL;

/** Length of the two legs, of the line square to the first, and the radii of the arcs, paper mm. */
const LEG = 82;
const UPRIGHT = 66;
const ARC = 70;
const REST_ARC = 22;
const LABEL_AT = 50;
const LABEL_ASIDE = 2.6;
const TICK = 1.5;

/** Distances are drawn up to these, where their labels still find room, mm. */
const LONGEST_SETBACK = 32;
const LONGEST_DEPTH = 45;

/** Room of a gauge from its vertex: up to the figure over the arc, down to the dimension under the first leg, mm. */
export const GAUGE = { above: 89, below: 9, width: LEG + 3 } as const;

/** The room right of the second leg that no figure of a gauge needs, from its vertex, mm. */
export function findRoomBeside(angle: number): Box {
  return { left: LEG * sinDegrees(angle) + 4, top: -LEG, right: GAUGE.width, bottom: -REST_ARC - 18 };
}

interface Asked {
  readonly kind: Gauge['kind'];
  readonly angle: number;
  readonly setback: number;
  readonly depth: number;
  readonly use: { readonly tag: string; readonly cut: string; readonly face: Face | null };
}

/** Every different line angle, then every different bevel, of all fittings that can be built, small to large. */
export function listGauges({ fittings }: Model): Gauge[] {
  const asked = fittings.flatMap(askAngles);
  return (['line', 'bevel'] as const).flatMap((kind) => {
    const groups: { first: Asked; orders: number[] }[] = [];
    const odd = asked.map((_, order) => order).filter((order) => asked[order]!.kind === kind);
    for (const order of odd.sort((a, b) => asked[a]!.angle - asked[b]!.angle)) {
      const group = groups[groups.length - 1];
      if (group && asked[order]!.angle - group.first.angle <= SAME) group.orders.push(order);
      else groups.push({ first: asked[order]!, orders: [order] });
    }
    return groups.map(({ first: { angle, setback, depth }, orders }): Gauge => {
      const uses = orders.sort((a, b) => a - b).map((order) => asked[order]!.use);
      return { kind, angle, setback, depth, uses: gatherUses(uses) };
    });
  });
}

/** Whether any fitting of the job has an angle to make a gauge of. */
export function hasGauges({ fittings }: Model): boolean {
  return fittings.some((fitting) => askAngles(fitting).length > 0);
}

/** The angles that are not square or upright: of all cuts, marks and openings of a fitting, and of its panels' edges. */
function askAngles({ resolved: { tag, setting }, built }: FittingModel): Asked[] {
  if (!built) return [];
  const { thickness } = setting.board;
  const askLine = (cut: string, face: Face, angle: number): Asked => ({
    kind: 'line',
    angle,
    setback: 0,
    depth: 0,
    use: { tag, cut, face }
  });
  const askBevel = (cut: string, face: Face | null, angle: number): Asked => ({
    kind: 'bevel',
    angle,
    setback: thickness * tanDegrees(angle),
    depth: thickness / cosDegrees(angle),
    use: { tag, cut, face }
  });
  const onStraights = built.fitting.straights.flatMap(({ cuts, marks, openings, section }) => [
    ...cuts.flatMap((cut) =>
      markCut(cut, growSection(section, thickness), thickness).flatMap(({ face, line, bevel }) => [
        askLine(cut.name, face, line),
        askBevel(cut.name, face, bevel)
      ])
    ),
    ...marks.flatMap((mark) => [
      ...(isAskew(mark) ? [askLine(mark.name, mark.face, measureLineAngle(mark))] : []),
      askBevel(mark.name, mark.face, mark.bevel)
    ]),
    ...openings.flatMap(({ name, face, edges }) => edges.map(({ bevel }) => askBevel(name, face, bevel)))
  ]);
  const onPanels = listPanelBodies(built.fitting).flatMap(({ name, panel }) =>
    panel.edges.map(({ bevel }) => askBevel(name, panel.face, bevel))
  );
  return [...onStraights, ...onPanels].filter(({ angle }) => angle > SAME);
}

/** Whether a mark runs neither along the duct nor square across. */
function isAskew({ from, to }: LineMark): boolean {
  return Math.abs(from[0] - to[0]) > SAME_LENGTH && Math.abs(from[1] - to[1]) > SAME_LENGTH;
}

/**
 * A gauge at true size (scale 1), its vertex at [0, 0]: the first leg, to the right, lies on the edge of the face (of a
 * bevel on the facing), the second is the mark (the blade); between them what is left of a right angle.
 */
export function drawGauge(gauge: Gauge, manner: Omit<Manner, 'scale'>): Figure {
  const { kind, angle, depth } = gauge;
  const { words, say } = manner;
  const { gauges } = speakOfPrint(words.language);
  const along = (distance: number, aside = 0): Point => [
    distance * sinDegrees(angle) + aside * cosDegrees(angle),
    -distance * cosDegrees(angle) + aside * sinDegrees(angle)
  ];
  const vertex: Point = [0, 0];
  const legs = [drawLine([vertex, [LEG, 0]], 'cut'), drawLine([vertex, along(LEG)], 'cut')];
  const upright = drawLine([vertex, [0, -UPRIGHT]], 'axis');
  const labels: Item[] = [
    writeLine(kind === 'line' ? gauges.edge : gauges.facing, [LEG, 2.6], { anchor: 'end' }),
    writeLine(kind === 'line' ? gauges.mark : gauges.blade, along(LABEL_AT, LABEL_ASIDE), {
      angle: 90 - angle
    }),
    ...(kind === 'bevel' ? drawDistances(gauge, along, manner) : [])
  ];
  const room = startRoom();
  for (const { points } of [...legs, upright]) room.keep(points);
  for (const label of labels) room.keep(label.kind === 'text' ? findTextRoom(label, 1) : label.points);
  // The arc of the rest keeps away from the label of the depth.
  const radius = kind === 'line' ? REST_ARC : depth > REST_ARC / 2 + 6 ? REST_ARC / 2 : REST_ARC + 14;
  const turned = { at: vertex, start: 90 - angle, end: 90, radius: ARC, text: say.angle(angle) };
  const rest = { at: vertex, start: 0, end: 90 - angle, radius, text: say.angle(90 - angle) };
  const arcs = [turned, rest].flatMap((sweep) => drawSweep(sweep, { scale: 1, room }).items);
  return {
    layers: [
      { name: 'legs', items: [...legs, upright] },
      { name: 'figures', items: [...labels, ...arcs] }
    ]
  };
}

/** Set-back along the facing and depth along the blade at true size, where the legs are long enough. */
function drawDistances(
  { setback, depth }: Gauge,
  along: (distance: number, aside?: number) => Point,
  { words, say }: Omit<Manner, 'scale'>
): Item[] {
  const { gauges } = speakOfPrint(words.language);
  const level = 4.5;
  return [
    ...(setback < LONGEST_SETBACK
      ? [
          ...[0, setback].map((x) =>
            drawLine([
              [x, 1],
              [x, level + TICK]
            ])
          ),
          drawLine([
            [0, level],
            [setback, level]
          ]),
          writeLine(gauges.setback(say.figure(setback)), [setback + 1.5, level])
        ]
      : []),
    ...(depth < LONGEST_DEPTH
      ? [
          drawLine([along(depth, -TICK), along(depth, TICK)]),
          writeLine(gauges.depth(say.figure(depth)), along(depth, TICK + 1))
        ]
      : [])
  ];
}

/** Cuts of a fitting on one line where the faces are the same. */
function gatherUses(uses: readonly Asked['use'][]): Use[] {
  const faces = new Map<string, { tag: string; cut: string; faces: Set<Face> }>();
  for (const { tag, cut, face } of uses) {
    const key = JSON.stringify([tag, cut]);
    const entry = faces.get(key) ?? { tag, cut, faces: new Set() };
    if (face) entry.faces.add(face);
    faces.set(key, entry);
  }
  const gathered = new Map<string, { tag: string; cuts: string[]; faces: Face[] }>();
  for (const { tag, cut, faces: on } of faces.values()) {
    const ordered = FACES.filter((face) => on.has(face));
    const key = JSON.stringify([tag, ordered]);
    const entry = gathered.get(key) ?? { tag, cuts: [], faces: ordered };
    entry.cuts.push(cut);
    gathered.set(key, entry);
  }
  return [...gathered.values()];
}
