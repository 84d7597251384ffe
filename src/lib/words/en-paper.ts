import type { PaperWords } from './paper.ts';

/** English, on figures. */
export const EN_PAPER: PaperWords = {
  top: 'TOP',
  marks: {
    seam: 'seam',
    flap: 'flap',
    flow: 'flow',
    square: 'square',
    line: (angle) => `line ${angle}`,
    setback: (figure) => `set-back ${figure}`,
    reading: 'Stations from the datum end, outside up, one scale both ways.',
    leftOut: 'Figures that would overlap are left out: the mark table has them all.',
    legend: (unit) =>
      `Lengths in ${unit === 'mm' ? 'mm' : 'inches'}. Line: angle of the mark from square across. Stroke on a base line: the blade, downstream to the right.`
  },
  table: {
    straight: 'Straight',
    cut: 'Cut',
    face: 'Face',
    start: 'Start',
    end: 'End',
    line: 'Line',
    bevel: 'Bevel',
    lean: 'Blade leans',
    setback: 'Set-back',
    depth: 'Depth',
    piece: 'Piece',
    axis: 'On the axis',
    shortest: 'Shortest edge',
    longest: 'Longest edge',
    at: 'at',
    everyCorner: 'every corner',
    inFitting: 'In the fitting',
    upright: 'upright',
    rolled: 'rolled over',
    stays: 'stays',
    startsAt:
      'From start to end: on top and bottom from left to right, on right and left from top to bottom.',
    of: (heading, unit) => `${heading}, ${unit}`
  },
  panels: (count) => (count === 1 ? '1 panel' : `${count} panels`)
};
