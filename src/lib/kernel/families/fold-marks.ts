import { cosDegrees } from '../geometry/angle.ts';
import type { Setting } from '../fitting/fitting.ts';
import { describeStep, type Step } from '../fitting/step.ts';
import {
  FACES,
  findOppositeFace,
  growSection,
  measureFace,
  type Face,
  type Section
} from '../straight/section.ts';
import type { FacePoint, LineMark, Straight } from '../straight/straight.ts';
import type { ReducerValues } from './reducer-measures.ts';
import { FOLDED, TAPED, type Fold } from './fold-measures.ts';

/** Slits along the two corners, the groove, the wedge, the slopes of the cheeks, and what is trimmed off. */
export function markFold(fold: Fold, finish: ReducerValues['finish'], { board }: Setting): LineMark[] {
  const outside = growSection(fold.larger, board.thickness);
  const width = measureFace(outside, fold.face);
  const end = finish === 'trim' ? fold.whole + fold.short : fold.whole;
  const opposite = findOppositeFace(fold.face);
  const cheeks = FACES.filter((face) => face !== fold.face && face !== opposite);
  const marks: Omit<LineMark, 'name'>[] = [];
  const draw = (
    kind: LineMark['kind'],
    face: Face,
    from: FacePoint,
    to: FacePoint,
    bevel: number,
    lean: LineMark['lean'] = null
  ): void => {
    marks.push({ kind, face, from, to, bevel, lean });
  };
  const across = (kind: LineMark['kind'], station: number, lean: LineMark['lean']): void =>
    draw(kind, fold.face, [station, 0], [station, width], fold.slope / 2, lean);
  for (const edge of [0, width]) draw('slit', fold.face, [fold.begins, edge], [end, edge], 0);
  across('groove', fold.begins, null);
  // The wedge opens on the facing, its point is inside.
  across('cut', fold.cutAt, 'upstream');
  across('cut', fold.cutAt + 2 * fold.lead, 'downstream');
  for (const cheek of cheeks) {
    const depth = measureFace(outside, cheek);
    // The edge to a top or left wall is a face's first, that to a bottom or right wall its second.
    const isFirst = fold.face === 'top' || fold.face === 'left';
    const down = (drop: number): number => (isFirst ? drop : depth - drop);
    draw('cut', cheek, [fold.begins, down(0)], [fold.ends, down(fold.drop)], 45);
    draw('cut', cheek, [fold.ends, down(fold.drop)], [fold.whole, down(fold.drop)], 45);
  }
  if (finish === 'trim') {
    for (const face of [opposite, ...cheeks]) {
      draw('trim', face, [fold.whole, 0], [fold.whole, measureFace(outside, face)], 0);
    }
  }
  return marks.map((mark, i) => ({ name: `M${i + 1}`, ...mark }));
}

/** The steps from the first slit to the taped slope. */
export function shapeFold(
  fold: Fold,
  finish: ReducerValues['finish'],
  straight: Straight,
  { board }: Pick<Setting, 'board'>
): Step[] {
  const on = { straight: straight.name, face: fold.face };
  const pieces = straight.pieces.map(({ name }) => name);
  const width = measureFace(growSection(fold.larger, board.thickness), fold.face);
  const cheeks = FACES.filter((face) => face !== fold.face && face !== findOppositeFace(fold.face));
  return [
    describeStep('cut', { ...on, sentence: 'cut-slits', data: { face: fold.face, from: fold.begins } }),
    describeStep('groove', {
      ...on,
      sentence: 'groove-slope',
      data: { face: fold.face, station: fold.begins, slope: fold.slope, side: fold.lead }
    }),
    describeStep('cut', {
      ...on,
      sentence: 'cut-wall',
      data: { face: fold.face, station: fold.cutAt, wedge: 2 * fold.lead, bevel: fold.slope / 2 }
    }),
    ...cheeks.map((face) =>
      describeStep('cut', {
        ...on,
        face,
        sentence: 'cut-slope',
        data: { face, from: fold.begins, to: fold.ends, drop: fold.drop }
      })
    ),
    ...(finish === 'trim' ? [cheeks[0]!, findOppositeFace(fold.face), cheeks[1]!] : []).map((face) =>
      describeStep('cut', {
        ...on,
        face,
        sentence: 'trim',
        data: { face, station: fold.whole, off: fold.short }
      })
    ),
    describeStep('fold', {
      ...on,
      sentence: 'fold-slope',
      pieces,
      does: [FOLDED],
      data: { face: fold.face, slope: fold.slope }
    }),
    ...(finish === 'strip'
      ? [describeStep('glue', { ...on, sentence: 'fill-gap', pieces, data: { gap: fold.short, width } })]
      : []),
    describeStep('tape', {
      ...on,
      sentence: 'tape-slope',
      source: 'closure',
      pieces,
      does: [TAPED],
      data: { length: measureClosing(fold, finish, { board }).outline }
    })
  ];
}

/** Glue and tape of the fold, mm: along both slit edges, and across where the wall was cut, once or on both sides of the strip. */
export function measureClosing(
  { face, larger, begins, ends, whole, slope }: Fold,
  finish: ReducerValues['finish'],
  { board }: Pick<Setting, 'board'>
): { readonly glue: number; readonly outline: number } {
  const along = 2 * ((ends - begins) / cosDegrees(slope) + whole - ends);
  const lines = finish === 'strip' ? 2 : 1;
  const across = (section: Section): number => lines * measureFace(section, face);
  return { glue: along + across(larger), outline: along + across(growSection(larger, board.thickness)) };
}
