import { bend } from './bend.ts';
import { box } from './box.ts';
import { cap } from './cap.ts';
import { doubleOffset } from './double-offset.ts';
import type { Family } from './family.ts';
import { offset } from './offset.ts';
import { opening } from './opening.ts';
import { path } from './path.ts';
import { reducer } from './reducer.ts';
import { splitBend } from './split-bend.ts';
import { straight } from './straight.ts';
import { takeoff } from './takeoff.ts';
import { threeWay } from './three-way.ts';
import { wye } from './wye.ts';

/** Every fitting family, in the order in which the page offers them. */
export const FAMILIES: readonly Family[] = [
  straight,
  bend,
  offset,
  doubleOffset,
  path,
  reducer,
  takeoff,
  splitBend,
  wye,
  threeWay,
  cap,
  opening,
  box
];

const BY_NAME = new Map(FAMILIES.map((family) => [family.name, family]));

/** The family of that name; the document's schema lets no other name in. */
export function findFamily(name: string): Family {
  const family = BY_NAME.get(name);
  if (!family) throw new Error(`no fitting family is called ${name}`);
  return family;
}
