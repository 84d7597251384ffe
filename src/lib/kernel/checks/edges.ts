import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Finding } from '../fitting/finding.ts';
import type { Body, Fitting, ParamReference } from '../fitting/fitting.ts';
import type { Shop } from '../straight/board.ts';
import { measureEdges } from '../straight/straight.ts';

/**
 * Every outside corner edge of every piece must be longer than 0; the shortest should keep the shop's minimum (an end
 * piece the least throat, a piece between two cuts the least gore). A straight without a cut has neither.
 */
export function checkEdges(fitting: Fitting, shop: Shop): Finding[] {
  return fitting.bodies.flatMap((body) => checkBody(fitting, body, shop));
}

function checkBody(fitting: Fitting, body: Body, shop: Shop): Finding[] {
  const straight = fitting.straights.find(({ name }) => name === body.straight)!;
  const shortest = measureEdges(body.piece, straight.section, straight.thickness).reduce((a, b) =>
    b.length < a.length ? b : a
  );
  const { startCut, endCut, name } = body.piece;
  const cuts = Number(startCut !== null) + Number(endCut !== null);
  const least = [0, shop.minThroat, shop.minGore][cuts]!;
  const vanishes = shortest.length < SAME_LENGTH;
  if (!vanishes && shortest.length >= least - SAME_LENGTH) return [];
  return [
    {
      level: vanishes ? 'error' : 'warning',
      code: vanishes ? 'edge-vanishes' : cuts === 2 ? 'gore-short' : 'throat-short',
      param: body.sizedBy.param,
      would: raise(body.sizedBy, least - shortest.length, least),
      data: { piece: name, corner: shortest.corner, shortest: shortest.length, least },
      source: vanishes ? 'geometry' : 'shop'
    }
  ];
}

/** The parameter's value once the edge has grown by `by`; a parameter that only follows from others gets the minimum. */
function raise({ value, rate }: ParamReference, by: number, least: number): number {
  return value === null ? least : value + by * rate;
}
