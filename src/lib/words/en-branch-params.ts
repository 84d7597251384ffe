import type { Words } from './vocabulary.ts';

/** English labels and helps for the parameters of reducers, branches, dividing and closing fittings, and their choices. */
export const EN_BRANCH_PARAMS = {
  params: {
    reducer: {
      outlet: { label: 'Outlet', help: 'Inside of the outlet.' },
      'outlet.width': { label: 'Outlet width', help: 'Inside width of the outlet.' },
      'outlet.height': { label: 'Outlet height', help: 'Inside height of the outlet.' },
      alignY: {
        label: 'Lined up, height',
        help: 'Which inside faces line up, or how far the outlet lies above the inlet, axis to axis.'
      },
      alignZ: {
        label: 'Lined up, width',
        help: 'Which inside faces line up, or how far the outlet lies to the right of the inlet, axis to axis.'
      },
      length: { label: 'Length of the taper', help: 'Along the duct, without the collars.' },
      slope: { label: 'Steepest slope', help: 'Of the wall that slopes most; the length follows.' },
      collarIn: { label: 'Collar at inlet', help: 'Straight duct before the taper; none: 0.' },
      collarOut: { label: 'Collar at outlet', help: 'Straight duct behind the taper; none: 0.' },
      method: {
        label: 'Made',
        help: 'Of four panels, or folded from one straight where exactly one wall slopes.'
      },
      finish: {
        label: 'Short wall',
        help: 'The folded wall comes up short: close the gap with a strip, or trim the other walls.'
      }
    },
    takeoff: {
      length: { label: 'Length of the main', help: 'From shoulder to shoulder, along the main.' },
      wall: { label: 'Wall', help: 'The wall of the main that the branch leaves.' },
      station: {
        label: 'Station',
        help: 'Where the axis of the branch meets the outside of the main, from its inlet.'
      },
      aside: {
        label: 'Aside',
        help: 'From the middle of the wall: up on a side wall, to the right on top and bottom.'
      },
      branch: { label: 'Branch', help: 'Inside of the branch.' },
      'branch.across': { label: 'Branch across', help: 'Inside, square to the flow of the main.' },
      'branch.along': {
        label: 'Branch along',
        help: 'Inside, square to its own axis, on the side along the main.'
      },
      angle: { label: 'Angle', help: 'Between the flow of the main and that of the branch.' },
      neck: { label: 'Neck', help: 'Shortest outside edge of the branch, from the outside of the main.' },
      entry: { label: 'Entry', help: 'Plain, or with a shoe on the upstream side.' },
      shoe: { label: 'Shoe', help: 'How far upstream the shoe begins, and how high it rises.' },
      fit: {
        label: 'Fit',
        help: 'Butted on the wall, or let into it up to its inside: then no raw edge of the main lies in the air.'
      },
      play: { label: 'Play', help: 'How much larger the opening is than the stub, on every side.' }
    },
    'split-bend': {
      toward: { label: 'Turns to', help: 'The side on which a part turns off.' },
      turned: { label: 'Part that turns', help: 'The part that turns off.' },
      straight: { label: 'Part straight on', help: 'The part that goes straight on.' },
      ...nameTurned('turned', 'Turning part'),
      ...nameStraight('straight', 'Straight part')
    },
    wye: {
      first: { label: 'First part', help: 'The part on the left or the top.' },
      second: { label: 'Second part', help: 'The part on the right or the bottom.' },
      ...nameTurned('first', 'First part'),
      ...nameTurned('second', 'Second part')
    },
    'three-way': {
      first: { label: 'First part', help: 'The part on the left or the top.' },
      middle: { label: 'Middle part', help: 'The part that goes straight on.' },
      second: { label: 'Second part', help: 'The part on the right or the bottom.' },
      ...nameTurned('first', 'First part'),
      ...nameStraight('middle', 'Middle part'),
      ...nameTurned('second', 'Second part')
    },
    cap: {
      set: { label: 'Set', help: 'The panel goes into the end, flush, or on it.' },
      length: { label: 'Length', help: 'Of the duct that is closed, along it.' }
    },
    opening: {
      length: { label: 'Length', help: 'From shoulder to shoulder, along the duct.' },
      ...nameOpening('')
    },
    box: {
      length: { label: 'Length', help: 'Of the duct between its two ends.' },
      set: { label: 'Ends', help: 'The panels go into the ends, flush, or on them.' },
      openings: { label: 'Opening', help: 'A hole in a wall; the air comes in by the first.' },
      ...nameOpening('openings.')
    },
    '*': {
      divide: {
        label: 'Divided',
        help: 'The width into a left and a right part, or the height into a top and a bottom one.'
      }
    }
  },
  choices: {
    'reducer.alignY': { top: 'tops level', center: 'middles level', bottom: 'bottoms level' },
    'reducer.alignZ': { left: 'left sides level', center: 'middles in line', right: 'right sides level' },
    'reducer.method': { panels: 'of four panels', fold: 'folded from one straight' },
    'reducer.finish': { strip: 'gap closed with a strip', trim: 'other walls trimmed' },
    'takeoff.entry': { plain: 'plain', shoe: 'with a shoe' },
    'takeoff.fit': { butt: 'butted on the wall', enter: 'let into the wall' },
    'split-bend.divide': { width: 'side by side', height: 'one over the other' },
    'wye.divide': { width: 'side by side', height: 'one over the other' },
    'three-way.divide': { width: 'side by side', height: 'one over the other' },
    'cap.set': { in: 'into the end', on: 'on the end' },
    'box.set': { in: 'into the ends', on: 'on the ends' },
    'opening.shape': { round: 'round', rectangular: 'rectangular' },
    'box.openings.shape': { round: 'round', rectangular: 'rectangular' }
  }
} satisfies { readonly [K in 'params' | 'choices']: Partial<Words[K]> };

type Named = { readonly label: string; readonly help: string };

function nameTurned(name: string, part: string): Record<string, Named> {
  return {
    [`${name}.inside`]: {
      label: `${part}: inside`,
      help: 'Its share; left out, it takes what the others leave.'
    },
    [`${name}.turn`]: { label: `${part}: turn`, help: 'How far it turns away from the others.' },
    [`${name}.pieces`]: { label: `${part}: pieces`, help: 'How many pieces it is made of; one cut fewer.' },
    [`${name}.throatIn`]: {
      label: `${part}: throat at inlet`,
      help: 'Shortest outside edge of its first piece.'
    },
    [`${name}.gore`]: {
      label: `${part}: gore`,
      help: 'Shortest outside edge of each piece between two cuts.'
    },
    [`${name}.throatOut`]: {
      label: `${part}: throat at outlet`,
      help: 'Shortest outside edge of its last piece, or the rest of the straight.'
    }
  };
}

function nameStraight(name: string, part: string): Record<string, Named> {
  return {
    [`${name}.inside`]: {
      label: `${part}: inside`,
      help: 'Its share; left out, it takes what the others leave.'
    },
    [`${name}.length`]: { label: `${part}: length`, help: 'From shoulder to shoulder.' }
  };
}

function nameOpening(prefix: string): Record<string, Named> {
  return {
    [`${prefix}wall`]: { label: 'Wall', help: 'The wall that is cut.' },
    [`${prefix}station`]: { label: 'Station', help: 'Of the middle, from the inlet end.' },
    [`${prefix}aside`]: {
      label: 'Aside',
      help: 'From the middle of the wall: up on a side wall, to the right on top and bottom.'
    },
    [`${prefix}shape`]: { label: 'Shape', help: 'Round for a collar, rectangular for a door or a grille.' },
    [`${prefix}diameter`]: { label: 'Diameter', help: 'On the outside.' },
    [`${prefix}along`]: { label: 'Along', help: 'Along the duct, on the outside.' },
    [`${prefix}across`]: { label: 'Across', help: 'Across the wall, on the outside.' },
    [`${prefix}bevel`]: {
      label: 'Bevel',
      help: 'Tilt of the edge; wider on the outside where positive, so that a lid cannot fall in.'
    }
  };
}
