import type { Finding } from '../fitting/finding.ts';
import { isMating, type Fitting, type Joint, type Setting } from '../fitting/fitting.ts';

/** Ends that carry no joining profile, and straights whose ends do not mate: each has three ways out. */
export function checkStock(fitting: Fitting, setting: Setting): Finding[] {
  return [
    ...fitting.ports.flatMap((port) => checkEnd(port, setting)),
    ...fitting.joints.flatMap((joint) => checkMating(joint, setting))
  ];
}

/** A male and a female end mate; anything else has to be made to. */
function checkMating({ bodies, closing }: Joint, { board }: Setting): Finding[] {
  if (closing.kind !== 'ends' || isMating(closing.ends)) return [];
  return [
    {
      level: 'warning',
      code: 'ends-apart',
      data: { first: bodies[0], second: bodies[1], spigot: board.spigot },
      source: 'shop'
    }
  ];
}

function checkEnd(port: Fitting['ports'][number], { ends, board }: Setting): Finding[] {
  const wanted = ends[port.name as keyof typeof ends];
  if (port.isOpening || port.end !== 'plain' || wanted === 'plain') return [];
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
