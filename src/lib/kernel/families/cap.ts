import { IDENTITY } from '../geometry/motion.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Finding } from '../fitting/finding.ts';
import { suggestValue } from '../fitting/suggest.ts';
import { listPieceBodies, referTo } from '../fitting/fitting.ts';
import { coverEnd, cutEndPanel, edgeAtPanel, joinEndPanel } from '../fitting/end-panel.ts';
import { buildMiteredPath } from '../fitting/mitered-path.ts';
import { edgeAllRound } from '../fitting/wall.ts';
import { defineFamily } from './family.ts';
import { clamp, LEAST_DRAGGED_LENGTH, LONGEST } from './limits.ts';

/** A straight closed at its downstream end by a panel, set into it flush or on it. */
export const cap = defineFamily({
  name: 'cap',
  group: 'close',
  params: {
    set: { of: { kind: 'choice', of: ['in', 'on'] }, default: 'in' },
    length: { of: { kind: 'length', above: 0, max: LONGEST }, default: 200 }
  },
  rules: [],
  example: { set: 'in', length: 200 },
  build({ set, length }, setting) {
    const sizedBy = referTo('params.length', length);
    const run = buildMiteredPath([{ axis: length, sizedBy }], [], setting, {
      numbering: { straights: 0, cuts: 0, pieces: 0 },
      at: IDENTITY,
      ports: ['inlet', null],
      endEdges: [{}, edgeAllRound(edgeAtPanel('W1'))]
    });
    if (!run.fitting) return run;
    const fault = checkDepth(set, length, setting.board.thickness);
    if (fault) return { fitting: null, findings: [fault] };
    const { section, board } = setting;
    const end = { name: 'W1', set, station: length, isFar: true, section, sizedBy };
    const pieces = listPieceBodies(run.fitting);
    const last = pieces[pieces.length - 1]!;
    const bodies = [...pieces.slice(0, -1), coverEnd(last, end, board), cutEndPanel(end, board)];
    return {
      fitting: {
        ...run.fitting,
        bodies,
        joints: [...run.fitting.joints, ...joinEndPanel(last.name, end, board)]
      },
      findings: []
    };
  },
  handles: ({ length }) => [
    { id: 'length', at: [length, 0, 0], along: [1, 0, 0], kind: 'length', value: length }
  ],
  drag: ({ length }, _handle, point) => ({
    length: clamp(point[0], Math.min(LEAST_DRAGGED_LENGTH, length), LONGEST)
  }),
  derive: () => ({}),
  bladeValues: () => [],
  mirror: () => ({})
});

/** A panel set into an end needs a duct that is deeper than the panel is thick. */
export function checkDepth(set: 'in' | 'on', length: number, thickness: number): Finding | null {
  if (set === 'on' || length > thickness + SAME_LENGTH) return null;
  return {
    level: 'error',
    code: 'neck-short',
    param: 'params.length',
    would: suggestValue(length, thickness + 1),
    data: { length, thickness },
    source: 'geometry'
  };
}
