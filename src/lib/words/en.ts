import { EN_BRANCH_PARAMS } from './en-branch-params.ts';
import { EN_BRANCHES } from './en-branches.ts';
import { EN_CLEARANCE } from './en-clearance.ts';
import { EN_OFFLINE } from './en-offline.ts';
import { EN_PAGE } from './en-page.ts';
import { EN_PAPER } from './en-paper.ts';
import { EN_SITE } from './en-site.ts';
import type { Words } from './vocabulary.ts';

/** English. */
export const EN: Words = {
  language: 'en',
  findings: {
    ...EN_BRANCHES.findings,
    ...EN_SITE.findings,
    ...EN_CLEARANCE.findings,
    'edge-vanishes': (f, say, words) =>
      `${f.text('piece')} has nothing left at its ${words.corners[f.text('corner') as 'top-left']} corner: the cuts at its two ends meet or cross (${say.length(f.number('shortest'))}).`,
    'throat-short': (f, say, words) =>
      `${f.text('piece')} is ${say.length(f.number('shortest'))} at its shortest, ${words.corners[f.text('corner') as 'top-left']} corner; the shop wants ${say.length(f.number('least'))} for an end piece.`,
    'gore-short': (f, say, words) =>
      `${f.text('piece')} is ${say.length(f.number('shortest'))} at its shortest, ${words.corners[f.text('corner') as 'top-left']} corner; the shop wants ${say.length(f.number('least'))} between two cuts.`,
    'no-blade': (f, say) =>
      `No blade in the shop makes a bevel of ${say.angle(f.number('bevel'))} (first at ${f.text('cut')}): cut it by set-back ${say.length(f.number('setback'))}, depth ${say.length(f.number('depth'))}.`,
    'two-piece-bend': () =>
      'A right-angle bend of two pieces is allowed but turns the air hard: three pieces, or vanes, do better.',
    'pieces-collide': (f, say) =>
      `${f.text('first')} and ${f.text('second')} would run into each other, ${say.length(f.number('depth'))} deep: lengthen a piece between them or turn less.`,
    'straight-undivided': (f, say) =>
      `A straight of ${say.length(f.number('length'))} cannot be divided over boards that yield ${say.length(f.number('yield'))} each: between two divisions it would still be longer, or it would take more than ${f.number('most')} of them.`,
    'ends-apart': (f, say) =>
      `${f.text('first')} and ${f.text('second')} meet with ends that do not go into each other: cut the profile by hand (${say.length(f.number('spigot'))} longer), use a joining strip, or butt them with cross-tabs.`,
    'board-small': (f, say) =>
      `No way of folding ${say.lengths([f.number('width'), f.number('height')])} fits a board of ${say.lengths([f.number('boardLength'), f.number('boardWidth')])}.`,
    'rest-spent': (f, say) =>
      `The straight of ${say.length(f.number('whole'))} is used up before this throat: ${say.length(f.number('missing'))} are missing. A length in place of "rest" makes the straight longer.`,
    'rest-along': () => 'A throat can only run out to a moulded end when the straight lies across the board.',
    'radius-idle': () => 'With two pieces there is no gore, so the radius changes nothing.',
    'setback-fixed': (f, say) =>
      `With two pieces the setback follows from the throat: it is ${say.length(f.number('fixed'))}, not ${say.length(f.number('setback'))}.`,
    'setback-endless': () =>
      'The axes at the two ends of this bend never cross, so it has no setback: give the gore or the radius.',
    'offset-nothing': () =>
      'Neither rise nor roll: there is nothing to shift. A straight does, or give one of the two.',
    'advance-short': (f, say) =>
      `No turn up to a right angle shifts ${say.length(f.number('offset'))} within ${say.length(f.number('wanted'))} along the duct; from ${say.length(f.number('least'))} on one does.`,
    'travel-short': (f, say) =>
      `A travel of ${say.length(f.number('wanted'))} is shorter than the shift of ${say.length(f.number('offset'))} allows; from ${say.length(f.number('least'))} on it does.`,
    'slope-endless': (f, say) =>
      `The duct turns so little that the slope would be longer than ${say.length(f.number('most'))}.`,
    'end-plain': (f, say, words) =>
      `The ${words.ports[f.text('port')]} is a plain end. To join it: cut the profile by hand (${say.length(f.number('spigot'))} longer), use a joining strip, or butt it with cross-tabs.`
  },
  steps: {
    ...EN_BRANCHES.steps,
    check: {
      title: () => 'Check and cut the blank',
      text: (f, say, words) =>
        `Board ${say.length(f.number('thickness'))} thick, dry and undamaged. Blank ${say.lengths(f.numbers('widths'))} round the duct by ${say.length(f.number('length'))} along it, laid ${words.lays[f.text('lay') as 'across']} the board, ${words.makes[f.text('make') as 'one piece']}. Gloves, long sleeves, eye protection; a respirator where there is dust.`
    },
    groove: {
      title: () => 'Groove the blank, inside up',
      text: (f, say, words) =>
        `Walls ${say.list(f.texts('walls').map((face) => words.faces[face as 'top']))}. Grooves at ${say.lengths(f.numbers('folds'))} from the first edge, ${say.length(f.number('before'))} before and ${say.length(f.number('after'))} after each on the inside, down to the facing and never through it; half a groove along both long edges. Cut away from the body.`
    },
    strip: {
      title: () => 'Strip the flap',
      text: (f, say) =>
        `Take the wool off the last ${say.length(f.number('flap'))}: only the facing stays, to staple.`
    },
    fold: {
      title: () => 'Fold',
      text: (f) => `Fold the ${f.number('corners')} corners on the facing and close the seam.`
    },
    square: {
      title: () => 'Square it',
      text: (f, say) =>
        `Both diagonals at both ends ${say.length(f.number('diagonal'))} outside, equal within ${say.length(f.number('within'))}, before the first staple.`
    },
    staple: {
      title: () => 'Staple the flap',
      text: (f, say) =>
        `Outward-clinching staples every ${say.length(f.number('pitch'))}${f.number('marks') > 0 ? `; none within ${say.length(f.number('clear'))} of a mark, but one on each side of it` : ''}.`
    },
    'tape-seam': {
      title: () => 'Tape the seam',
      text: (f, say) =>
        `${say.length(f.number('seam'))} of tape along the seam, on clean dry facing, rubbed down hard. Follow the tape maker's instructions.`
    },
    mark: {
      title: () => 'Mark all faces',
      text: (f, say) =>
        `${say.list(f.texts('cuts'))}: from the datum end, outside, on every face; see the mark table. The four lines of a cut must meet at the corners.`
    },
    label: {
      title: () => 'Label every piece',
      text: (f, say) =>
        [
          'Name and flow arrow on every piece, before the first cut.',
          f.texts('staying').length > 0 ? `TOP on the top face of ${say.list(f.texts('staying'))}.` : '',
          f.texts('flipped').length > 0
            ? `TOP on the bottom face of ${say.list(f.texts('flipped'))}, which will be rolled over.`
            : ''
        ]
          .filter((part) => part !== '')
          .join(' ')
    },
    turn: {
      title: (f, _say, words) =>
        `${f.number('quarters') === 2 ? 'Half turn' : 'Quarter turn'}: ${words.faces[f.text('face') as 'top']} face up`,
      text: () => 'Turn the straight about its length; keep it supported.'
    },
    support: {
      title: () => 'Support every piece',
      text: (f, say) => `The next cuts free the pieces (${say.list(f.texts('cuts'))}): a support under each.`
    },
    cut: {
      title: (f, _say, words) => `Cut ${f.text('cut')} on the ${words.faces[f.text('face') as 'top']} face`,
      text: (f, say, words) => {
        const where =
          f.number('line') === 0
            ? `Square across at ${say.length(f.number('start'))}`
            : `From ${say.length(f.number('start'))} to ${say.length(f.number('end'))}, line ${say.angle(f.number('line'))}`;
        const blade = f.has('lean')
          ? `blade tilted ${say.angle(f.number('bevel'))}, its top leaning ${words.leans[f.text('lean') as 'upstream']}, set-back ${say.length(f.number('setback'))}`
          : 'blade upright';
        return `${where}; ${blade}, depth ${say.length(f.number('depth'))}. Cut away from the body.`;
      }
    },
    separate: {
      title: (f, say) =>
        f.texts('pieces').length === 0
          ? 'The off-cut comes free'
          : `${say.list(f.texts('pieces'))} ${f.texts('pieces').length > 1 ? 'come' : 'comes'} free`,
      text: (f) => `Draw the pieces apart at ${f.text('cut')}; wipe the dust off, do not blow it.`
    },
    flip: {
      title: (f, say) => `Roll ${say.list(f.texts('pieces'))} over`,
      text: () =>
        'Half a turn about its own length: its two ends stay where they are. Do not turn it end for end.'
    },
    fit: {
      title: () => 'Fit dry',
      text: (f, say) =>
        `Gap at most ${say.length(f.number('gap'))}, every TOP up, every arrow downstream. A wider gap is cut again, never filled with tape.`
    },
    glue: {
      title: (f) => `Glue ${f.text('cut')}`,
      text: (f, say) =>
        `One line near the inner face, right round one of the two edges, ${say.length(f.number('length'))}; clear of the facing, for tape does not hold on glue. Follow the adhesive maker's instructions.`
    },
    join: {
      title: (f) => `Join ${f.text('first')} and ${f.text('second')}`,
      text: (f, say) =>
        `The joint turns the duct by ${say.angle(f.number('turn'))}. Press together; wipe squeeze-out off the air way.`
    },
    'glue-ends': {
      title: (f) => `Glue ${f.text('first')} to ${f.text('second')}`,
      text: (f, say) =>
        `Butted plain ends: one line near the inner face, right round, ${say.length(f.number('length'))}, clear of the facing. A profile cut by hand (${say.length(f.number('spigot'))} longer) or a joining strip does as well. Follow the adhesive maker's instructions.`
    },
    'join-plain': {
      title: (f) => `Butt ${f.text('first')} and ${f.text('second')}`,
      text: () => 'Square on, the insides flush; wipe squeeze-out off the air way.'
    },
    'join-ends': {
      title: (f) => `Join ${f.text('first')} and ${f.text('second')}`,
      text: () => 'Push the male end into the female one up to the shoulder, all round.'
    },
    'tape-ends': {
      title: (f) => `Tape the joint in ${f.text('piece').replace(/[a-z]+$/, '')}`,
      text: (f, say) =>
        `Right round, ${say.length(f.number('outline'))}, on clean dry facing, rubbed down hard.`
    },
    tab: {
      title: () => 'Cross-tabs',
      text: (f, say) =>
        `No flap here, so no staples: ${f.number('tabs')} pieces of tape, at least ${say.length(f.number('length'))} long, across the joint, at most ${say.length(f.number('pitch'))} apart, at least one a side.`
    },
    'tape-joint': {
      title: (f) => `Tape ${f.text('cut')}`,
      text: (f, say) =>
        `Right round the joint, ${say.length(f.number('outline'))}, on clean dry facing, rubbed down hard.`
    },
    seal: {
      title: (f, _say, words) => `Make the ${words.ports[f.text('port')]} ready`,
      text: (f, say) =>
        `It is a plain end: cut the profile by hand (${say.length(f.number('spigot'))} longer), use a joining strip, or butt it with cross-tabs. Seal any raw wool that faces the air.`
    },
    inspect: {
      title: () => 'Inspect',
      text: (f, say) =>
        [
          `Every label right, twist at most ${say.length(f.number('twist'))}, angles within ${say.angle(f.number('angle'))}, every other end within ${say.length(f.number('outlet'))}`,
          f.numbers('corners').length > 0
            ? `: ${say.lengths(f.numbers('corners'))} from the top left outside corner of the first end to that of ${f.numbers('corners').length > 1 ? 'the others in turn' : 'the other'}`
            : '',
          '. No pressure before the adhesive has cured.'
        ].join('')
    }
  },
  levels: { error: 'Cannot be built', warning: 'Warning', note: 'Note' },
  families: {
    straight: 'straight',
    bend: 'bend',
    offset: 'offset',
    'double-offset': 'double offset',
    path: 'free path',
    ...EN_BRANCHES.families
  },
  params: {
    ...EN_BRANCH_PARAMS.params,
    '*': {
      ...EN_BRANCH_PARAMS.params['*'],
      rise: { label: 'Rise, up +', help: 'How far the duct is shifted up; down with a minus.' },
      roll: {
        label: 'Roll, right +',
        help: 'How far it is shifted to the right, looking downstream; left with a minus.'
      },
      piecesPerTurn: {
        label: 'Pieces per turn',
        help: 'Two make a turn by one cut, three by two, four by three.'
      },
      throatIn: { label: 'Throat at inlet', help: 'Shortest outside edge of the inlet piece.' },
      throatOut: {
        label: 'Throat at outlet',
        help: 'Shortest outside edge of the outlet piece, or the rest of the straight.'
      }
    },
    offset: {
      turn: { label: 'Turn', help: 'How far each of the two turns turns the duct.' },
      advance: { label: 'Advance', help: 'Along the duct, from the first joint to the last.' },
      travel: { label: 'Travel', help: 'Length on the axis between the two turns.' }
    },
    'double-offset': {
      turn: { label: 'Turn', help: 'How far each turn turns the duct.' },
      level: { label: 'Level, shortest', help: 'Shortest outside edge of the piece that runs level.' }
    },
    straight: { length: { label: 'Length', help: 'From shoulder to shoulder, along the duct.' } },
    bend: {
      turn: { label: 'Turn', help: 'How far the duct turns from inlet to outlet.' },
      pieces: { label: 'Pieces', help: 'How many pieces the bend is made of; one cut fewer.' },
      heel: {
        label: 'Direction',
        help: 'The heel is the outside of the turn; the duct leaves away from it.'
      },
      gore: { label: 'Gore', help: 'Shortest outside edge of each piece between two cuts.' },
      radius: { label: 'Radius', help: 'Radius of the circle that the axis of the gores touches.' },
      setback: { label: 'Setback', help: 'From the inlet to where the axes of inlet and outlet cross.' }
    },
    path: {
      lengths: { label: 'Leg', help: 'Length on the axis, joint to joint.' },
      joints: { label: 'Joint', help: 'Where two legs meet.' },
      'joints.turn': { label: 'Turn', help: 'How far the duct turns at the joint.' },
      'joints.heel': {
        label: 'Heel',
        help: 'Clock angle of the outside of the turn: 0 top, 90 right, 180 bottom, 270 left.'
      }
    }
  },
  faces: { top: 'top', right: 'right', bottom: 'bottom', left: 'left' },
  corners: {
    'top-left': 'top left',
    'top-right': 'top right',
    'bottom-right': 'bottom right',
    'bottom-left': 'bottom left'
  },
  leans: { upstream: 'upstream', downstream: 'downstream' },
  lays: { across: 'across', along: 'along' },
  makes: {
    'one piece': 'in one piece',
    'two angles': 'in two angles',
    'trough and lid': 'as trough and lid',
    'four panels': 'in four panels'
  },
  ends: { male: 'male', female: 'female', plain: 'plain', miter: 'miter' },
  ports: { inlet: 'inlet', outlet: 'outlet', ...EN_BRANCHES.ports },
  closures: {
    by: {
      fold: 'folded',
      seam: 'seam, stapled and taped',
      joint: 'glued and taped',
      socket: 'pushed together and taped',
      butt: 'butted, glued and taped',
      mate: 'mates with the next duct',
      seal: 'joined or sealed',
      nose: 'nosed'
    },
    open: 'OPEN',
    caption: 'What closes each edge',
    columns: {
      piece: 'Piece',
      wall: 'Wall',
      edges: ['Near end', 'Clockwise corner', 'Far end', 'Other corner']
    }
  },
  choices: {
    ...EN_BRANCH_PARAMS.choices,
    'bend.heel': {
      right: 'turns left (heel right)',
      left: 'turns right (heel left)',
      bottom: 'turns up (heel bottom)',
      top: 'turns down (heel top)'
    }
  },
  site: EN_SITE.site,
  refusals: EN_CLEARANCE.refusals,
  page: EN_PAGE,
  offline: EN_OFFLINE,
  paper: EN_PAPER
};
