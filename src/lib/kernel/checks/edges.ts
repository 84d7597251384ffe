import { SAME_LENGTH } from '../geometry/tolerance.ts';
import type { Finding } from '../fitting/finding.ts';
import { listPieceBodies, type Fitting, type ParamReference, type PieceBody } from '../fitting/fitting.ts';
import { measureEdges } from '../straight/straight.ts';
import { suggestValue } from '../fitting/suggest.ts';

/** Where the shop has no minimum: an edge that vanishes should at least come back by this, mm. */
const LEAST_EDGE = 1;

/**
 * Every outside corner edge of every piece must be longer than 0; the shortest should keep the shop's minimum (an end
 * piece the least throat, a piece between two cuts the least gore). A straight without a cut has neither.
 */
export function checkEdges(fitting: Fitting): Finding[] {
  return listPieceBodies(fitting).flatMap((body) => checkBody(fitting, body));
}

function checkBody(fitting: Fitting, body: PieceBody): Finding[] {
  const straight = fitting.straights.find(({ name }) => name === body.straight)!;
  const shortest = measureEdges(body.piece, straight.section, straight.thickness).reduce((a, b) =>
    b.length < a.length ? b : a
  );
  const { startCut, endCut, name } = body.piece;
  const { least } = body;
  const vanishes = shortest.length < SAME_LENGTH;
  if (!vanishes && shortest.length >= least - SAME_LENGTH) return [];
  return [
    {
      level: vanishes ? 'error' : 'warning',
      code: vanishes ? 'edge-vanishes' : startCut && endCut ? 'gore-short' : 'throat-short',
      param: body.sizedBy.param,
      ...raise(body.sizedBy, shortest.length, Math.max(least, vanishes ? LEAST_EDGE : 0)),
      data: { piece: name, corner: shortest.corner, shortest: shortest.length, least },
      source: vanishes ? 'geometry' : 'shop'
    }
  ];
}

/** The parameter's value once the edge is as long as it should be; one that only follows from others gets that length. */
function raise(sizedBy: ParamReference, length: number, least: number): { would?: number } {
  if (sizedBy.value === null) return { would: least };
  const would = sizedBy.raise(least - length);
  return would === null ? {} : { would: suggestValue(sizedBy.value, would) };
}
