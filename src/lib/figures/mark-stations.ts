import type { Straight } from '../kernel/straight/straight.ts';
import type { Item, Point, Subject, Text } from './figure.ts';
import { findTextRoom, LETTERING } from './lettering.ts';
import type { Manner } from './manner.ts';
import type { Room } from './room.ts';
import { unrollCut, unrollFaces } from './unroll.ts';

/** Sizes on paper, mm. */
const GAP = 1;
const FIRST_ROW = 2.2;
const ROW = 3.8;
const ROWS = 8;

export interface Spot extends Pick<Text, 'at' | 'anchor'> {
  /** A line from the corner to a figure that stands further out. */
  readonly leader?: readonly [Point, Point];
}

export interface Station {
  readonly text: string;
  readonly at: Point;
  readonly about: Subject;
}

/**
 * The station at every corner that a mark meets, from the datum end: once a corner, it serves the faces on both sides.
 * Between the faces it stands in one of the four angles of corner line and mark; outside them in rows, beyond the flap
 * (`flap`: as far as it reaches below the last face, mm).
 */
export function writeStations(
  straight: Straight,
  { scale, say }: Manner,
  room: Room,
  flap: number
): { items: Item[]; leftOut: number } {
  const { edges, faces } = unrollFaces(straight);
  const last = edges.length - 1;
  const written = edges.flatMap((_, i) => {
    const stations = straight.cuts.map((cut): Station => {
      const at = unrollCut(straight, cut)[i]!;
      return {
        text: say.figure(at[0]),
        at,
        about: { cut: cut.name, face: faces[Math.min(i, last - 1)]!.face }
      };
    });
    if (i === 0) return writeOutside(stations, -1, 0, scale, room);
    if (i < last)
      return stations.map((station) => writeStation(station, listAngles(station, scale), scale, room));
    // Under the last face lies the flap: a figure stays inside the face where it can.
    const inside = stations.map((station) => {
      const above = listAngles(station, scale).filter(({ at }) => at[1] < station.at[1]);
      return writeStation(station, above, scale, room);
    });
    const outside = writeOutside(
      stations.filter((_, k) => inside[k] === null),
      1,
      flap * scale,
      scale,
      room
    );
    return [...inside.filter((items) => items !== null), ...outside];
  });
  return {
    items: written.flatMap((items) => items ?? []),
    leftOut: written.filter((items) => items === null).length
  };
}

/**
 * Figures in a row outside the faces, each over its mark; where that is too close, all of them end at their marks and
 * climb in steps, so that no leader crosses the figure before it.
 */
function writeOutside(
  stations: readonly Station[],
  down: 1 | -1,
  skip: number,
  scale: number,
  room: Room
): (Item[] | null)[] {
  const over = (station: Station, from: Room): Item[] | null =>
    writeStation(
      station,
      [{ at: goOut(station.at, FIRST_ROW + skip, down, scale), anchor: 'middle' }],
      scale,
      from
    );
  const trial = room.fork();
  const inRow = stations.map((station) => over(station, trial));
  if (inRow.every((items) => items !== null)) {
    room.join(trial);
    return inRow;
  }
  return stations.map((station) => {
    const steps = Array.from({ length: ROWS }, (_, row): Spot => {
      const out = FIRST_ROW + skip + row * ROW;
      const [x, y] = goOut(station.at, out, down, scale);
      return {
        at: [x + GAP / 2 / scale, y],
        anchor: 'end',
        ...(row > 0 || skip > 0
          ? {
              leader: [
                goOut(station.at, GAP / 2, down, scale),
                goOut(station.at, out - LETTERING.figures, down, scale)
              ]
            }
          : {})
      };
    });
    return writeStation(station, steps, scale, room);
  });
}

/** The four angles between the corner line and the mark, below and to the right first. */
export function listAngles({ at: [x, y] }: Station, scale: number): Spot[] {
  const beside = (right: 1 | -1, down: 1 | -1): Spot => ({
    at: [x + (right * GAP) / scale, y + (down * FIRST_ROW) / scale],
    anchor: right > 0 ? 'start' : 'end'
  });
  return [beside(1, 1), beside(1, -1), beside(-1, 1), beside(-1, -1)];
}

/** Writes a figure at the first free of several spots; null where none is. */
export function writeStation(
  { text, about }: Station,
  spots: readonly Spot[],
  scale: number,
  room: Room
): Item[] | null {
  const places = spots.map(({ at, anchor, leader }): Item[] => [
    { kind: 'text', text, at, anchor, height: LETTERING.figures, about },
    ...(leader ? [{ kind: 'stroke', line: 'narrow', points: leader, about } as const] : [])
  ]);
  const found = room.take(
    places.map(
      (items) => () =>
        items.map((item) =>
          item.kind === 'text'
            ? findTextRoom(item, scale)
            : item.points.map(([x, y]): Point => [x * scale, y * scale])
        )
    )
  );
  return places[found] ?? null;
}

function goOut([x, y]: Point, out: number, down: 1 | -1, scale: number): Point {
  return [x, y + (out * down) / scale];
}
