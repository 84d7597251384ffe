import type { Cut } from '../kernel/straight/cut.ts';
import type { Piece, Straight } from '../kernel/straight/straight.ts';
import type { Box, Point, Text } from './figure.ts';
import { LETTERING } from './lettering.ts';
import type { Manner } from './manner.ts';
import { placeText, type Room } from './room.ts';
import { unrollFaces } from './unroll.ts';

/** The pieces before and after a cut of the straight; null where it cuts off what is no piece. */
export function findSides({ pieces }: Straight, cut: Cut): { near: Piece | null; far: Piece | null } {
  return {
    near: pieces.find(({ endCut }) => endCut === cut) ?? null,
    far: pieces.find(({ startCut }) => startCut === cut) ?? null
  };
}

/** The stations where the mark meets the corners. */
export function writeCorners(mark: readonly Point[], cut: Cut, { scale, say }: Manner, room: Room): Text[] {
  return mark.flatMap(([x, y]) => {
    const spots = [
      [1, 1],
      [-1, 1],
      [1, -1],
      [-1, -1]
    ].flatMap(([right, down]) =>
      [1.5, 6].map((gap) => ({
        at: [x + (right! * gap) / scale, y + (down! * (LETTERING.figures + gap / 2)) / scale] as Point,
        anchor: right! > 0 ? ('start' as const) : ('end' as const)
      }))
    );
    const text = {
      text: say.figure(x),
      height: LETTERING.names,
      bold: true as const,
      about: { cut: cut.name }
    };
    return placeText(room, scale, text, spots) ?? [];
  });
}

/** What lies on either side of the cut, which face it is and that its outside is up, on every face in sight. */
export function nameSides(
  straight: Straight,
  cut: Cut,
  { scale, words }: Manner,
  window: Box,
  room: Room
): Text[] {
  const { template } = words.paper;
  const { near, far } = findSides(straight, cut);
  const inset = 3 / scale;
  const shown = unrollFaces(straight).faces.map(({ face, from, to }) => ({
    face,
    top: Math.max(from, window.top),
    bottom: Math.min(to, window.bottom)
  }));
  return shown
    .filter(({ top, bottom }) => bottom > top)
    .flatMap(({ face, top, bottom }) => {
      const levels = [0.3, 0.5, 0.7, 0.15, 0.85].map((part) => top + part * (bottom - top));
      const at = (x: number, anchor: Text['anchor']) => levels.map((y) => ({ at: [x, y] as Point, anchor }));
      const [left, right] = [at(window.left + inset, 'start'), at(window.right - inset, 'end')];
      const write = (text: string, spots: typeof left, about: Text['about']): Text[] => {
        const placed = placeText(
          room,
          scale,
          { text, height: LETTERING.figures, ...(about ? { about } : {}) },
          spots
        );
        return placed ? [placed] : [];
      };
      return [
        ...write(`${template.face(words.faces[face])}, ${template.outsideUp}`, [...left, ...right], { face }),
        ...write(
          template.upstream(near?.name ?? template.offcut),
          left,
          near ? { piece: near.name } : undefined
        ),
        ...write(
          template.downstream(far?.name ?? template.offcut),
          right,
          far ? { piece: far.name } : undefined
        )
      ];
    });
}
