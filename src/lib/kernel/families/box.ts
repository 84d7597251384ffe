import { IDENTITY } from '../geometry/motion.ts';
import { coverEnd, cutEndPanel, edgeAtPanel, joinEndPanel, type EndPanel } from '../fitting/end-panel.ts';
import type { Finding } from '../fitting/finding.ts';
import { listPieceBodies, referTo, type Port } from '../fitting/fitting.ts';
import { mergeParts } from '../fitting/merge.ts';
import { buildMiteredPath } from '../fitting/mitered-path.ts';
import { listRunJoints, openRun } from '../fitting/opened-straight.ts';
import { placeAcross, placeOnFace, sealEdge } from '../fitting/opening.ts';
import { edgeAllRound } from '../fitting/wall.ts';
import { checkDepth } from './cap.ts';
import { defineFamily } from './family.ts';
import { clamp, LEAST_DRAGGED_LENGTH, LONGEST } from './limits.ts';
import { dragOpening, mirrorOpening, placeOpeningHandles, sizeOf } from './opening.ts';
import {
  checkApart,
  checkBevel,
  checkOpening,
  findSizeFault,
  layOpening,
  OPENING_PARAMS,
  referAcross,
  SAY_SIZE,
  settleSize,
  type OpeningValues
} from './opening-params.ts';
import { readParam, splitPath } from './param-path.ts';
import { wallAxes } from './wall-axes.ts';

interface Values {
  readonly length: number;
  readonly set: 'in' | 'on';
  readonly openings: readonly OpeningValues[];
}

const MOST_OPENINGS = 24;

/**
 * A straight closed at both ends, with openings in its walls: a plenum for a device or a grille. Every opening is a port,
 * by its name; the first is where the air comes in. Its section is the opening's own, or the square round a circle.
 */
export const box = defineFamily({
  name: 'box',
  group: 'close',
  params: {
    length: { of: { kind: 'length', above: 0, max: LONGEST }, required: true },
    set: { of: { kind: 'choice', of: ['in', 'on'] }, default: 'in' },
    openings: {
      of: {
        kind: 'list',
        item: { kind: 'group', fields: OPENING_PARAMS },
        minItems: 1,
        maxItems: MOST_OPENINGS
      },
      required: true
    }
  },
  rules: [
    {
      check({ openings }) {
        if (!Array.isArray(openings)) return null;
        for (const [i, entry] of openings.entries()) {
          const fault =
            typeof entry === 'object' && entry !== null
              ? findSizeFault(entry as Readonly<Record<string, unknown>>)
              : null;
          if (fault) return { path: ['openings', i, ...fault.path], expected: fault.expected };
        }
        return null;
      },
      json: { properties: { openings: { items: SAY_SIZE.json } } }
    }
  ],
  example: {
    length: 600,
    openings: [
      { wall: 'top', station: 300, shape: 'round', diameter: 160 },
      { wall: 'bottom', station: 300, shape: 'rectangular', along: 400, across: 250 }
    ]
  },
  build(said, setting) {
    const { length, set, openings } = said as unknown as Values;
    const sizedBy = referTo('params.length', length);
    const { section, board } = setting;
    const run = buildMiteredPath([{ axis: length, sizedBy }], [], setting, {
      numbering: { straights: 0, cuts: 0, pieces: 0 },
      at: IDENTITY,
      ports: [null, null],
      endEdges: [edgeAllRound(edgeAtPanel('W1')), edgeAllRound(edgeAtPanel('W2'))]
    });
    if (!run.fitting) return run;
    const size = sizeOf(setting);
    const ground = { ...size, length, joints: listRunJoints(run.fitting) };
    const holes = openings.map((values, i) => layOpening(`O${i + 1}`, values, size));
    const paramOf = (i: number): string => `params.openings[${i}]`;
    const faults = holes.flatMap((hole, i): Finding[] => {
      const values = openings[i]!;
      const fault =
        checkBevel(hole, values, size.thickness, paramOf(i)) ??
        checkOpening(hole, values, ground, paramOf(i), referAcross(values, paramOf(i)));
      return fault ? [fault] : [];
    });
    const fault = checkDepth(set, length, board.thickness) ?? faults[0] ?? checkApart(holes, ground, paramOf);
    if (fault) return { fitting: null, findings: [fault] };
    const opened = openRun(
      run.fitting,
      holes.map((hole) => ({ opening: hole, closing: sealEdge(hole.name), sealed: true }))
    );
    if (!opened) return { fitting: null, findings: [describePinwheel(holes[0]!.name)] };
    const ends: EndPanel[] = [
      { name: 'W1', set, station: 0, isFar: false, section, sizedBy },
      { name: 'W2', set, station: length, isFar: true, section, sizedBy }
    ];
    const pieces = opened.bodies.map(({ name }) => name);
    const walls = listPieceBodies(opened).map((body, i) => {
      const closed = ends.filter((_, end) => i === (end === 0 ? 0 : pieces.length - 1));
      return closed.reduce((piece, end) => coverEnd(piece, end, board), body);
    });
    const ports = openings.map((values, i): Port => {
      const { out, aside } = wallAxes(values.wall);
      const isSide = values.wall === 'left' || values.wall === 'right';
      const [along, across] =
        values.diameter === undefined ? [values.along!, values.across!] : [values.diameter, values.diameter];
      const name = `O${i + 1}`;
      const at = placeOnFace(
        values.wall,
        [values.station, placeAcross(values.wall, values.aside, size)],
        0,
        size
      );
      const holder = opened.bodies.find(({ name: piece }) =>
        opened.straights.some(
          (straight) =>
            straight.pieces.some((one) => one.name === piece) &&
            straight.openings.some((hole) => hole.name === name)
        )
      )!;
      return {
        name,
        body: holder.name,
        at,
        flow: i === 0 ? [0 - out[0], 0 - out[1], 0 - out[2]] : out,
        up: isSide ? aside : [1, 0, 0],
        section: isSide ? { width: along, height: across } : { width: across, height: along },
        end: 'plain',
        isOpening: true
      };
    });
    return {
      fitting: mergeParts(
        [{ ...opened, bodies: [...walls, ...ends.map((end) => cutEndPanel(end, board))] }, { ports }],
        [
          ...joinEndPanel(pieces[0]!, ends[0]!, board),
          ...joinEndPanel(pieces[pieces.length - 1]!, ends[1]!, board)
        ]
      ),
      findings: []
    };
  },
  handles(said, setting) {
    const { length, openings } = said as unknown as Values;
    return [
      { id: 'length', at: [length, 0, 0], along: [1, 0, 0], kind: 'length', value: length },
      ...openings.flatMap((values, i) => placeOpeningHandles(values, `openings[${i}].`, setting))
    ];
  },
  drag(said, id, point): Readonly<Record<string, unknown>> {
    const { length, openings } = said as unknown as Values;
    if (id === 'length') return { length: clamp(point[0], Math.min(LEAST_DRAGGED_LENGTH, length), LONGEST) };
    const [, index, name] = /^openings\[(\d+)\]\.(\w+)$/.exec(id) ?? [];
    const values = readParam(said, `openings[${index}]`) as OpeningValues | undefined;
    if (!values || name === undefined) throw new Error(`a box has no handle ${id}`);
    const changed = { ...values, ...dragOpening(values, name, point) };
    return { openings: openings.map((one, i) => (i === Number(index) ? changed : one)) };
  },
  derive: () => ({}),
  bladeValues: () => [],
  settle(said, path) {
    const [, at, field] = splitPath(path);
    if (field === undefined) return said;
    const openings = said['openings'] as readonly Readonly<Record<string, unknown>>[];
    return { ...said, openings: openings.map((one, i) => (i === Number(at) ? settleSize(one, field) : one)) };
  },
  mirror: (said) => ({
    openings: (said as unknown as Values).openings.map((one) => ({ ...one, ...mirrorOpening(one) }))
  })
});

/** Openings so arranged that every straight line between two of them runs through another. */
function describePinwheel(opening: string): Finding {
  return {
    level: 'error',
    code: 'openings-overlap',
    param: 'params.openings[0].station',
    data: { first: opening, second: opening },
    source: 'geometry'
  };
}
