import { add, dot, norm, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import { SAME_LENGTH } from '../geometry/tolerance.ts';

/**
 * What moves the end by less than this for each unit of its own does not move it that way: a piece would have to be a
 * metre longer for a millimetre aside.
 */
const NO_WAY = 1e-3;

/** So many pieces are changed at most; every choice of those that are at their least is tried. */
const MOST_CHANGED = 9;

/**
 * The least changes that together move by `wanted`, or as near to it as they can: each change times its column, added up.
 * Of all that come equally near, those whose squares add up to least.
 */
export function solveLeast(columns: readonly Vec3[], wanted: Vec3): number[] {
  // In directions square to each other that the columns reach, the rows can be met exactly, one after another.
  const rows: { readonly unit: readonly number[]; readonly value: number }[] = [];
  for (const direction of spanColumns(columns)) {
    let row = columns.map((column) => dot(column, direction));
    let value = dot(wanted, direction);
    for (const before of rows) {
      const shared = row.reduce((sum, part, i) => sum + part * before.unit[i]!, 0);
      row = row.map((part, i) => part - shared * before.unit[i]!);
      value -= shared * before.value;
    }
    const size = Math.hypot(...row);
    rows.push({ unit: row.map((part) => part / size), value: value / size });
  }
  return columns.map((_, i) => rows.reduce((sum, { unit, value }) => sum + value * unit[i]!, 0));
}

/** Unit directions square to each other that span the columns, the best told first. */
function spanColumns(columns: readonly Vec3[]): Vec3[] {
  const span: Vec3[] = [];
  let rest = columns;
  while (span.length < 3) {
    const longest = rest.reduce<Vec3>((best, one) => (norm(one) > norm(best) ? one : best), [0, 0, 0]);
    if (norm(longest) < NO_WAY) break;
    const unit = scale(longest, 1 / norm(longest));
    span.push(unit);
    rest = rest.map((one) => subtract(one, scale(unit, dot(one, unit))));
  }
  return span;
}

/** A piece whose length is free. */
export interface FreePiece {
  /** Where the end goes for each mm more. */
  readonly way: Vec3;
  /** By how much its length changes at least, mm: more than 0 where it is too short as it is. */
  readonly low: number;
}

export interface LengthChange {
  /** Of each piece, mm. */
  readonly changes: readonly number[];
  /** What is still missed, mm. */
  readonly miss: number;
  /** The pieces, by their place, whose least is why it is missed. */
  readonly held: readonly number[];
}

type Tried = Omit<LengthChange, 'held'>;

/**
 * The changes of length that move the end by `wanted`, or as near as the pieces can without going below their least: by
 * the last piece alone where it can, else the least changes in all. Of the last few pieces every choice that is held at
 * its least is tried, so the best is among them.
 */
export function changeLengths(pieces: readonly FreePiece[], wanted: Vec3): LengthChange {
  const last = pieces.at(-1);
  const others = pieces.slice(0, -1);
  const still = others.map(() => 0);
  if (others.every(({ low }) => low <= 0)) {
    if (!last) return { changes: [], miss: norm(wanted), held: [] };
    if (last.low <= 0 && norm(wanted) < SAME_LENGTH)
      return { changes: [...still, 0], miss: norm(wanted), held: [] };
    const alone = tryHeld([last], [false], wanted);
    if (alone && alone.miss < SAME_LENGTH)
      return { changes: [...still, ...alone.changes], miss: alone.miss, held: [] };
  }
  const kept = pieces.slice(0, -MOST_CHANGED).map(({ low }) => Math.max(0, low));
  const changed = pieces.slice(-MOST_CHANGED);
  const left = kept.reduce<Vec3>((rest, by, i) => subtract(rest, scale(pieces[i]!.way, by)), wanted);
  const all = 2 ** changed.length;
  const tries = Array.from({ length: all }, (_, choice) =>
    tryHeld(
      changed,
      changed.map((_, i) => ((choice >> i) & 1) === 1),
      left
    )
  );
  const best = tries.reduce((one, other) => (!one || (other && isBetter(other, one)) ? other : one))!;
  // Without leasts they might end nearer.
  const free = tryHeld(
    changed.map(({ way }) => ({ way, low: -Infinity })),
    changed.map(() => false),
    left
  )!;
  const isHeld = free.miss < best.miss - SAME_LENGTH;
  const held = changed.flatMap(({ low }, i) =>
    isHeld && best.changes[i]! <= low + SAME_LENGTH ? [kept.length + i] : []
  );
  return { changes: [...kept, ...best.changes], miss: best.miss, held };
}

/** Some pieces held at their least, the others changed least; null where one of these would go below its own. */
function tryHeld(pieces: readonly FreePiece[], held: readonly boolean[], wanted: Vec3): Tried | null {
  const left = pieces.reduce<Vec3>(
    (rest, { way, low }, i) => (held[i] ? subtract(rest, scale(way, low)) : rest),
    wanted
  );
  const solved = solveLeast(
    pieces.flatMap(({ way }, i) => (held[i] ? [] : [way])),
    left
  );
  let next = 0;
  const changes = pieces.map(({ low }, i) => (held[i] ? low : solved[next++]!));
  if (changes.some((change, i) => change < pieces[i]!.low - SAME_LENGTH)) return null;
  const moved = pieces.reduce<Vec3>((sum, { way }, i) => add(sum, scale(way, changes[i]!)), [0, 0, 0]);
  return { changes, miss: norm(subtract(wanted, moved)) };
}

function isBetter(one: Tried, other: Tried): boolean {
  if (Math.abs(one.miss - other.miss) > SAME_LENGTH) return one.miss < other.miss;
  return Math.hypot(...one.changes) < Math.hypot(...other.changes);
}
