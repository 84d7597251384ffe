import { isBuildable, type Finding } from '../fitting/finding.ts';
import type { Fitting, Setting } from '../fitting/fitting.ts';
import { checkBlades } from './blades.ts';
import { checkCollision } from './collision.ts';
import { checkEdges } from './edges.ts';
import { checkPanels } from './panels.ts';
import { checkStock } from './stock.ts';
import { checkWays } from './ways.ts';

/** Everything that can be said of a fitting once it is placed, in the order in which it is shown. */
export function checkFitting(fitting: Fitting, setting: Setting): Finding[] {
  const edges = checkEdges(fitting);
  // Pieces whose edges vanish are no solids, so nothing else can be asked of them.
  if (!isBuildable(edges)) return edges;
  return [
    ...checkCollision(fitting),
    ...edges,
    ...checkBlades(fitting, setting.shop),
    ...checkPanels(fitting, setting.board),
    ...checkStock(fitting, setting),
    ...checkWays(fitting)
  ];
}
