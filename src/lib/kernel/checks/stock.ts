import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Finding } from '../fitting/finding.ts';
import type { Fitting, Setting } from '../fitting/fitting.ts';
import type { Straight } from '../straight/straight.ts';
import { suggestValue } from '../fitting/suggest.ts';

/** What the board yields: straights that are longer than one board gives, and ends that carry no joining profile. */
export function checkStock(fitting: Fitting, setting: Setting): Finding[] {
  return [
    ...fitting.straights.flatMap((straight) => checkLength(fitting, straight)),
    ...fitting.ports.flatMap((port) => checkEnd(port, setting))
  ];
}

/** Suggests shortening the longest piece that a parameter sizes, where that leaves something of it. */
function checkLength(fitting: Fitting, straight: Straight): Finding[] {
  const excess = straight.length - straight.makeUp.yield;
  if (excess <= SAME_LENGTH) return [];
  const longest = fitting.bodies
    .filter((body) => body.straight === straight.name && body.sizedBy.value !== null)
    .reduce<Fitting['bodies'][number] | null>((a, b) => (a && a.piece.axis >= b.piece.axis ? a : b), null);
  const shorter = longest && longest.sizedBy.raise(-excess);
  const would = shorter !== null && suggestValue(longest!.sizedBy.value!, shorter);
  return [
    {
      level: 'warning',
      code: 'straight-long',
      ...(longest ? { param: longest.sizedBy.param } : {}),
      ...(would !== false && would > 0 ? { would } : {}),
      data: { straight: straight.name, length: straight.length, yield: straight.makeUp.yield },
      source: 'shop'
    }
  ];
}

function checkEnd(port: Fitting['ports'][number], { ends, board }: Setting): Finding[] {
  const wanted = port.name === 'inlet' ? ends.inlet : ends.outlet;
  if (port.end !== 'plain' || wanted === 'plain') return [];
  return [
    {
      level: wanted ? 'warning' : 'note',
      code: 'end-plain',
      ...(wanted ? { param: `ends.${port.name}`, would: 'plain' } : {}),
      data: { port: port.name, spigot: board.spigot },
      source: 'shop'
    }
  ];
}
