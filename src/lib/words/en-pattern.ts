import type { PatternWords } from './pattern.ts';

/** English. */
export const EN_PATTERN: PatternWords = {
  title: (fitting) => `Flat pattern of ${fitting}`,
  sides: {
    outside: 'OUTSIDE UP: the facing as you look at it from outside the duct. Not mirrored.',
    inside: 'INSIDE UP: the mirror image of the facing, as you look at it from inside the duct.'
  },
  reading:
    'Full size, 1:1, drawn in millimetres. Downstream to the right. Continuous wide: on the side that is up; dashed: on the other side; continuous narrow: folds and grooves; long-dashed double-dotted: flaps.',
  straight: (name) => `${name}, unrolled`,
  panel: (name, face) => `${name}, ${face === null ? 'panel' : `panel, ${face} face`}`,
  blade: (cut, held) =>
    held === null ? `${cut} · upright` : `${cut} · bevel ${held.bevel}, top leans ${held.lean}`,
  round: (diameter, bevel) => `diameter ${diameter} · bevel ${bevel}`
};
