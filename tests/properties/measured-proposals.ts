// What a proposal of the solver really is: built again from its parameters alone and measured, beside what the site wants and
// what the proposal says of itself.
import { DEFAULT_BOARD, DEFAULT_SHOP } from '../../src/lib/kernel/document/job.ts';
import type { Site } from '../../src/lib/kernel/site/site.ts';
import type { Proposal } from '../../src/lib/kernel/solve-answer.ts';
import { listMakeUps } from '../../src/lib/kernel/straight/blank.ts';
import type { Shop } from '../../src/lib/kernel/straight/board.ts';
import { evaluateOne } from '../duct.ts';
import { free } from '../oracle/manifold.ts';
import { measureDistance, spanLegs, standObstacle } from '../oracle/outside.ts';
import { layOutLegs, measureShortest, surround, type Legs } from './legs.ts';
import type { PlantedSite } from './sites.ts';
import { walkPath, type Vector } from './turtle.ts';

type SitedJob = PlantedSite['job'];

/** Every parameter that a proposal of a family writes. */
const WRITTEN: Readonly<Record<string, readonly string[]>> = {
  straight: ['length'],
  bend: ['turn', 'pieces', 'heel', 'throatIn', 'gore', 'throatOut'],
  offset: ['rise', 'roll', 'turn', 'piecesPerTurn', 'throatIn', 'throatOut'],
  'double-offset': ['rise', 'roll', 'turn', 'level', 'piecesPerTurn', 'throatIn', 'throatOut'],
  path: ['lengths', 'joints']
};

const MOST_JOINTS_OF_A_PATH = 4;

/** An end is met within this, mm and degrees. */
const MET = 0.01;
const ALONG = 0.001;

/** What the shop and the site want is kept but for this, mm. */
const ALLOWED = 1e-6;

/** What a proposal says of itself is so within this, mm and degrees. */
const SAID = 1e-3;

const RADIANS = Math.PI / 180;

/** Faults of a proposal for a job's site, in words; none where it is what it should be and what it says. */
export function checkProposal(job: SitedJob, proposal: Proposal): string[] {
  const { site } = job;
  const board = { ...DEFAULT_BOARD, ...job.board };
  const shop = { ...DEFAULT_SHOP, ...job.shop };
  const { fitting } = proposal;
  const written = WRITTEN[fitting.family];
  if (!written) return [`${fitting.family} is no family of proposals`];
  const faults = checkParams(fitting.params, written);
  const { width, height } = fitting.section;
  if (width !== site.section.width || height !== site.section.height) faults.push('another section');
  if (faults.length > 0) return faults;

  const legs = layOutLegs(fitting, board.thickness);
  const straight = sum(legs.lengths);
  const longest = Math.max(...[...listMakeUps(site.section, board, 'top-left')].map((one) => one.yield));
  const turn = sum(legs.joints.map((joint) => joint.turn));
  const { built, findings } = evaluateOne(fitting, { board, shop });
  const straights = built?.fitting.straights.length;
  return [
    ...compare('joints', proposal.joints, legs.joints.length, 0),
    ...compare('turn', proposal.turn, turn, SAID),
    ...compare('straight', proposal.straight, straight, SAID),
    ...(straight > longest + ALLOWED
      ? [`${straight} of a straight, of which a board yields ${longest}`]
      : []),
    ...(legs.joints.some((joint) => !(joint.turn > 0 && joint.turn <= 90)) ? ['a joint turns too much'] : []),
    ...checkEnd(legs, site),
    ...checkMinima(legs, shop, surround(site.section, board.thickness)),
    ...checkClearance(legs, site, board.thickness, proposal.clearance),
    ...(built ? [] : [`the kernel refuses it: ${findings.map(({ code }) => code).join()}`]),
    ...(built && straights !== 1 ? [`it takes ${straights} straights`] : [])
  ];
}

/** Whether every bevel of a proposal is that of one of the shop's blades. */
export function isBladed(job: SitedJob, { fitting }: Proposal): boolean {
  const { thickness } = { ...DEFAULT_BOARD, ...job.board };
  const { blades } = { ...DEFAULT_SHOP, ...job.shop };
  return layOutLegs(fitting, thickness).joints.every(({ turn, heel }) =>
    [Math.cos(heel * RADIANS), Math.sin(heel * RADIANS)].every((share) => {
      const bevel = Math.asin(Math.sin((turn / 2) * RADIANS) * Math.abs(share)) / RADIANS;
      // Bevels closer than 0.02 degrees to a blade's are that blade's.
      return blades.some(({ angle }) => Math.abs(angle - bevel) < 0.02);
    })
  );
}

function checkParams(params: Readonly<Record<string, unknown>>, written: readonly string[]): string[] {
  const faults = [
    ...written.filter((name) => params[name] === undefined).map((name) => `${name} is not written`),
    ...Object.keys(params)
      .filter((name) => !written.includes(name))
      .map((name) => `${name} is written`)
  ];
  if (params['piecesPerTurn'] !== undefined && params['piecesPerTurn'] !== 2)
    faults.push('more than one cut a turn');
  const { joints } = params;
  if (Array.isArray(joints) && joints.length > MOST_JOINTS_OF_A_PATH) faults.push(`${joints.length} joints`);
  const numbers = (value: unknown): unknown[] =>
    typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbers) : [value];
  const strange = numbers(params).filter(
    (value) => !Number.isFinite(value) && !['top', 'right', 'bottom', 'left'].includes(value as string)
  );
  return [...faults, ...strange.map((value) => `${String(value)} is no number`)];
}

function checkEnd({ lengths, joints }: Legs, { end }: Site): string[] {
  const { at, flow, up } = walkPath(lengths, joints);
  const off = Math.hypot(...end.at.map((wanted, axis) => (wanted === null ? 0 : at[axis]! - wanted)));
  const leans = measureAngle(flow, end.flow);
  const twist = measureAngle(up, end.up);
  return [
    ...(off <= MET ? [] : [`it ends ${off} mm off`]),
    ...(leans <= ALONG ? [] : [`it ends ${leans} degrees off`]),
    ...(Math.min(twist, 180 - twist) <= ALONG ? [] : [`its up is ${twist} degrees off`])
  ];
}

function checkMinima(legs: Legs, shop: Shop, outside: Site['section']): string[] {
  const last = legs.joints.length;
  if (last === 0) return [];
  return measureShortest(legs, outside).flatMap((edge, k) => {
    const least = k === 0 || k === last ? shop.minThroat : shop.minGore;
    return edge >= least - ALLOWED ? [] : [`piece ${k + 1} is ${edge} mm where ${least} is the least`];
  });
}

function checkClearance(
  legs: Legs,
  { section, obstacles, clearance }: Site,
  thickness: number,
  said: Proposal['clearance']
): string[] {
  const solids = spanLegs(legs, section, thickness);
  const measured = obstacles.map((obstacle) => {
    const block = standObstacle(obstacle);
    const value = measureDistance(solids, block);
    block.delete();
    return { obstacle: obstacle.name, value, wanted: obstacle.clearance ?? clearance };
  });
  free(solids);
  const short = measured
    .filter(({ value, wanted }) => !(value >= wanted - ALLOWED))
    .map(({ obstacle, value, wanted }) => `${value} mm clear of ${obstacle}, which wants ${wanted}`);
  if (measured.length === 0) return said === null ? [] : ['a clearance of nothing'];
  if (said === null) return [...short, 'no clearance is said'];
  const least = Math.min(...measured.map(({ value }) => value));
  const named = measured.filter(({ obstacle }) => obstacle === said.obstacle).map(({ value }) => value);
  return [
    ...short,
    ...compare('clearance', said.value, least, SAID),
    // Of two that are as near either may be named.
    ...(Math.abs(Math.min(...named) - least) <= SAID ? [] : [`${said.obstacle} is not the nearest`])
  ];
}

function compare(name: string, said: number, is: number, within: number): string[] {
  return Math.abs(said - is) <= within ? [] : [`${name} ${said} is ${is}`];
}

/** The angle between two directions of any length, degrees. */
function measureAngle(a: Vector, b: Vector): number {
  const across = Math.hypot(a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]);
  return Math.atan2(across, a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) / RADIANS;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, one) => total + one, 0);
}
