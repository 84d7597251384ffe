import { SAME_LENGTH } from '../geometry/tolerance.ts';

/** A part shorter than this is no piece, mm, even where the shop has no minimum. */
const LEAST_PART = 1;

/** A stretch of a path between two joints, on the axis of the undivided straight, mm. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  /** `to` − `from` as it was said, without the rounding of the sums. */
  readonly axis: number;
  /** How far the cuts at its two ends reach on either side of the axis; 0 at an end of the path. */
  readonly startReach: number;
  readonly endReach: number;
  /** The least shortest edge of each part, should it be divided. */
  readonly least: number;
}

/** A part of a stretch that lies on one straight. */
export interface Part {
  readonly stretch: number;
  readonly from: number;
  readonly to: number;
}

/** One of the straights of a path: from its datum to its end, on the axis of the undivided straight, mm. */
export interface Span {
  readonly from: number;
  readonly to: number;
  readonly parts: readonly Part[];
  /** The joint (counted from 0) at which it begins or ends by a cut it shares with its neighbour; null: square. */
  readonly startsAtJoint: number | null;
  readonly endsAtJoint: number | null;
}

/** A place where one straight can end and the next begin. */
interface Division {
  readonly end: number;
  readonly datum: number;
  /** The stretch in which it lies, or the one that begins at the joint. */
  readonly stretch: number;
  readonly joint: number | null;
}

/**
 * Divides a path over straights no longer than `longest`, greedily from the datum end: the division whose next datum is
 * furthest and from which the rest can be divided, of two as far the square one. Square inside a stretch both parts keep
 * its least edge and nothing is lost; at a joint both straights carry the cut, the earlier ends where the cut does, the
 * later begins where it begins. Null where no division is possible.
 */
export function divideStretches(stretches: readonly Stretch[], longest: number): Span[] | null {
  const total = stretches[stretches.length - 1]!.to;
  const spans: Span[] = [];
  let from: Division = { end: 0, datum: 0, stretch: 0, joint: null };
  while (total - from.datum > longest + SAME_LENGTH) {
    const next = findDivision(stretches, from, longest);
    if (!next) return null;
    spans.push(layOutSpan(stretches, from, next));
    from = next;
  }
  spans.push(layOutSpan(stretches, from, null));
  return spans;
}

function findDivision(stretches: readonly Stretch[], from: Division, longest: number): Division | null {
  const farthest = from.datum + longest;
  let best: Division | null = null;
  const offer = (division: Division): void => {
    if (division.datum <= from.datum + SAME_LENGTH || division.end > farthest + SAME_LENGTH) return;
    const further = best ? division.datum - best.datum : Infinity;
    // Of two that are as far the one offered first stands: a square one is offered before the joint after it.
    if (further > SAME_LENGTH) best = division;
  };
  for (let k = from.stretch; k < stretches.length; k++) {
    const { from: start, to, startReach, endReach, least } = stretches[k]!;
    if (start - startReach > farthest) break;
    const own = k === from.stretch && from.joint === null;
    const begins = own ? from.datum : start + startReach;
    const part = Math.max(least, LEAST_PART);
    const latest = to - endReach - part;
    // The last straight that begins in the stretch has to reach beyond the cut at its end, or nothing would go on from it.
    const reaching = to + endReach - longest;
    const more = Math.max(0, Math.ceil((reaching - farthest - SAME_LENGTH) / longest));
    const at = Math.min(farthest, latest - more * part);
    if (reaching <= latest + SAME_LENGTH && at - begins >= part - SAME_LENGTH)
      offer({ end: at, datum: at, stretch: k, joint: null });
    if (k + 1 < stretches.length)
      offer({ end: to + endReach, datum: to - endReach, stretch: k + 1, joint: k });
  }
  return best;
}

function layOutSpan(stretches: readonly Stretch[], from: Division, to: Division | null): Span {
  const last = to ? (to.joint === null ? to.stretch : to.stretch - 1) : stretches.length - 1;
  const parts: Part[] = [];
  for (let k = from.stretch; k <= last; k++) {
    const stretch = stretches[k]!;
    parts.push({
      stretch: k,
      from: k === from.stretch && from.joint === null ? from.datum : stretch.from,
      to: to && k === to.stretch && to.joint === null ? to.end : stretch.to
    });
  }
  return {
    from: from.datum,
    to: to ? to.end : stretches[stretches.length - 1]!.to,
    parts,
    startsAtJoint: from.joint,
    endsAtJoint: to?.joint ?? null
  };
}
