import { asinDegrees, sinDegrees } from '../geometry/angle.ts';
import { IDENTITY, type Motion } from '../geometry/motion.ts';
import { add, distance, type Vec3 } from '../geometry/vector.ts';

import { describeStep, nameSealDeed, type Step } from '../fitting/step.ts';
import { referTo, type PanelBody, type Port, type Setting } from '../fitting/fitting.ts';
import type { Finding } from '../fitting/finding.ts';
import { joinAll, mergeParts } from '../fitting/merge.ts';
import { buildMiteredPath, type Built } from '../fitting/mitered-path.ts';
import { cutPanel } from '../fitting/panel.ts';
import { holdByTabs } from '../fitting/practice.ts';
import { edgeAllRound, type WallEdge } from '../fitting/wall.ts';
import { CORNERS, FACES, placeCorner, type Section } from '../straight/section.ts';
import type { ReducerMeasures, ReducerValues } from './reducer-measures.ts';

const CORNERS_TAPED = 'tape corners of the taper';
const nameTapeDeed = (end: 'inlet' | 'outlet'): string => `tape collar at the ${end}`;

/** The corners of the taper's outside and inside in a plane square to the duct, in the order of CORNERS. */
interface TaperEnd {
  readonly outer: readonly Vec3[];
  readonly inner: readonly Vec3[];
}

/**
 * A taper of four panels between two collars. Inner surfaces are the planes through the two inside rectangles; each wall
 * is a thickness deep along its own normal, so square to the duct it takes t/cos δ. Neighbours meet at the dihedral angle
 * 90° + asin(sin δi·sin δj), each with half of it: bevel 45° − ½·asin(sin δi·sin δj) from upright.
 */
export function buildPanelReducer(values: ReducerValues, measures: ReducerMeasures, setting: Setting): Built {
  const { collarIn, collarOut, outlet } = values;
  const { length, up, right } = measures;
  const outletFrame: Motion = { ...IDENTITY, t: [collarIn + length, up, right] };
  const inlet = buildCollar('inlet', collarIn, setting.section, IDENTITY, [0, 0], setting);
  const before = inlet.fitting?.straights.length ?? 0;
  const outletCollar = buildCollar(
    'outlet',
    collarOut,
    outlet,
    outletFrame,
    [before, before > 0 ? 1 : 0],
    setting
  );
  const findings: Finding[] = [...inlet.findings, ...outletCollar.findings];
  if (findings.length > 0) return { fitting: null, findings };
  const from = placeEnd([collarIn, 0, 0], setting.section, measures, setting);
  const to = placeEnd(outletFrame.t, outlet, measures, setting);
  const panels = cutTaper(from, to, values, measures);
  const names = panels.map(({ name }) => name);
  const bare = (name: 'inlet' | 'outlet', at: Vec3, section: Section): Port => ({
    name,
    body: names[0]!,
    at,
    flow: [1, 0, 0],
    up: [0, 1, 0],
    section,
    end: 'plain'
  });
  const collars = [
    { name: 'inlet' as const, part: inlet.fitting, end: from, section: setting.section },
    { name: 'outlet' as const, part: outletCollar.fitting, end: to, section: outlet }
  ];
  const fitting = mergeParts(
    [
      inlet.fitting ?? { ports: [bare('inlet', [0, 0, 0], setting.section)] },
      { bodies: panels, axes: [[[collarIn, 0, 0], outletFrame.t]] },
      outletCollar.fitting ?? { ports: [bare('outlet', outletFrame.t, outlet)] }
    ],
    [
      ...joinAll(
        names.map((name, i) => (i < 3 ? [name, names[i + 1]!] : [names[0]!, name])),
        [collarIn + length / 2, up / 2, right / 2],
        tapeCorners(from, to, panels)
      ),
      ...collars.flatMap(({ name, part, end, section }) => {
        // A long collar may be of several pieces: the one at the taper.
        const collar = part?.bodies.at(name === 'inlet' ? -1 : 0)!.name;
        if (collar === undefined) return [];
        const pairs = names.map((panel) =>
          name === 'inlet' ? ([collar, panel] as const) : ([panel, collar] as const)
        );
        const at: Vec3 = name === 'inlet' ? [collarIn, 0, 0] : outletFrame.t;
        return joinAll(pairs, at, joinCollar(name, collar, names, end, section, measures, setting));
      })
    ]
  );
  return { fitting, findings: [] };
}

function buildCollar(
  end: 'inlet' | 'outlet',
  length: number,
  section: Section,
  at: Motion,
  [straights, pieces]: readonly [number, number],
  setting: Setting
): Built {
  if (length === 0) return { fitting: null, findings: [] };
  const param = end === 'inlet' ? 'params.collarIn' : 'params.collarOut';
  const joined = edgeAllRound({
    kind: 'plain',
    bevel: 0,
    closing: { by: 'butt', needs: [nameTapeDeed(end)] }
  });
  return buildMiteredPath(
    [{ axis: length, sizedBy: referTo(param, length) }],
    [],
    { ...setting, section },
    {
      numbering: { straights, cuts: 0, pieces },
      at,
      ports: end === 'inlet' ? ['inlet', null] : [null, 'outlet'],
      endEdges: end === 'inlet' ? [{}, joined] : [joined, {}]
    }
  );
}

function placeEnd(at: Vec3, section: Section, { slopes }: ReducerMeasures, { board }: Setting): TaperEnd {
  const thick = slopes.map((slope) => board.thickness / sinDegrees(90 - slope));
  const inner = CORNERS.map((corner) => add(at, [0, ...placeCorner(section, corner)]));
  // A corner lies between the face before it and the face after it.
  const outer = CORNERS.map((corner, i) => {
    const faces = [(i + 3) % 4, i];
    const [y, z] = placeCorner(section, corner);
    const beside = faces.find((face) => face % 2 === 1)!;
    const above = faces.find((face) => face % 2 === 0)!;
    return add(at, [0, y + Math.sign(y) * thick[above]!, z + Math.sign(z) * thick[beside]!]);
  });
  return { outer, inner };
}

function cutTaper(
  from: TaperEnd,
  to: TaperEnd,
  { collarIn, collarOut }: ReducerValues,
  { slopes, length }: ReducerMeasures
): PanelBody[] {
  const corners = CORNERS.map((_, i): WallEdge => ({
    kind: 'seam',
    bevel: 45 - asinDegrees(sinDegrees(slopes[(i + 3) % 4]!) * sinDegrees(slopes[i]!)) / 2,
    closing: { by: 'seam', needs: [CORNERS_TAPED] }
  }));
  const endEdge = (end: 'inlet' | 'outlet', collar: number, slope: number): WallEdge =>
    collar > 0
      ? { kind: 'cut', bevel: Math.abs(slope), closing: { by: 'joint', needs: [nameTapeDeed(end)] } }
      : { kind: 'plain', bevel: Math.abs(slope), closing: { by: 'seal', needs: [nameSealDeed(end)] } };
  return FACES.map((face, i) => {
    const next = (i + 1) % 4;
    return cutPanel({
      name: `W${i + 1}`,
      face,
      outer: [from.outer[i]!, from.outer[next]!, to.outer[next]!, to.outer[i]!],
      inner: [from.inner[i]!, from.inner[next]!, to.inner[next]!, to.inner[i]!],
      edges: [
        endEdge('inlet', collarIn, slopes[i]!),
        corners[next]!,
        endEdge('outlet', collarOut, slopes[i]!),
        corners[i]!
      ],
      sizedBy: referTo('params.length', length)
    });
  });
}

function tapeCorners(from: TaperEnd, to: TaperEnd, panels: readonly PanelBody[]) {
  const sum = (side: 'outer' | 'inner'): number =>
    CORNERS.reduce((total, _, i) => total + distance(from[side][i]!, to[side][i]!), 0);
  const pieces = panels.map(({ name }) => name);
  const steps = (): Step[] => [
    describeStep('join', {
      sentence: 'join-corners',
      pieces,
      data: {
        panels: pieces,
        glue: sum('inner'),
        bevels: panels.map(({ panel }) => panel.edges[3]!.bevel)
      }
    }),
    describeStep('tape', {
      sentence: 'tape-corners',
      source: 'closure',
      pieces,
      does: [CORNERS_TAPED],
      data: { length: sum('outer') }
    })
  ];
  return { steps, glue: sum('inner'), outline: sum('outer') };
}

/** Inside flush; outside the taper stands out by t(1/cos δ − 1) where a wall slopes. */
function joinCollar(
  end: 'inlet' | 'outlet',
  collar: string,
  panels: readonly string[],
  { outer }: TaperEnd,
  section: Section,
  { slopes }: ReducerMeasures,
  { board }: Setting
) {
  const sides = outer.map((corner, i) => distance(corner, outer[(i + 1) % 4]!));
  const outline = sides.reduce((total, side) => total + side, 0);
  const glue = 2 * (section.width + section.height);
  const standing = slopes.map((slope) => board.thickness * (1 / sinDegrees(90 - slope) - 1));
  const on = { pieces: [collar, ...panels] };
  const steps = (): Step[] => [
    describeStep('glue', { ...on, sentence: 'glue-panels', data: { piece: collar, length: glue } }),
    describeStep('join', { ...on, sentence: 'join-panels', data: { piece: collar, panels: [...panels] } }),
    holdByTabs(sides, on),
    describeStep('tape', {
      ...on,
      sentence: 'tape-panels',
      source: 'closure',
      does: [nameTapeDeed(end)],
      data: { piece: collar, outline, step: Math.max(...standing) }
    })
  ];
  return { steps, glue, outline };
}
