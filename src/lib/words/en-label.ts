import type { LabelWords } from './label.ts';

/** English. */
export const EN_LABEL: LabelWords = {
  count: (labels) => (labels === 1 ? '1 label' : `${labels} labels`),
  howTo: (quantity) =>
    [
      ...(quantity > 1 ? [`Print ${quantity} times.`] : []),
      'Cut at the marks; stick on before the first cut.'
    ].join(' '),
  revision: (revision) => `Rev. ${revision}`,
  straight: 'Straight',
  face: (face) => `${face} face`,
  on: {
    piece: (face) => `On the ${face} face, the arrow downstream.`,
    rolled: (face) => `On the ${face} face, the arrow downstream. Rolled over, it is up.`,
    straight: (face, pieces) =>
      `On the ${face} face at the datum end, the arrow downstream. Becomes ${pieces}.`,
    wall: 'On the facing, the arrow downstream.',
    panel: 'On the facing.'
  },
  noCode: {
    address: 'No code: it would be the link to this fitting, and the address of the page is not said.',
    long: 'No code: the link to this fitting is too long for one.'
  }
};
