import { tanDegrees } from '../geometry/angle.ts';
import type { Finding } from '../fitting/finding.ts';
import { buildMiteredPath } from '../fitting/mitered-path.ts';
import { FACES } from '../straight/section.ts';
import { dragBend, placeBendHandles } from './bend-handles.ts';
import { layOutBend } from './bend-legs.ts';
import { listBendRoutes } from './bend-routes.ts';
import { BEND_DRIVERS, LARGEST_TURN, measureBend, type BendValues } from './bend-measures.ts';
import { allowOneOf, allowOneRest, defineFamily } from './family.ts';
import { mirrorFace } from './hand.ts';
import { LEAST_PIECES, LONGEST, MOST_PIECES, SHARPEST_TURN } from './limits.ts';
import { THROAT } from './rest.ts';

/** A turn in one plane by equal miters: cuts \ / \ on the straight. */
export const bend = defineFamily({
  name: 'bend',
  group: 'turn',
  params: {
    turn: { of: { kind: 'angle', above: 0, max: LARGEST_TURN }, required: true },
    pieces: { of: { kind: 'count', min: LEAST_PIECES, max: MOST_PIECES }, default: 3 },
    heel: { of: { kind: 'choice', of: FACES }, required: true },
    throatIn: THROAT,
    gore: { of: { kind: 'length', min: 0, max: LONGEST } },
    radius: { of: { kind: 'length', min: 0, max: LONGEST } },
    setback: { of: { kind: 'length', min: 0, max: LONGEST } },
    throatOut: THROAT
  },
  drivers: { names: BEND_DRIVERS, usual: 'gore', default: { shop: 'minGore' } },
  rules: [
    allowOneOf(BEND_DRIVERS),
    allowOneRest(['throatIn', 'throatOut']),
    {
      check({ turn, pieces }) {
        return typeof turn === 'number' && turn > SHARPEST_TURN && pieces === LEAST_PIECES
          ? {
              path: ['turn'],
              expected: `at most ${SHARPEST_TURN} a joint, so with 2 pieces at most ${SHARPEST_TURN}`
            }
          : null;
      },
      json: {
        if: { required: ['pieces'], properties: { pieces: { const: LEAST_PIECES } } },
        then: { properties: { turn: { maximum: SHARPEST_TURN } } }
      }
    }
  ],
  example: { turn: 90, pieces: 3, heel: 'right', throatIn: 200, gore: 150, throatOut: 200 },
  build(values, setting) {
    const path = layOutBend(values, setting);
    if ('code' in path) return { fitting: null, findings: [path] };
    const built = buildMiteredPath(path.legs, path.turns, setting);
    return { fitting: built.fitting, findings: [...built.findings, ...adviseBend(values)] };
  },
  handles: placeBendHandles,
  drag: dragBend,
  derive(values, setting): Record<string, number> {
    const measured = measureBend(values, setting);
    if ('code' in measured) return {};
    const { joints, gore, miter, depth, throatIn, throatOut, reach } = measured;
    const derived: Record<string, number> = { throatIn, throatOut };
    if (joints > 1) {
      const radius = depth / 2 + gore / (2 * tanDegrees(miter));
      derived['gore'] = gore;
      derived['radius'] = radius;
      if (values.turn < LARGEST_TURN) {
        derived['setback'] = throatIn + reach + radius * (tanDegrees(values.turn / 2) - tanDegrees(miter));
      }
    } else {
      derived['setback'] = throatIn + reach;
    }
    return derived;
  },
  bladeValues({ pieces }, param, shop) {
    if (param !== 'turn') return [];
    const joints = pieces - 1;
    return shop.blades
      .map((blade) => 2 * joints * blade.angle)
      .filter((turn) => turn > 0 && turn <= Math.min(LARGEST_TURN, joints * SHARPEST_TURN))
      .sort((a, b) => a - b);
  },
  listRoutes: listBendRoutes,
  mirror: ({ heel }) => ({ heel: mirrorFace(heel) }),
  reverse(values, setting) {
    const { heel, throatIn, throatOut, setback } = values;
    const swapped = { heel: mirrorFace(heel), throatIn: throatOut, throatOut: throatIn };
    if (setback === undefined) return swapped;
    const measured = measureBend(values, setting);
    // Without measures there is no bend to look at from the other end, and no setback to tell.
    if ('code' in measured) return swapped;
    const fromOutlet = setback - measured.throatIn + measured.throatOut;
    return fromOutlet >= 0 && fromOutlet <= LONGEST
      ? { ...swapped, setback: fromOutlet }
      : { ...swapped, setback: undefined, gore: measured.gore };
  }
});

function adviseBend(values: BendValues): Finding[] {
  const findings: Finding[] = [];
  if (values.pieces === LEAST_PIECES && values.turn === SHARPEST_TURN) {
    findings.push({
      level: 'note',
      code: 'two-piece-bend',
      param: 'params.pieces',
      would: LEAST_PIECES + 1,
      data: { turn: values.turn },
      source: 'shop'
    });
  }
  if (values.pieces === LEAST_PIECES && values.radius !== undefined) {
    findings.push({
      level: 'note',
      code: 'radius-idle',
      param: 'params.radius',
      data: { radius: values.radius },
      source: 'geometry'
    });
  }
  return findings;
}
