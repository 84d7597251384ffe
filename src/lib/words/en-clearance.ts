import type { Words } from './vocabulary.ts';

/** English words for a fitting in its site: what can be wrong with how it stands, and why a family leads nowhere there. */
export const EN_CLEARANCE = {
  findings: {
    'clearance-small': (f, say) => {
      const [value, wanted] = [f.number('value'), say.length(f.number('wanted'))];
      const obstacle = f.text('obstacle');
      if (value < 0)
        return `The duct runs ${say.length(-value)} deep into this obstacle, which wants ${wanted} clear: ${obstacle}.`;
      return `The duct comes as near as ${say.length(value)} to this obstacle, which wants ${wanted} clear: ${obstacle}.`;
    },
    'end-missed': (f, say) => {
      const how = [
        f.has('away') ? tellHowMuch(say.length, f.number('away'), 'away from it') : [],
        f.has('askew') ? tellHowMuch(say.angle, f.number('askew'), 'askew') : []
      ];
      return `The outlet does not meet the end where the duct has to go on: it is ${how.flat().join(' and ')}.`;
    },
    'section-differs': (f, say, words) =>
      `The ${words.ports[f.text('port')]} is ${say.lengths([f.number('width'), f.number('height')])} inside; the duct on site is ${say.lengths([f.number('siteWidth'), f.number('siteHeight')])}.`,
    'hand-room': (f, say) =>
      `${f.text('joint')} would come within ${say.length(f.number('value'))} of an obstacle (${f.text('obstacle')}); hands want ${say.length(f.number('wanted'))}. Close this joint on the bench, before the fitting goes up.`,
    'closing-long': (f, say) =>
      `Leave ${f.text('piece')} ${say.length(f.number('long'))} long at its end and trim it where it fits: what was measured may be off by as much together, and what is too short cannot be mended.`
  },
  refusals: {
    end: (f, say) =>
      f.has('short')
        ? `This fitting does not lead there: at its best it ends ${tellHowMuch(say.length, f.number('short'), 'away')}.`
        : 'This fitting does not lead there, whatever its lengths and turns.',
    minThroat: (f, say) =>
      `The end pieces come ${tellHowMuch(say.length, f.number('short'), 'too short')} for the shop.`,
    minGore: (f, say) =>
      `A piece between two cuts comes ${tellHowMuch(say.length, f.number('short'), 'too short')} for the shop.`,
    straight: (f, say) =>
      `The straight would be ${tellHowMuch(say.length, f.number('short'), 'too long')} for the board, or for the straight there is.`,
    clearance: (f, say) =>
      `It comes ${tellHowMuch(say.length, f.number('short'), 'too near')} to an obstacle.`,
    obstacle: (f, say) =>
      `An obstacle stands in the way, whatever the clearance: on every side it would have to yield ${tellHowMuch(say.length, f.number('short'), 'more')}.`,
    several: () =>
      'More than one limit stands in the way: none of them alone, set free, would let it through.'
  }
} satisfies Part;

/** What is too little for the figures that are shown is not called nothing. */
function tellHowMuch(tell: (amount: number) => string, amount: number, what: string): string {
  return `${tell(amount) === tell(0) ? 'a little' : tell(amount)} ${what}`;
}

interface Part {
  readonly findings: Partial<Words['findings']>;
  readonly refusals: Words['refusals'];
}
