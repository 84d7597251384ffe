import type { SiteWords } from './site.ts';
import type { Words } from './vocabulary.ts';

/** English words of the site: its measures, and what can be wrong with them. */
export const EN_SITE = {
  findings: {
    'tape-missing': (f, _say, words) =>
      `Still to be measured: ${words.site.measures[f.text('measure') as 'underside'].label}.`,
    'tape-crossed': (f, say, words) =>
      `Nothing of the obstacle is left between its faces (${say.length(-f.number('by'))}): either ${words.site.measures[f.text('first') as 'underside'].label} or ${words.site.measures[f.text('measure') as 'underside'].label} is wrong.`,
    'tape-differs': (f, say) =>
      `Piece by piece the other end is ${say.length(f.number('sum'))} away, at once ${say.length(f.number('said'))}: they differ by ${say.length(f.number('differs'))}, and all four together may be off by ${say.length(f.number('allowed'))}. Measure again.`,
    'tape-inside': (f, _say, words) =>
      `${words.site.ends[f.text('end') as 'near']} would stand in: ${f.text('thing')}. ${words.site.measures[f.text('measure') as 'underside'].label} cannot be right.`,
    'tape-tight': (f, say, words) =>
      `${words.site.ends[f.text('end') as 'near']} may come as near as ${say.length(f.number('apart'))} to: ${f.text('thing')}. The clearance is ${say.length(f.number('clearance'))}.`,
    'tape-no-way': (f, say) =>
      `Between the obstacle and the next thing there are ${say.length(f.number('gap'))}, give or take ${say.length(f.number('uncertainty'))}; the duct is ${say.length(f.number('outside'))} outside and wants ${say.length(f.number('clearance'))} clear on both sides.`,
    'tape-idle': (f, _say, words) =>
      `${words.site.measures[f.text('measure') as 'outToEnd'].label} says nothing of an end that goes on this way.`,
    'as-made-other': () =>
      'Only a fitting with two ends, cut from straights by whole planes, can be computed anew from what was made.',
    'as-made-length': (f, say) =>
      `${f.text('piece')} cannot be ${say.length(f.number('length'))} long: its shortest outside edge is more than nothing.`,
    'as-made-turn': (f, say) =>
      `${f.text('cut')} cannot turn the duct by ${say.angle(f.number('turn'))}: a joint turns by more than nothing and at most by a right angle.`,
    'as-made-lost': (f, say) => {
      const missed = `The other end is missed by ${say.length(f.number('place'))}`;
      switch (f.text('cause')) {
        case 'turned':
          return `${missed} and stays turned by ${say.angle(f.number('turn'))}: no cut that is still to be made puts that right.`;
        case 'short':
          return `${missed}: ${f.text('held')} would have to be shorter than the shop's least.`;
        default:
          return `${missed}: no piece that is still to be made moves it that way.`;
      }
    }
  },
  site: {
    measures: {
      toObstacle: {
        label: 'To the obstacle',
        help: 'Along the duct, from its end to the near side of the obstacle.'
      },
      obstacleWidth: {
        label: 'Width of the obstacle',
        help: 'Along the duct, from the near side of the obstacle to its far side.'
      },
      farSideToEnd: {
        label: 'Obstacle to the other end',
        help: 'Along the duct, from the far side of the obstacle to the other end. It checks the others.'
      },
      toOtherEnd: {
        label: 'To the other end',
        help: 'Along the duct, from one end to the other; to the near outside of a duct that is turned.'
      },
      underside: {
        label: 'Underside of the obstacle',
        help: "Straight up from the duct's outside top to the obstacle's underside; minus where it hangs into the way."
      },
      leftSide: {
        label: 'Left side of the obstacle',
        help: "Straight across from the duct's outside right to the obstacle's left side, looking downstream; minus where it reaches into the way."
      },
      topside: {
        label: 'Top of the obstacle',
        help: "Straight down from the duct's outside bottom to the obstacle's top; minus where it rises into the way."
      },
      rightSide: {
        label: 'Right side of the obstacle',
        help: "Straight across from the duct's outside left to the obstacle's right side, looking downstream; minus where it reaches into the way."
      },
      freeAbove: {
        label: 'Free above',
        help: "Straight up from the duct's outside top to the next thing."
      },
      freeRight: {
        label: 'Free on the right',
        help: "Straight across from the duct's outside right to the next thing, looking downstream."
      },
      freeBelow: {
        label: 'Free below',
        help: "Straight down from the duct's outside bottom to the next thing."
      },
      freeLeft: {
        label: 'Free on the left',
        help: "Straight across from the duct's outside left to the next thing, looking downstream."
      },
      heightDifference: {
        label: 'Height of the other end',
        help: 'From the height of the outside top here to that of the outside top there; minus where it is lower.'
      },
      sideDifference: {
        label: 'Other end to the right',
        help: 'Across from the outside right here to the outside right there, looking downstream; minus where it is further left.'
      },
      outToEnd: {
        label: 'Out to the other end',
        help: "Of a turned end: from the duct's outside on the side to which it goes on, straight out to its opening."
      }
    },
    next: {
      freeAbove: 'next thing above',
      freeRight: 'next thing on the right',
      freeBelow: 'next thing below',
      freeLeft: 'next thing on the left'
    },
    onward: {
      straight: 'goes on the same way',
      up: 'goes on upward',
      right: 'goes on to the right',
      down: 'goes on downward',
      left: 'goes on to the left'
    },
    ends: { near: 'This end of the duct', other: 'The other end of the duct' },
    uncertainty: {
      label: 'May be off by',
      help: 'How far the measure may be off, either way. Usual for a tape held by hand: 5 mm (common practice, no source).'
    },
    deciding: (measure, room) =>
      room === null
        ? `${measure} decides: be sure of it.`
        : `${measure} decides: be sure of it. The tightest place leaves ${room} beyond the clearance.`,
    closing: (length) =>
      `Leave the closing end ${length} long and trim it where it fits: the measures may be off by as much together, and what is too short cannot be mended.`,
    checkHolds: (differs, allowed) =>
      `The measures along the duct agree: they differ by ${differs}, and may by ${allowed}.`,
    asMade: {
      made: 'Made',
      length: {
        label: 'I measured instead',
        help: 'Shortest outside edge of the piece as it was cut. What is still to be cut is computed anew, the last piece first.'
      },
      turn: {
        label: 'It turns instead',
        help: 'How far the joint turns the duct as it was cut. Both pieces at the cut share it.'
      },
      changed: {
        length: (name, from, to) => `${name}, shortest: ${to} instead of ${from}`,
        turn: (name, from, to) => `${name} turns by ${to} instead of ${from}`,
        heel: (name, from, to) => `${name}, heel at ${to} instead of ${from}`
      },
      unchanged: 'Nothing else has to change.'
    }
  }
} satisfies Part;

interface Part {
  readonly findings: Partial<Words['findings']>;
  readonly site: SiteWords;
}
