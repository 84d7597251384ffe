// Sites that one family cannot solve, made of planted ones by tightening a limit; and the same sites with the limit eased that
// the solver names.
import { DEFAULT_BOARD, DEFAULT_SHOP } from '../../src/lib/kernel/document/job.ts';
import type { Refusal } from '../../src/lib/kernel/solve-answer.ts';
import { listMakeUps } from '../../src/lib/kernel/straight/blank.ts';
import { between, pick, type Random } from '../oracle/generated-fittings.ts';
import { layOutLegs, surround } from './legs.ts';
import { generateSite, type Kind, type PlantedSite } from './sites.ts';
import { combine, walkLegs, walkPath, type Vector } from './turtle.ts';

export type SitedJob = PlantedSite['job'];

/** A site and the family that is asked for it. */
export interface Tightened {
  readonly job: SitedJob;
  readonly family: string;
  readonly by: string;
}

type Tighten = (random: Random, site: PlantedSite) => SitedJob;

/** The ways in which a site is made too tight: ends too near, gores too long, boxes too near, boards too short. */
const WAYS: Readonly<Record<string, Tighten>> = {
  throats: (random, { job, planted }) => {
    const { throatIn, throatOut } = planted.params as { throatIn?: number; throatOut?: number };
    const least = Math.max(throatIn ?? 200, throatOut ?? 200) + between(random, 20, 300);
    return { ...job, shop: { ...job.shop, minThroat: least } };
  },
  gores: (random, { job, planted }) => {
    const { joints, lengths } = lay(job, planted);
    const longest = Math.max(...(joints.length > 1 ? lengths.slice(1, -1) : [300]));
    return { ...job, shop: { ...job.shop, minGore: longest + between(random, 20, 200) } };
  },
  boxes: (random, { job, planted }) => {
    const { section, obstacles } = job.site;
    const legs = lay(job, planted);
    const { width, height } = surround(section, job.board!.thickness!);
    // Beside an end piece, which has to be where it is.
    const isOutlet = random() < 0.5;
    const stand = isOutlet ? walkPath(legs.lengths, legs.joints) : walkLegs(legs.lengths, legs.joints)[0]!;
    const back = (isOutlet ? -1 : 1) * between(random, 20, 0.9 * job.shop!.minThroat!);
    const side = random() < 0.5 ? 1 : -1;
    const [way, reach] = pick(random, [
      [stand.up, height / 2],
      [stand.right, width / 2]
    ] as const);
    const gap = between(random, 1, 24);
    // A small box square to the site: as near as its own half along the way, which leans.
    const half = 10;
    const away = reach + gap + half * (Math.abs(way[0]) + Math.abs(way[1]) + Math.abs(way[2]));
    const at = combine([1, stand.at], [back, stand.flow], [side * away, way]);
    const box = { name: 'clip', kind: 'clip', min: grow(at, -half), max: grow(at, half) };
    return { ...job, site: { ...job.site, obstacles: [...obstacles, box] } };
  },
  board: (random, { job, planted }) => {
    const { lengths } = lay(job, planted);
    const straight = lengths.reduce((sum, one) => sum + one, 0);
    const less = findYield(job) - straight + between(random, 10, 300);
    const board = { ...DEFAULT_BOARD, ...job.board };
    return {
      ...job,
      board: { ...board, length: board.length - less, width: Math.min(board.width, board.length - less) }
    };
  }
};

const FAMILIES: Readonly<Record<string, Kind>> = {
  straight: 'straight or bend',
  bend: 'straight or bend',
  offset: 'rolling offset',
  'double-offset': 'double offset',
  path: 'free path'
};

/** A site of the family tightened one way; the family may still find another way through. */
export function tightenSite(random: Random, family: string, by: string): Tightened {
  for (;;) {
    const site = generateSite(random, FAMILIES[family]!);
    if (site.planted.family !== family) continue;
    const job = WAYS[by]!(random, site);
    if (findYield(job) > 0) return { job, family, by };
  }
}

/** The same site with a limit eased by so much, mm; null where the board then yields another length than that much more. */
export function easeLimit(job: SitedJob, limit: Refusal['limit'], by: number): SitedJob | null {
  const shop = { ...DEFAULT_SHOP, ...job.shop };
  const { clearance, obstacles } = job.site;
  switch (limit) {
    case 'minThroat':
      return { ...job, shop: { ...shop, minThroat: Math.max(0, shop.minThroat - by) } };
    case 'minGore':
      return { ...job, shop: { ...shop, minGore: Math.max(0, shop.minGore - by) } };
    case 'straight': {
      const board = { ...DEFAULT_BOARD, ...job.board };
      const eased = { ...job, board: { ...board, length: board.length + by, width: board.width + by } };
      return Math.abs(findYield(eased) - findYield(job) - by) < 1e-6 ? eased : null;
    }
    case 'clearance': {
      const less = (wanted: number): number => Math.max(0, wanted - by);
      const eased = obstacles.map((obstacle) =>
        obstacle.clearance === undefined ? obstacle : { ...obstacle, clearance: less(obstacle.clearance) }
      );
      return { ...job, site: { ...job.site, clearance: less(clearance), obstacles: eased } };
    }
    default:
      throw new Error(`${limit} is no limit that a length eases`);
  }
}

function lay({ site, board }: SitedJob, { family, params }: PlantedSite['planted']) {
  return layOutLegs({ family, params, section: site.section }, board!.thickness!);
}

function findYield({ board, site }: SitedJob): number {
  const makeUps = [...listMakeUps(site.section, { ...DEFAULT_BOARD, ...board }, 'top-left')];
  return Math.max(0, ...makeUps.map((makeUp) => makeUp.yield));
}

function grow([x, y, z]: Vector, by: number): Vector {
  return [x + by, y + by, z + by];
}
