import type { Model } from '$lib/kernel/evaluate.ts';
import { straightenEnd, type Site } from '$lib/kernel/site/site.ts';
import type { Vec3 } from '$lib/kernel/geometry/vector.ts';

/** What a site begins with where nothing is known of it: the end straight on, mm. */
const FIRST_LENGTH = 2000;
const FIRST_SECTION = { width: 400, height: 250 };
const FIRST_CLEARANCE = 25;

/** A site with nothing in the way, for the duct of a fitting of the job. */
export function beginSite(model: Model, fitting: number): Site {
  return {
    section: model.fittings[fitting]?.resolved.setting.section ?? FIRST_SECTION,
    end: { at: [FIRST_LENGTH, 0, 0], flow: [1, 0, 0], up: [0, 1, 0] },
    clearance: FIRST_CLEARANCE,
    obstacles: []
  };
}

/** Which way a duct's top looks when it stands upright; of one that goes straight up or down, as a plain bend leaves it. */
export function findUp(flow: Vec3): Vec3 {
  if (flow[0] === 0 && flow[2] === 0) return [flow[1] > 0 ? -1 : 1, 0, 0];
  return straightenEnd({ at: [null, null, null], flow, up: [0, 1, 0] }).up;
}
