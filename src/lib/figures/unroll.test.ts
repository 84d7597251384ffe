import { describe, expect, it } from 'vitest';
import { build } from '../../../tests/duct.ts';
import { EXAMPLES, PARTED_EXAMPLES } from '../../../tests/paper.ts';
import { DEFAULT_SHOW } from '../kernel/document/job.ts';
import { makeSpeech, speak } from '../words/words.ts';
import { drawCard } from './card.ts';
import type { Fill, Figure, Item, Point } from './figure.ts';
import { layStraight } from './laid-straight.ts';
import { drawMarks } from './marks.ts';
import { drawStraight } from './straight.ts';
import { listOffcuts, outlinePiece, outlineSpan, unrollFaces, unrollPiece } from './unroll.ts';

const measureArea = (points: readonly Point[]): number =>
  Math.abs(
    points.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = points[(i + 1) % points.length]!;
      return sum + x * nextY - nextX * y;
    }, 0)
  ) / 2;

const TRIMMED = build(PARTED_EXAMPLES['a folded and trimmed reducer that opens']).fitting.straights[0]!;
const SLOPING = 'left';

describe('Pieces and off-cuts of a straight', () => {
  it.each(Object.entries({ ...EXAMPLES, ...PARTED_EXAMPLES }))(
    'together cover it once, wall by wall and all round: %s',
    (_, request) => {
      for (const straight of build(request).fitting.straights) {
        const { faces } = unrollFaces(straight);
        for (const [i, { face, from, to }] of faces.entries()) {
          const spans = [
            ...straight.pieces.map((piece) => unrollPiece(straight, piece)[i]!),
            ...listOffcuts(straight).filter((offcut) => offcut.face === face)
          ];
          const covered = spans.reduce((sum, span) => sum + measureArea(outlineSpan(span)), 0);
          expect(covered, face).toBeCloseTo(straight.length * (to - from), 4);
        }
        for (const piece of straight.pieces) {
          const walls = unrollPiece(straight, piece).map((span) => measureArea(outlineSpan(span)));
          const round = measureArea(outlinePiece(straight, piece));
          expect(round, piece.name).toBeCloseTo(
            walls.reduce((sum, area) => sum + area, 0),
            4
          );
        }
      }
    }
  );

  it('leave the sloping wall of a trimmed fold whole and take the ends of the three others', () => {
    const offcuts = listOffcuts(TRIMMED);
    expect(offcuts.map(({ face }) => face).sort()).toEqual(['bottom', 'right', 'top']);
    const trims = TRIMMED.marks.filter(({ kind }) => kind === 'trim');
    expect(trims).toHaveLength(3);
    for (const { face, start, end } of offcuts) {
      const { from, to } = trims.find((trim) => trim.face === face)!;
      expect([start[0][0], start[1][0]]).toEqual([from[0], to[0]]);
      expect([end[0][0], end[1][0]]).toEqual([TRIMMED.length, TRIMMED.length]);
    }
    const sloping = unrollPiece(TRIMMED, TRIMMED.pieces[0]!).find(({ face }) => face === SLOPING)!;
    expect(sloping.end.map(([x]) => x)).toEqual([TRIMMED.length, TRIMMED.length]);
  });

  const manner = { scale: 0.1, words: speak('en'), say: makeSpeech(DEFAULT_SHOW) };
  const { from, to } = unrollFaces(TRIMMED).faces.find(({ face }) => face === SLOPING)!;
  const isFill = (item: Item): item is Fill => item.kind === 'fill';
  const listFills = (figure: Figure): Fill[] => figure.layers.flatMap(({ items }) => items.filter(isFill));
  const lieOn = ({ points }: Fill): boolean => points.every(([, y]) => y >= from && y <= to);

  it.each([
    ['mark-out', drawMarks(TRIMMED, manner)],
    ['card model', drawCard(TRIMMED, manner).figure]
  ])('are hatched so on the %s', (_, figure) => {
    const waste = listFills(figure).filter(({ fill }) => fill === 'offcut');
    expect(waste).toHaveLength(3);
    expect(waste.filter(lieOn)).toEqual([]);
  });

  it('are so on the whole template, either side up, and on the picture of the straight', () => {
    for (const side of ['outside', 'inside'] as const) {
      const { pieces, faces } = layStraight(TRIMMED, null, { side });
      const { top, bottom } = faces.find(({ face }) => face === SLOPING)!;
      const ends = pieces[0]!.outer.filter(([x]) => x === TRIMMED.length).map(([, y]) => y);
      expect([Math.min(...ends), Math.max(...ends)]).toEqual([top, bottom]);
    }
    const waste = listFills(drawStraight(TRIMMED, manner)).filter(({ fill }) => fill === 'offcut');
    expect(waste).toHaveLength(1);
  });
});
