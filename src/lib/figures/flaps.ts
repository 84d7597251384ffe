import type { Straight } from '../kernel/straight/straight.ts';
import type { Point } from './figure.ts';
import type { Unrolled } from './unroll.ts';

/** Where a flap lies on the unrolled faces: a line as far as it reaches, or its own outline beyond the last face. */
export interface Flap {
  readonly points: readonly Point[];
  /** Its middle, y, and how far it reaches from its corner, mm. */
  readonly y: number;
  readonly reach: number;
}

/**
 * Where the flaps lie: below the last face where the seam is at its far corner, else on the face they are stapled to,
 * as far as they reach.
 */
export function findFlaps({ makeUp, length }: Straight, { edges, faces }: Unrolled): Flap[] {
  const bottom = edges[edges.length - 1]!;
  return makeUp.blanks.flatMap((blank) => {
    const across = blank.walls.map((wall) => faces.find(({ face }) => face === wall)!);
    const width = blank.width - across.reduce((sum, { from, to }) => sum + to - from, 0);
    const reach = blank.flaps > 0 ? width / blank.flaps : 0;
    const last = across[across.length - 1]!.to;
    const lines: Flap[] = [];
    if (blank.flaps > 0 && last === bottom) {
      const points: Point[] = [
        [0, last],
        [0, last + reach],
        [length, last + reach],
        [length, last]
      ];
      lines.push({ points, y: last + reach / 2, reach });
    } else if (blank.flaps > 0) {
      lines.push(lineAcross(last, reach, length));
    }
    if (blank.flaps > 1) {
      const first = across[0]!.from === 0 ? bottom : across[0]!.from;
      lines.push(lineAcross(first, -reach, length));
    }
    return lines;
  });
}

function lineAcross(corner: number, reach: number, length: number): Flap {
  return {
    points: [
      [0, corner + reach],
      [length, corner + reach]
    ],
    y: corner + reach / 2,
    reach: Math.abs(reach)
  };
}
