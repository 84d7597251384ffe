import { IDENTITY, type Motion } from '../geometry/motion.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { Finding } from '../fitting/finding.ts';
import { referTo, type Fitting, type Joint, type Port, type Setting } from '../fitting/fitting.ts';
import { joinAll, mergeParts } from '../fitting/merge.ts';
import { buildMiteredPath, type Built, type Leg, type Turn } from '../fitting/mitered-path.ts';
import { describeStep } from '../fitting/step.ts';
import type { EndEdges, WallEdge } from '../fitting/wall.ts';
import { FACES, growSection, type Face, type Section } from '../straight/section.ts';
import { layOutBend } from './bend-legs.ts';
import { layParts, type Divide, type LaidPart, type Part } from './divided-parts.ts';

/** What the steps that bind the parts together do. */
const NOSED = 'nose dividing walls';
const DIVIDING_EDGE: WallEdge = { kind: 'plain', bevel: 0, closing: { by: 'nose', needs: [NOSED] } };

/** Mitered paths side by side; their inlets are one end, in which the dividing walls are cut back plain and nosed. */
export function buildDivided(parts: readonly Part[], divide: Divide, setting: Setting): Built {
  const laid = layParts(parts, divide, setting);
  if ('code' in laid) return { fitting: null, findings: [laid] };
  const built: Fitting[] = [];
  const findings: Finding[] = [];
  for (const [i, one] of laid.entries()) {
    const made = buildPart(one, i, laid.length, divide, built, setting);
    findings.push(...made.findings);
    if (!made.fitting) return { fitting: null, findings };
    built.push(made.fitting);
  }
  const first = built.map(({ bodies }) => bodies[0]!.name);
  // Their rings are one end only where they are moulded alike.
  const ends = built.map(({ straights }) => straights[0]!.ends[0]);
  const inlet: Port = {
    name: 'inlet',
    body: first[0]!,
    at: [0, 0, 0],
    flow: [1, 0, 0],
    up: [0, 1, 0],
    section: setting.section,
    end: ends.every((end) => end === ends[0]) ? ends[0]! : 'plain',
    others: first.slice(1)
  };
  const ports = mergeParts(built).ports;
  const ordered = [...ports].sort((a, b) => rankPort(a.name) - rankPort(b.name));
  return {
    fitting: { ...mergeParts(built, bindParts(laid, first, divide, setting)), ports: [inlet, ...ordered] },
    findings: [...findings, tellLostArea(laid, setting)]
  };
}

/** Ports in the order in which they are told: straight on before what turns, then from the left or the top. */
function rankPort(name: string): number {
  return ['straight', 'turned', 'first', 'middle', 'second'].indexOf(name);
}

function buildPart(
  { part, section, at }: LaidPart,
  index: number,
  count: number,
  divide: Divide,
  before: readonly Fitting[],
  setting: Setting
): Built {
  const path = layOutPart(part, { ...setting, section });
  if ('code' in path) return { fitting: null, findings: [path] };
  const so = mergeParts(before);
  const [toFirst, toSecond]: readonly Face[] = divide === 'width' ? ['left', 'right'] : ['top', 'bottom'];
  const dividing = FACES.filter(
    (face) => (face === toFirst && index > 0) || (face === toSecond && index < count - 1)
  );
  const edges: EndEdges = Object.fromEntries(dividing.map((face) => [face, DIVIDING_EDGE]));
  const { inlet } = setting.ends;
  return buildMiteredPath(
    path.legs,
    path.turns,
    { ...setting, section, ends: { inlet, outlet: undefined } },
    {
      numbering: {
        straights: so.straights.length,
        cuts: countCuts(so),
        pieces: countPieces(so)
      },
      at: shift(at),
      ports: [null, part.name],
      open: [true, true],
      endEdges: [edges, {}]
    }
  );
}

function layOutPart(
  part: Part,
  setting: Setting
): { readonly legs: Leg[]; readonly turns: Turn[] } | Finding {
  if ('turned' in part) {
    return layOutBend({ ...part.turned, heel: part.heel }, setting, `params.${part.name}.`);
  }
  const { length } = part.straight;
  return { legs: [{ axis: length, sizedBy: referTo(`params.${part.name}.length`, length) }], turns: [] };
}

function shift(t: Vec3): Motion {
  return { ...IDENTITY, t };
}

/** Cuts of the parts before: a cut at a division is on two straights and counts once. */
function countCuts({ straights }: Fitting): number {
  return new Set(straights.flatMap(({ cuts }) => cuts.map(({ name }) => name))).size;
}

/** Pieces of the parts before: those of a divided piece share its number. */
function countPieces({ bodies }: Fitting): number {
  return new Set(bodies.map(({ name }) => name.replace(/[a-z]+$/, ''))).size;
}

function bindParts(
  laid: readonly LaidPart[],
  first: readonly string[],
  divide: Divide,
  { board, section }: Setting
): Joint[] {
  const deep = divide === 'width' ? section.height : section.width;
  const outside = growSection(section, board.thickness);
  const outline = 2 * (outside.width + outside.height);
  const divisions = laid.length - 1;
  const pieces = [...first];
  const steps = () => [
    describeStep('join', { sentence: 'join-parts', pieces, data: { pieces } }),
    describeStep('tape', {
      sentence: 'tape-parts',
      source: 'closure',
      pieces,
      data: { pieces, outline, divisions }
    }),
    describeStep('nose', { pieces, does: [NOSED], data: { pieces, length: divisions * deep } })
  ];
  const pairs = first.slice(1).map((name, i) => [first[i]!, name] as const);
  return joinAll(pairs, [0, 0, 0], { steps, glue: 0, outline });
}

/** What the dividing walls take from the air way, and how much faster the air goes beside them. */
function tellLostArea(laid: readonly LaidPart[], { section }: Setting): Finding {
  const area = ({ width, height }: Section): number => width * height;
  const left = laid.reduce((sum, part) => sum + area(part.section), 0);
  const whole = area(section);
  return {
    level: 'note',
    code: 'area-lost',
    data: { percent: (100 * (whole - left)) / whole, faster: whole / left },
    source: 'geometry'
  };
}
