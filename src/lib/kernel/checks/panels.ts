import type { Finding } from '../fitting/finding.ts';
import { listPanelBodies, type Fitting, type Panel } from '../fitting/fitting.ts';
import type { Board } from '../straight/board.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';

/** A panel is cut from one board, its sides along the board's or across it; a larger one is made of two, which is told. */
export function checkPanels(fitting: Fitting, board: Board): Finding[] {
  return listPanelBodies(fitting).flatMap(({ name, panel, sizedBy }): Finding[] => {
    const [across, along] = measurePanel(panel);
    const [short, long] = [Math.min(across, along), Math.max(across, along)];
    const [narrow, wide] = [Math.min(board.length, board.width), Math.max(board.length, board.width)];
    if (short <= narrow + SAME_LENGTH && long <= wide + SAME_LENGTH) return [];
    return [
      {
        level: 'warning',
        code: 'panel-large',
        param: sizedBy.param,
        data: { panel: name, across, along, boardLength: board.length, boardWidth: board.width },
        source: 'shop'
      }
    ];
  });
}

/** How much board a panel takes, inside and outside outline together, mm: across and along. */
function measurePanel({ outer, inner }: Panel): [number, number] {
  const range = (axis: 0 | 1): number => {
    const all = [...outer, ...inner].map((point) => point[axis]);
    return Math.max(...all) - Math.min(...all);
  };
  return [range(0), range(1)];
}
