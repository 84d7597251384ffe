// What the board of a fitting must be, built from its parameters alone by the mesh library: no code of the kernel's, only
// the words of how each family is made.
import { expectBox, expectCap, expectOpening } from './expected-closing.ts';
import { expectDivided } from './expected-divided.ts';
import { expectFold, expectPanels } from './expected-reducer.ts';
import { expectTakeoff } from './expected-takeoff.ts';
import type { Expected, Stuff } from './expected.ts';
import type { GeneratedFitting } from './generated-fittings.ts';
import { free } from './manifold.ts';
import type { Rounds } from './profiles.ts';

const BUILDERS: Readonly<Record<string, (stuff: Stuff) => Expected>> = {
  reducer: (stuff) => (stuff.params['method'] === 'fold' ? expectFold(stuff) : expectPanels(stuff)),
  takeoff: expectTakeoff,
  'split-bend': (stuff) => expectDivided(stuff, ['turned', 'straight']),
  wye: (stuff) => expectDivided(stuff, ['first', 'second']),
  'three-way': (stuff) => expectDivided(stuff, ['first', 'middle', 'second']),
  cap: expectCap,
  opening: expectOpening,
  box: expectBox
};

/** The board of a generated fitting. */
export function expectSolids({ said, stock }: GeneratedFitting, rounds: Rounds): Expected {
  const { family, section, params } = said;
  return BUILDERS[family]!({ params, ...section, t: stock.board.thickness, rounds });
}

/** Frees the board that was built. */
export function freeExpected({ board }: Expected): void {
  free(board);
}
