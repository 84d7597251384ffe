import { distance } from '../geometry/vector.ts';
import type { Joint, PanelBody, Setting } from '../fitting/fitting.ts';
import { joinAll } from '../fitting/merge.ts';
import { holdByTabs, PRACTICE } from '../fitting/practice.ts';
import { describeStep, type Step } from '../fitting/step.ts';
import { measureOutline } from '../straight/cut.ts';
import { FACES, growSection, measureFace } from '../straight/section.ts';
import type { Straight } from '../straight/straight.ts';
import type { TakeoffMeasures, TakeoffValues } from './takeoff-measures.ts';
import { SHOE_CORNERS_TAPED, SHOE_TAPED } from './takeoff-shoe.ts';

/** What the steps of a stub's joint do. */
export const STUB_TAPED = 'tape the stub to the main';
export const STUB_SEALED = 'seal the end of the stub in the main';

/** How the stub is held on the main or in it, and sealed. */
export function joinStub(
  main: string,
  stub: Straight,
  { fit }: TakeoffValues,
  { at }: TakeoffMeasures,
  { board }: Setting
): Joint[] {
  const piece = stub.pieces[0]!.name;
  const [cut] = stub.cuts;
  const outside = growSection(stub.section, board.thickness);
  const around = (section: typeof outside): number =>
    cut ? measureOutline(cut, section) : 2 * (section.width + section.height);
  const [outline, glue] = [around(outside), around(stub.section)];
  const on = { pieces: [main, piece] };
  const data = { main, stub: piece };
  const tape = (): Step =>
    describeStep('tape', {
      ...on,
      sentence: 'tape-stub',
      source: 'closure',
      does: [STUB_TAPED],
      data: { ...data, outline }
    });
  const butted = (): Step[] => [
    describeStep('strip', {
      straight: stub.name,
      pieces: [piece],
      sentence: 'turn-out-flap',
      data: { stub: piece, flap: board.flap }
    }),
    describeStep('glue', { ...on, sentence: 'glue-stub', data: { ...data, length: glue } }),
    describeStep('join', { ...on, sentence: 'join-stub', data }),
    describeStep('staple', {
      ...on,
      sentence: 'staple-stub',
      source: 'closure',
      data: { ...data, pitch: PRACTICE.staplePitch }
    }),
    tape()
  ];
  const entered = (): Step[] => [
    describeStep('glue', { ...on, sentence: 'glue-stub', data: { ...data, length: glue } }),
    describeStep('join', { ...on, sentence: 'enter-stub', data: { ...data, wall: board.thickness } }),
    holdByTabs(
      FACES.map((face) => measureFace(outside, face)),
      on
    ),
    tape(),
    describeStep('seal', {
      ...on,
      sentence: 'seal-stub',
      does: [STUB_SEALED],
      data: { ...data, length: glue }
    })
  ];
  return joinAll([[main, piece]], at, { steps: fit === 'enter' ? entered : butted, glue, outline });
}

/** The panels of a shoe are taped at their corners, then set on the main. */
export function joinShoe(
  main: string,
  panels: readonly PanelBody[],
  { branch }: TakeoffValues,
  { at, shoe }: TakeoffMeasures,
  { board }: Setting
): Joint[] {
  const names = panels.map(({ name }) => name);
  const [slope, upright, down, one, other] = names as [string, string, string, string, string];
  // Every corner once: those of the slope, the upright and the downstream wall with the cheeks, and the bend between.
  const measureEdge = (panel: PanelBody, edge: number, side: 'outer' | 'inner'): number => {
    const points = panel.panel[side].map(([u, x]) => [u, x, 0] as const);
    return distance(points[edge]!, points[(edge + 1) % points.length]!);
  };
  const corners = (side: 'outer' | 'inner'): number =>
    2 * panels.slice(0, 3).reduce((sum, panel) => sum + measureEdge(panel, 1, side), 0) +
    measureEdge(panels[0]!, 2, side);
  const [outline, glue] = [corners('outer'), corners('inner')];
  const along = branch.along + shoe;
  const foot = 2 * (along + branch.across);
  const footOutside = 2 * (along + (Math.SQRT2 + 1) * board.thickness + branch.across + 2 * board.thickness);
  const set = { pieces: [main, ...names] };
  return [
    ...joinAll(
      [
        [slope, upright],
        [slope, one],
        [upright, one],
        [down, one],
        [slope, other],
        [upright, other],
        [down, other]
      ],
      at,
      {
        glue,
        outline,
        steps: () => [
          describeStep('join', {
            sentence: 'join-corners',
            pieces: names,
            data: { panels: names, glue, bevels: [45, 22.5] }
          }),
          describeStep('tape', {
            sentence: 'tape-corners',
            source: 'closure',
            pieces: names,
            does: [SHOE_CORNERS_TAPED],
            data: { length: outline }
          })
        ]
      }
    ),
    ...joinAll(
      // The upright wall begins above the main.
      names.filter((name) => name !== upright).map((name) => [main, name] as const),
      at,
      {
        glue: foot,
        outline: footOutside,
        steps: () => [
          describeStep('glue', { ...set, sentence: 'glue-panels', data: { piece: main, length: foot } }),
          describeStep('join', { ...set, sentence: 'join-panels', data: { piece: main, panels: names } }),
          holdByTabs([along, branch.across, along, branch.across], set),
          describeStep('tape', {
            ...set,
            sentence: 'tape-panels',
            source: 'closure',
            does: [SHOE_TAPED],
            data: { piece: main, outline: footOutside, step: 0 }
          })
        ]
      }
    )
  ];
}
