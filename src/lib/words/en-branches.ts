import type { Words } from './vocabulary.ts';

/** English words of reducers, branches, dividing and closing fittings: findings, steps and names. */
export const EN_BRANCHES = {
  findings: {
    'reducer-level': (f, say) =>
      `The outlet of ${say.lengths([f.number('width'), f.number('height')])} lies in line with the inlet on all sides: no wall slopes, so no slope gives a length.`,
    'slope-steep': (f, say, words) =>
      `The ${words.faces[f.text('face') as 'top']} wall slopes by ${say.angle(f.number('slope'))}; at most ${say.angle(f.number('most'))} is usual.`,
    'taper-short': (f, say) =>
      `A taper of ${say.length(f.number('length'))} is hardly a taper: its walls would stand across the duct. From ${say.length(f.number('least'))} on it is one.`,
    'taper-long': (f, say) =>
      `The walls slope so little that the taper would be longer than ${say.length(f.number('most'))}.`,
    'fold-one-wall': (f) =>
      `Folding makes exactly one wall slope; here ${f.number('walls')} would. Four panels make any.`,
    'fold-collar': (f, say) =>
      `Folded, this collar needs more than ${say.length(f.number('needed'))}; it is ${say.length(f.number('collar'))}.`,
    'one-straight': (f, say) =>
      `This has to come from one straight; no board yields one of ${say.length(f.number('length'))}.`,
    'opening-edge': (f, say, words) =>
      `${f.text('opening')} in the ${words.faces[f.text('face') as 'top']} wall comes ${say.length(f.number('short'))} too near to the wall's corner: ${say.length(f.number('keep'))} of wall stay beside an opening.`,
    'opening-end': (f, say, words) =>
      `${f.text('opening')} in the ${words.faces[f.text('face') as 'top']} wall runs off the end: more than ${say.length(f.number('keep'))} of wall stay between it and an end.`,
    'opening-joint': (f, say, words) =>
      `${f.text('opening')} in the ${words.faces[f.text('face') as 'top']} wall lies over a joint of the main: more than ${say.length(f.number('keep'))} of wall stay between them.`,
    'openings-overlap': (f) =>
      f.text('first') === f.text('second')
        ? 'The openings stand in a ring that no straight line parts: set them in rows.'
        : `${f.text('first')} and ${f.text('second')} overlap in the same wall.`,
    'opening-large': (f, say, words) =>
      `${f.text('opening')} is ${say.length(f.number('wide'))} across; the ${words.faces[f.text('face') as 'top']} wall has room for ${say.length(f.number('free'))}.`,
    'opening-vanishes': (f, say) =>
      `With a bevel of ${say.angle(f.number('bevel'))} nothing of ${f.text('opening')} is left on the inside.`,
    'shoe-angle': (f, say) =>
      `A shoe is for a square branch; this one leaves at ${say.angle(f.number('angle'))}.`,
    'shoe-none': () =>
      'A shoe of no length is none: say how far upstream it begins, or make the entry plain.',
    'shoe-butt': () => 'A branch with a shoe is butted on the wall, not let into it.',
    'shoe-high': (f, say) =>
      `The shoe rises to ${say.length(f.number('bend'))}, the neck only to ${say.length(f.number('neck'))}: nothing is left of the upright wall.`,
    'neck-short': (f, say) =>
      `A panel ${say.length(f.number('thickness'))} thick does not go into a duct ${say.length(f.number('length'))} long.`,
    'shares-differ': (f, say) =>
      `The parts' insides add up to ${say.length(f.number('taken'))}; beside ${f.number('parts')} parts' walls there are ${say.length(f.number('free'))}.`,
    'share-small': (f, say) =>
      `Of ${say.length(f.number('free'))} inside, ${say.length(f.number('taken'))} are taken: what is left for the others is no duct.`,
    'area-lost': (f) =>
      `The dividing walls take ${f.number('percent').toFixed(1)} % of the air way: the air goes ${f.number('faster').toFixed(2)} times as fast beside them.`,
    'ways-cross': (f, say, words) =>
      `Ducts that go straight on from ${words.ports[f.text('first')] ?? f.text('first')} and ${words.ports[f.text('second')] ?? f.text('second')} run into each other within ${say.length(f.number('within'))}.`,
    'panel-large': (f, say) =>
      `${f.text('panel')} is ${say.lengths([f.number('across'), f.number('along')])}; a board is ${say.lengths([f.number('boardLength'), f.number('boardWidth')])}. Join two boards to one before it is marked, glued and taped on both sides of the joint.`
  },
  steps: {
    'check-panels': {
      title: () => 'Check the board for the panels',
      text: (f, say) =>
        `${say.list(f.texts('panels'))}: board ${say.length(f.number('thickness'))} thick, dry and undamaged. Mark each on the facing, outside up, outer and inner outline; see the panels. Gloves, long sleeves, eye protection; a respirator where there is dust.`
    },
    'label-panels': {
      title: () => 'Label every panel',
      text: (f, say) =>
        `Name and flow arrow on the facing of ${say.list(f.texts('panels'))}, before they are cut.`
    },
    'cut-panel': {
      title: (f) => `Cut ${f.text('panel')}`,
      text: (f, say) =>
        `${say.lengths([f.number('width'), f.number('length')])} over all on the facing; every edge at its own bevel (${f.numbers('bevels').map(say.angle).join(', ')}), from the outer outline on the facing to the inner one. Cut away from the body.`
    },
    'join-corners': {
      title: (f, say) => `Set ${say.list(f.texts('panels'))} together`,
      text: (f, say) =>
        `Corner to corner, their bevels closed (${f.numbers('bevels').map(say.angle).join(', ')}); a glue line near the inside along every corner, ${say.length(f.number('glue'))} in all. Check the diagonals at both ends.`
    },
    'tape-corners': {
      title: () => 'Tape the corners',
      text: (f, say) =>
        `${say.length(f.number('length'))} of tape along the corners, on clean dry facing, rubbed down hard.`
    },
    'glue-panels': {
      title: (f) => `Glue ${f.text('piece')} to the panels`,
      text: (f, say) =>
        `One line near the inner face, right round, ${say.length(f.number('length'))}, clear of the facing. Follow the adhesive maker's instructions.`
    },
    'join-panels': {
      title: (f) => `Join ${f.text('piece')} and the panels`,
      text: (f, say) =>
        `${f.text('piece')} to ${say.list(f.texts('panels'))}, the insides flush; wipe squeeze-out off the air way.`
    },
    'tape-panels': {
      title: (f) => `Tape the panels to ${f.text('piece')}`,
      text: (f, say) =>
        `Right round, ${say.length(f.number('outline'))}${f.number('step') > 0.05 ? `; the panels stand out by up to ${say.length(f.number('step'))}: press the tape into the step` : ''}, on clean dry facing, rubbed down hard.`
    },
    'cut-opening': {
      title: (f, _say, words) =>
        `Cut ${f.text('opening')} in the ${words.faces[f.text('face') as 'top']} wall`,
      text: (f, say) =>
        `${f.has('diameter') ? `Round, ${say.length(f.number('diameter'))} across, from` : 'From'} ${say.length(f.number('from'))} to ${say.length(f.number('to'))} along, from ${say.length(f.number('low'))} to ${say.length(f.number('high'))} from the face's first edge. Bevel ${f.numbers('bevels').map(say.angle).join(', ')}, set-back ${say.lengths(f.numbers('setbacks'))}: the outline on the inside is marked too. Cut away from the body; keep the piece for a lid or a template.`
    },
    'seal-opening': {
      title: (f) => `Seal the edge of ${f.text('opening')}`,
      text: () =>
        'All the raw wool of the edge that faces the air: sealed with the adhesive, or covered with facing turned in.'
    },
    'turn-out-flap': {
      title: (f) => `Strip a flap on ${f.text('stub')}`,
      text: (f, say) =>
        `${say.length(f.number('flap'))} of facing on all four sides at the end that meets the main: cut longer by as much, the wool stripped, the corners slit; the facing is turned out on the main. A collar does as well.`
    },
    'glue-stub': {
      title: (f) => `Glue ${f.text('stub')}`,
      text: (f, say) =>
        `One line near the inner face, right round, ${say.length(f.number('length'))}, clear of the facing. Follow the adhesive maker's instructions.`
    },
    'join-stub': {
      title: (f) => `Set ${f.text('stub')} on ${f.text('main')}`,
      text: () =>
        'Over the opening, the insides flush, the flap flat on the main; wipe squeeze-out off the air way.'
    },
    'enter-stub': {
      title: (f) => `Let ${f.text('stub')} into ${f.text('main')}`,
      text: (f, say) =>
        `Through the wall of ${say.length(f.number('wall'))}, flush with the inside of the main and no further; wipe squeeze-out off the air way.`
    },
    'staple-stub': {
      title: () => 'Staple the flap on the main',
      text: (f, say) => `Outward-clinching staples every ${say.length(f.number('pitch'))}, on all four sides.`
    },
    'tape-stub': {
      title: (f) => `Tape ${f.text('stub')} to ${f.text('main')}`,
      text: (f, say) =>
        `Right round the branch, ${say.length(f.number('outline'))}, half on the branch, half on the main, rubbed down hard.`
    },
    'seal-stub': {
      title: (f) => `Seal the end of ${f.text('stub')} inside`,
      text: (f, say) =>
        `Its edge of raw wool lies in the air of the main: ${say.length(f.number('length'))}, sealed right round.`
    },
    'join-parts': {
      title: (f, say) => `Bind ${say.list(f.texts('pieces'))} together`,
      text: () =>
        'Side by side, their inlets level; facing does not glue to facing, so they are held by tape alone.'
    },
    'tape-parts': {
      title: () => 'Tape the parts together',
      text: (f, say) =>
        `Right round the common inlet end, ${say.length(f.number('outline'))}, and along every line where the parts meet, up to where they part; on clean dry facing, rubbed down hard.`
    },
    nose: {
      title: () => 'Nose the dividing walls',
      text: (f, say) =>
        `The raw edge of the dividing walls stands in the stream: a nosing over it, ${say.length(f.number('length'))} in all, sealed on both sides.`
    },
    'cut-slits': {
      title: (f, _say, words) => `Slit the ${words.faces[f.text('face') as 'top']} wall free`,
      text: (f, say) =>
        `Both corner edges from ${say.length(f.number('from'))} to the small end, through facing and wool. Cut away from the body.`
    },
    'groove-slope': {
      title: () => 'Groove where the slope begins',
      text: (f, say) =>
        `Across the inside at ${say.length(f.number('station'))}: a wedge of ${say.angle(f.number('slope'))}, its point on the facing, ${say.length(f.number('side'))} to each side on the inside; never through the facing.`
    },
    'cut-wall': {
      title: () => 'Cut the wedge where the slope ends',
      text: (f, say) =>
        `Across the facing from ${say.length(f.number('station'))}, ${say.length(f.number('wedge'))} wide on the facing, its point on the inside: ${say.angle(f.number('bevel'))} from upright on both sides.`
    },
    'cut-slope': {
      title: (f, _say, words) => `Cut the slope on the ${words.faces[f.text('face') as 'top']} face`,
      text: (f, say) =>
        `From the edge at ${say.length(f.number('from'))} down to ${say.length(f.number('drop'))} from it at ${say.length(f.number('to'))}, then along the edge to the small end; blade at 45°, the inside lower, so that the wall's own miters fit. Cut away from the body.`
    },
    trim: {
      title: (f, _say, words) => `Trim the ${words.faces[f.text('face') as 'top']} wall`,
      text: (f, say) =>
        `Square across at ${say.length(f.number('station'))}: the sloping wall came up short, so ${say.length(f.number('off'))} come off.`
    },
    'fold-slope': {
      title: (f, _say, words) => `Lay the ${words.faces[f.text('face') as 'top']} wall down`,
      text: (f, say) =>
        `Fold it by ${say.angle(f.number('slope'))} at the groove, on the facing, down on the two cheeks; a glue line near the inside along both.`
    },
    'fill-gap': {
      title: () => 'Close the gap with a strip',
      text: (f, say) =>
        `The end of the wall goes back flush with the small end; a strip of board ${say.lengths([f.number('gap'), f.number('width')])} closes the gap at the end of the slope, glued on all sides.`
    },
    'tape-slope': {
      title: () => 'Tape the sloping wall',
      text: (f, say) =>
        `Along both slit edges and across where it was cut, ${say.length(f.number('length'))}, on clean dry facing, rubbed down hard.`
    },
    'glue-cap': {
      title: (f) => `Glue ${f.text('panel')}`,
      text: (f, say) =>
        f.text('set') === 'in'
          ? `One line round the panel's four edges, ${say.length(f.number('length'))}, clear of the facing. Follow the adhesive maker's instructions.`
          : `One line right round the end of ${f.text('piece')}, near the inner face, ${say.length(f.number('length'))}, clear of the facing. Follow the adhesive maker's instructions.`
    },
    'join-cap': {
      title: (f) => `Close the end with ${f.text('panel')}`,
      text: (f) =>
        f.text('set') === 'in'
          ? `Into the end of ${f.text('piece')}, flush, facing outward.`
          : `On the end of ${f.text('piece')}, its edges flush with the outside, facing outward.`
    },
    'tape-cap': {
      title: (f) => `Tape ${f.text('panel')}`,
      text: (f, say) => `Right round, ${say.length(f.number('outline'))}, rubbed down hard.`
    }
  },
  families: {
    reducer: 'reducer',
    takeoff: 'take-off',
    'split-bend': 'one side turns',
    wye: 'both turn',
    'three-way': 'three ways',
    cap: 'cap',
    opening: 'opening',
    box: 'box'
  },
  ports: {
    branch: 'branch',
    straight: 'straight outlet',
    turned: 'turned outlet',
    first: 'first outlet',
    middle: 'middle outlet',
    second: 'second outlet'
  }
} satisfies Part;

type Part = {
  readonly [K in 'findings' | 'steps' | 'families' | 'ports']: Partial<Words[K]>;
};
