import { referTo } from '../fitting/fitting.ts';
import { buildMiteredPath } from '../fitting/mitered-path.ts';
import { clamp, LEAST_DRAGGED_LENGTH, LONGEST } from './limits.ts';
import { defineFamily } from './family.ts';
import { LENGTH, readNumbers } from './routes.ts';

/** A straight run of duct: one piece, no cut. */
export const straight = defineFamily({
  name: 'straight',
  group: 'straight',
  params: { length: { of: { kind: 'length', above: 0, max: LONGEST }, required: true } },
  rules: [],
  example: { length: 1180 },
  build: ({ length }, setting) =>
    buildMiteredPath([{ axis: length, sizedBy: referTo('params.length', length) }], [], setting),
  handles: ({ length }) => [
    { id: 'length', at: [length, 0, 0], along: [1, 0, 0], kind: 'length', value: length }
  ],
  drag: ({ length }, _handle, point) => ({
    length: clamp(point[0], Math.min(LEAST_DRAGGED_LENGTH, length), LONGEST)
  }),
  derive: () => ({}),
  bladeValues: () => [],
  listRoutes: ({ end, longest, setting }) => [
    {
      joints: 0,
      fixed: true,
      // Where any length would do, less than a throat is none worth making.
      variables: [end.at[0] === null ? { ...LENGTH, low: setting.shop.minThroat } : LENGTH],
      starts: [[end.at[0] ?? longest / 2]],
      layOut: ([length]) => ({ legs: [length!], turns: [] }),
      writeParams: ([length]) => ({ length: length! }),
      readParams: (params) => readNumbers(params, ['length'])
    }
  ],
  mirror: () => ({}),
  reverse: () => ({})
});
