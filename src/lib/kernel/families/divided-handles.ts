import { add, subtract, type Vec3 } from '../geometry/vector.ts';
import type { Setting } from '../fitting/fitting.ts';
import { dragBend, placeBendHandles } from './bend-handles.ts';
import { LARGEST_TURN, measureBend } from './bend-measures.ts';
import type { Handle } from './family.ts';
import { clamp, LEAST_DRAGGED_LENGTH, LONGEST, SHARPEST_TURN } from './limits.ts';
import {
  layParts,
  makeBend,
  NARROWEST,
  WIDEST,
  type Divide,
  type LaidPart,
  type Part
} from './divided-parts.ts';

/** The handles of the parts, by the parts' names; that of a share lies where its wall divides the inlet. */
export function placeDividedHandles(parts: readonly Part[], divide: Divide, setting: Setting): Handle[] {
  const laid = layParts(parts, divide, setting);
  if ('code' in laid) return [];
  return laid.flatMap((one, i): Handle[] => {
    const { part, section, at, inside } = one;
    const share = placeShare(laid, i, divide, setting);
    const own: Handle[] =
      'turned' in part
        ? placeBendHandles(makeBend(part), { ...setting, section }).map((handle) => ({
            ...handle,
            id: `${part.name}.${handle.id}`,
            at: add(handle.at, at)
          }))
        : [
            {
              id: `${part.name}.length`,
              at: add(at, [part.straight.length, 0, 0]),
              along: [1, 0, 0],
              kind: 'length',
              value: part.straight.length
            }
          ];
    return [
      ...(share ? [{ id: `${part.name}.inside`, ...share, kind: 'length' as const, value: inside }] : []),
      ...own
    ];
  });
}

/** A share is dragged by the wall that ends it; only one of two neighbours that share a wall is. */
function placeShare(
  laid: readonly LaidPart[],
  index: number,
  divide: Divide,
  { board }: Setting
): Pick<Handle, 'at' | 'along'> | null {
  const last = laid.length - 1;
  const isFirst = index === 0;
  if (!isFirst && (index < last || laid.length === 2)) return null;
  const { at, inside } = laid[index]!;
  const reach = inside / 2 + board.thickness;
  // Away from the outside of the duct, toward the middle.
  const inward: Vec3 = divide === 'width' ? [0, 0, isFirst ? 1 : -1] : [0, isFirst ? -1 : 1, 0];
  return { at: add(at, inward.map((part) => part * reach) as unknown as Vec3), along: inward };
}

/** The parameter changes that bring a handle of a part to a point. */
export function dragDivided(
  parts: readonly Part[],
  divide: Divide,
  id: string,
  point: Vec3,
  setting: Setting
): Readonly<Record<string, unknown>> {
  const laid = layParts(parts, divide, setting);
  if ('code' in laid) return {};
  const [name, field] = id.split('.') as [string, string];
  const index = laid.findIndex(({ part }) => part.name === name);
  const { part, section, at, inside } = laid[index]!;
  const values = 'turned' in part ? part.turned : part.straight;
  const change = (changes: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> => ({
    [name]: { ...values, ...changes }
  });
  if (field === 'inside') {
    const share = placeShare(laid, index, divide, setting)!;
    const moved = subtract(point, share.at);
    const by = moved.reduce((sum, part, k) => sum + part * share.along[k]!, 0);
    return change({ inside: clamp(inside + by, NARROWEST, WIDEST) });
  }
  if ('turned' in part) {
    const changes = dragBend(makeBend(part), field, subtract(point, at), { ...setting, section });
    // What a bend takes back (its other drivers) a part never says.
    return change(Object.fromEntries(Object.entries(changes).filter(([, value]) => value !== undefined)));
  }
  const { length } = part.straight;
  return change({ length: clamp(point[0], Math.min(LEAST_DRAGGED_LENGTH, length), LONGEST) });
}

/** What follows: the shares that are left out, throats that take the rest. */
export function deriveDivided(
  parts: readonly Part[],
  divide: Divide,
  setting: Setting
): Record<string, number> {
  const laid = layParts(parts, divide, setting);
  if ('code' in laid) return {};
  return Object.fromEntries(
    laid.flatMap(({ part, inside, section }): [string, number][] => {
      const share: [string, number] = [`${part.name}.inside`, inside];
      if (!('turned' in part)) return [share];
      const measured = measureBend(makeBend(part), { ...setting, section });
      if ('code' in measured) return [share];
      return [
        share,
        [`${part.name}.throatIn`, measured.throatIn],
        [`${part.name}.throatOut`, measured.throatOut]
      ];
    })
  );
}

/** The turns of a part at which its bevel is one of the shop's. */
export function listBladeTurns(
  parts: readonly Part[],
  id: string,
  blades: readonly { readonly angle: number }[]
): number[] {
  const part = parts.find(({ name }) => id === `${name}.turn`);
  if (!part || !('turned' in part)) return [];
  const joints = part.turned.pieces - 1;
  return blades
    .map(({ angle }) => 2 * joints * angle)
    .filter((turn) => turn > 0 && turn <= Math.min(LARGEST_TURN, joints * SHARPEST_TURN))
    .sort((a, b) => a - b);
}
