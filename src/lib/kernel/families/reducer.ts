import type { Vec3 } from '../geometry/vector.ts';
import type { Setting } from '../fitting/fitting.ts';
import { growSection } from '../straight/section.ts';
import { defineFamily, requireOneOf, type Handle } from './family.ts';
import { clamp, LEAST_DRAGGED_LENGTH, LONGEST } from './limits.ts';
import { buildFoldedReducer } from './reducer-fold.ts';
import {
  adviseSlopes,
  measureReducer,
  type ReducerMeasures,
  type ReducerValues,
  UPRIGHT
} from './reducer-measures.ts';
import { buildPanelReducer } from './reducer-panels.ts';

const DRIVERS = ['length', 'slope'] as const;

const [NARROWEST, WIDEST] = [20, 5000];

const COLLAR = { of: { kind: 'length', min: 0, max: LONGEST }, default: 100 } as const;
const SIDE = { of: { kind: 'length', min: NARROWEST, max: WIDEST }, required: true } as const;

/** From one section to another: a taper of four panels between collars, or one wall of a straight folded down. */
export const reducer = defineFamily({
  name: 'reducer',
  group: 'size',
  params: {
    outlet: { of: { kind: 'group', fields: { width: SIDE, height: SIDE } }, required: true },
    alignY: {
      of: { kind: 'place', of: ['top', 'center', 'bottom'], min: -LONGEST, max: LONGEST },
      default: 'center'
    },
    alignZ: {
      of: { kind: 'place', of: ['left', 'center', 'right'], min: -LONGEST, max: LONGEST },
      default: 'center'
    },
    length: { of: { kind: 'length', above: 0, max: LONGEST } },
    slope: { of: { kind: 'angle', above: 0, max: UPRIGHT } },
    collarIn: COLLAR,
    collarOut: COLLAR,
    method: { of: { kind: 'choice', of: ['panels', 'fold'] }, default: 'panels' },
    finish: { of: { kind: 'choice', of: ['strip', 'trim'] }, default: 'strip' }
  },
  drivers: { names: DRIVERS, usual: 'length', default: 400 },
  rules: [requireOneOf(DRIVERS)],
  example: {
    outlet: { width: 300, height: 200 },
    alignY: 'bottom',
    alignZ: 'center',
    length: 400,
    collarIn: 100,
    collarOut: 100,
    method: 'panels'
  },
  build(said, setting) {
    const values = said as ReducerValues;
    const measures = measureReducer(values, setting);
    if ('code' in measures) return { fitting: null, findings: [measures] };
    const build = values.method === 'fold' ? buildFoldedReducer : buildPanelReducer;
    const { fitting, findings } = build(values, measures, setting);
    return { fitting, findings: [...findings, ...adviseSlopes(values, measures)] };
  },
  handles: (values, setting) => placeHandles(values as ReducerValues, setting),
  drag(said, id, point, setting): Readonly<Record<string, unknown>> {
    const values = said as ReducerValues;
    const measures = measureReducer(values, setting);
    if ('code' in measures) return {};
    const { collarIn, outlet } = values;
    const side = (length: number): number => clamp(length, NARROWEST, WIDEST);
    const collar = (length: number): number => clamp(length, 0, LONGEST);
    switch (id) {
      case 'collarIn':
        return { collarIn: collar(point[0]) };
      case 'collarOut':
        return { collarOut: collar(point[0] - collarIn - measures.length) };
      case 'length': {
        const length = clamp(point[0] - collarIn, Math.min(LEAST_DRAGGED_LENGTH, measures.length), LONGEST);
        return { length, slope: undefined };
      }
      case 'alignY':
        return { alignY: clamp(point[1], -LONGEST, LONGEST) };
      case 'alignZ':
        return { alignZ: clamp(point[2], -LONGEST, LONGEST) };
      case 'outlet.height': {
        const height = readSide(values.alignY, point[1], measures.up, setting.section.height, setting);
        return { outlet: { ...outlet, height: side(height) } };
      }
      case 'outlet.width': {
        const width = readSide(values.alignZ, point[2], measures.right, setting.section.width, setting);
        return { outlet: { ...outlet, width: side(width) } };
      }
      default:
        throw new Error(`a reducer has no handle ${id}`);
    }
  },
  derive(said, setting): Record<string, number> {
    const measures = measureReducer(said as ReducerValues, setting);
    if ('code' in measures) return {};
    const { length, slopes } = measures;
    return {
      length,
      slope: Math.max(...slopes.map(Math.abs)),
      alignY: measures.up,
      alignZ: measures.right
    };
  },
  bladeValues: () => [],
  mirror: ({ alignZ }) => ({ alignZ: swapSides(alignZ) })
});

/** Which side of the outlet moves when its size is dragged: the one away from where it is aligned. */
function sideOf(align: string | number): 1 | -1 {
  return align === 'top' || align === 'right' ? -1 : 1;
}

/** The outlet's size whose dragged outside face comes to a coordinate. */
function readSide(
  align: string | number,
  at: number,
  offset: number,
  inlet: number,
  { board }: Setting
): number {
  const way = sideOf(align);
  const reach = way * at - board.thickness;
  const isMiddle = align === 'center' || typeof align === 'number';
  return isMiddle ? 2 * (reach - way * offset) : reach + inlet / 2;
}

function placeHandles(values: ReducerValues, setting: Setting): Handle[] {
  const measures = measureReducer(values, setting);
  if ('code' in measures) return [];
  const { collarIn, collarOut, outlet } = values;
  const { length, up, right } = measures as ReducerMeasures;
  const end = collarIn + length + collarOut;
  const { width, height } = growSection(outlet, setting.board.thickness);
  const inlet = growSection(setting.section, setting.board.thickness);
  const handle = (id: string, at: Vec3, along: Vec3, value: number): Handle => ({
    id,
    at,
    along,
    kind: 'length',
    value
  });
  const [wayY, wayZ] = [sideOf(values.alignY), sideOf(values.alignZ)];
  return [
    handle('collarIn', [collarIn, -inlet.height / 2, inlet.width / 2], [1, 0, 0], collarIn),
    handle('length', [collarIn + length, up - height / 2, right + width / 2], [1, 0, 0], length),
    handle('collarOut', [end, up, right], [1, 0, 0], collarOut),
    handle('alignY', [collarIn + length, up, right], [0, 1, 0], up),
    handle('alignZ', [collarIn + length / 2, up / 2, right], [0, 0, 1], right),
    handle('outlet.height', [end, up + (wayY * height) / 2, right], [0, wayY, 0], outlet.height),
    handle('outlet.width', [end, up, right + (wayZ * width) / 2], [0, 0, wayZ], outlet.width)
  ];
}

function swapSides(align: 'left' | 'center' | 'right' | number): 'left' | 'center' | 'right' | number {
  if (typeof align === 'number') return -align + 0;
  return align === 'left' ? 'right' : align === 'right' ? 'left' : align;
}
