import { findBlade, type Shop } from '../straight/board.ts';
import { markCut, type Cut, type FaceMark } from '../straight/cut.ts';
import { FACES, findOppositeFace, growSection, type Face } from '../straight/section.ts';
import type { Straight } from '../straight/straight.ts';
import { sequenceCuts, type CuttingChoice, type Grouping } from './choice.ts';
import { PRACTICE } from '../fitting/practice.ts';
import { describeStep, type Step, type StepKind } from '../fitting/step.ts';

/**
 * The cuts of a straight in working order, with every turn of it. By rule up to two cuts that begin on the same face go
 * face by face, more go cut by cut; from the far end unless chosen otherwise. A cut begins on the face with the smallest
 * bevel (a cheek, where the turn is plain) and ends on the opposite one, which holds the pieces together until then: a
 * support goes under each before. Face by face, cuts that follow one another and begin on the same face go together.
 */
export function orderCuts(straight: Straight, shop: Shop, choice: CuttingChoice): Step[] {
  const bench = layOnBench(straight, shop);
  const cuts = sequenceCuts(straight, choice);
  const countTogether = (rest: readonly Cut[]): number => {
    const begin = bench.first(rest[0]!);
    const other = rest.findIndex((cut) => !bench.beginsOn(cut, begin));
    return other < 0 ? rest.length : other;
  };
  const byRule: Grouping =
    cuts.length <= PRACTICE.cutsFaceByFace && countTogether(cuts) === cuts.length
      ? 'face by face'
      : 'cut by cut';
  const grouping = choice.grouping === 'rule' ? byRule : choice.grouping;
  for (let made = 0; made < cuts.length;) {
    const batch = cuts.slice(made, made + (grouping === 'cut by cut' ? 1 : countTogether(cuts.slice(made))));
    bench.make(batch);
    made += batch.length;
  }
  return bench.steps;
}

/** The step that turns a straight about its length from one face up to another; none where that is up. */
export function describeTurn(straight: string, up: Face, face: Face): Step[] {
  if (face === up) return [];
  const quarters = findOppositeFace(face) === up ? 2 : 1;
  return [describeStep('turn', { straight, face, data: { face, quarters } })];
}

function layOnBench(straight: Straight, shop: Shop) {
  const { section, thickness, name, pieces, cuts } = straight;
  const outside = growSection(section, thickness);
  const marks = new Map(cuts.map((cut) => [cut, markCut(cut, outside, thickness)]));
  const markOn = (cut: Cut, face: Face): FaceMark => marks.get(cut)![FACES.indexOf(face)]!;
  const steps: Step[] = [];
  const parted = new Set<Cut>();
  let up: Face = 'top';

  const beginsOn = (cut: Cut, face: Face): boolean =>
    marks.get(cut)!.every(({ bevel }) => markOn(cut, face).bevel <= bevel + 1e-9);
  const first = (cut: Cut): Face => [up, ...FACES].find((face) => beginsOn(cut, face))!;

  const add = (kind: StepKind, rest: Pick<Step, 'data'> & Partial<Step>): void => {
    steps.push(describeStep(kind, { straight: name, ...rest }));
  };
  const turnTo = (face: Face): void => {
    steps.push(...describeTurn(name, up, face));
    up = face;
  };
  const cutOn = (cut: Cut, face: Face): void => {
    const { start, end, line, bevel, lean, setback, depth } = markOn(cut, face);
    const data = { cut: cut.name, face, start, end, line, bevel, setback, depth, ...(lean ? { lean } : {}) };
    add('cut', { cuts: [cut.name], face, data, blade: findBlade(shop, bevel) });
  };
  const separate = (cut: Cut): void => {
    parted.add(cut);
    const far = pieces.find(({ startCut }) => startCut === cut);
    const near = pieces.find(({ endCut }) => endCut === cut);
    // A piece comes free with the last of its cuts; beyond a shared cut there is only an off-cut.
    const free = [far, near].flatMap((piece) =>
      piece && [piece.startCut, piece.endCut].every((end) => !end || parted.has(end)) ? [piece.name] : []
    );
    add('separate', { cuts: [cut.name], pieces: free, data: { cut: cut.name, pieces: free } });
  };
  const make = (batch: readonly Cut[]): void => {
    const begin = first(batch[0]!);
    const at = FACES.indexOf(begin);
    const between = [FACES[(at + 1) % 4]!, FACES[(at + 3) % 4]!];
    for (const face of [begin, ...between]) {
      turnTo(face);
      for (const cut of batch) cutOn(cut, face);
    }
    const end = findOppositeFace(begin);
    turnTo(end);
    add('support', {
      pieces: pieces.map((piece) => piece.name),
      cuts: batch.map((cut) => cut.name),
      data: { cuts: batch.map((cut) => cut.name) }
    });
    for (const cut of batch) {
      cutOn(cut, end);
      separate(cut);
    }
  };
  return { steps, beginsOn, first, make };
}
