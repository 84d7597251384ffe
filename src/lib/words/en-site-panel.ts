import type { SitePanelWords } from './site-panel.ts';
import type { Speech } from './vocabulary.ts';

type Params = Readonly<Record<string, unknown>>;

/** The site panel in English. */
export const EN_SITE_PANEL: SitePanelWords = {
  none: 'No site yet. Measure what is there and where the duct has to go on; the tape needs no centre lines.',
  begin: 'Begin without measuring',
  duct: 'Duct, inside',
  ductHelp: 'Inside section of the duct at both ends.',
  clearance: {
    label: 'Clearance',
    help: 'Least distance of the duct’s outside from every obstacle that does not want its own.'
  },
  handRoom: {
    label: 'Room for the hands',
    help: 'What a joint that is closed in place wants free round it. Usual: 100 mm (common practice, no source).'
  },
  standing: 'Fitting that stands here',
  nothingStands: 'none yet',
  card: {
    heading: 'Measuring card',
    help: 'Every measure goes from face to face, seen downstream from the end of the duct. Leave out what is not there.',
    onward: 'At the other end the duct',
    groups: {
      along: 'Along the duct',
      obstacle: 'The obstacle',
      next: 'The next things',
      end: 'The other end'
    },
    obstacleName: 'Name of the obstacle',
    unnamed: 'Obstacle',
    place: 'Place on the drawing',
    placed: 'The drawing has these places.'
  },
  obstacles: {
    heading: (count) => `Obstacles · ${count}`,
    none: 'Nothing is in the way.',
    name: 'Name',
    kind: 'What it is',
    kinds: ['beam', 'column', 'pipe', 'tray', 'wall', 'ceiling', 'floor', 'luminaire', 'other'],
    numbered: (number) => `Obstacle ${number}`,
    faces: [
      { from: 'Along, from', to: 'Along, to', help: 'Downstream from the end of the duct.' },
      { from: 'Height, from', to: 'Height, to', help: 'Up from the middle of the duct; minus below it.' },
      {
        from: 'Sideways, from',
        to: 'Sideways, to',
        help: 'To the right of the middle of the duct, looking downstream; minus on the left.'
      }
    ],
    clearance: { label: 'Its own clearance', help: 'Where this one wants more, or less, than the others.' },
    turn: {
      label: 'Turned',
      help: 'About the vertical through its middle, counter-clockwise as the plan shows it.'
    },
    above: (length) => `At most ${length}, where it ends.`,
    below: (length) => `At least ${length}, where it begins.`,
    add: 'Add an obstacle',
    remove: (name) => `Remove ${name}`,
    clear: (value, wanted) => `clear by ${value}, wanted ${wanted}`,
    deep: (value, wanted) => `${value} deep in it, wanted ${wanted} clear`
  },
  end: {
    heading: 'Where the duct goes on',
    at: [
      { label: 'Along', help: 'Downstream from the end of the duct to the other end.' },
      {
        label: 'Up',
        help: 'From the middle of this end to the middle of the other; minus where it is lower.'
      },
      {
        label: 'To the right',
        help: 'From the middle of this end to the middle of the other, looking downstream; minus to the left.'
      }
    ],
    free: (coordinate) => `${coordinate}: free`,
    flow: 'It goes on',
    ways: {
      straight: 'the same way',
      up: 'upward',
      down: 'downward',
      left: 'to the left',
      right: 'to the right',
      back: 'back'
    },
    typed: 'another way',
    parts: ['part along', 'part up', 'part right'],
    notANumber: 'This is not a number.'
  },
  proposals: {
    heading: 'Fittings that lead there',
    find: 'Find fittings',
    cancel: 'Cancel',
    searching: (family) => `Searching: ${family}`,
    failed: 'The search broke off. The job is left as it is; search again.',
    ranking: 'What counts, most first',
    criteria: {
      joints: 'few joints',
      blades: 'blades of the shop',
      turn: 'little turn',
      straight: 'short straight'
    },
    longest: {
      label: 'Longest straight',
      help: 'What can be made of a straight of this length? Empty: of what one board yields.'
    },
    none: 'No fitting of one straight leads there.',
    stale: 'The site has changed since. Find fittings again.',
    quick: (families) => `While the site changes only these answer: ${families}.`,
    joints: (count) => `${count} ${count === 1 ? 'joint' : 'joints'}`,
    turn: (angle) => `turns ${angle} in all`,
    straight: (length) => `straight ${length}`,
    clear: (length, obstacle) => `clear by ${length}: ${obstacle}`,
    stands: 'stands there',
    take: 'Take',
    takeOver: (name) => `Take: ${name}`,
    others: 'Why the others do not',
    follow: (tag) => `${tag} follows the site`,
    followHelp:
      'When an obstacle or the other end moves, the fitting is found anew, of the same family. It stops when the fitting is changed by hand.',
    lost: (tag, why) => `${tag} cannot follow. ${why}`,
    tell: (family, params, joints, say) => TELL[family]?.(params, joints, say) ?? null
  },
  asMade: {
    heading: (tag) => `As made · ${tag}`,
    help: 'Tick what is made, and say what it measures where that is not what it should. The rest is computed anew.',
    apply: 'Change the fitting',
    applyToOne: 'Change one of them',
    turns: (most) => `A joint turns by more than nothing and at most ${most}.`
  }
};

const HEELS: Readonly<Record<string, string>> = {
  right: 'turns left',
  left: 'turns right',
  bottom: 'turns up',
  top: 'turns down'
};

const TELL: Readonly<Record<string, (params: Params, joints: number, say: Speech) => string>> = {
  straight: ({ length }, _, say) => `goes straight on, ${say.length(Number(length))}`,
  bend: ({ turn, heel }, _, say) => `${HEELS[String(heel)]} ${say.angle(Number(turn))}`,
  offset: (params, _, say) => `${tellShift(params, say)}, ${say.angle(Number(params['turn']))}`,
  'double-offset': (params, _, say) =>
    `${tellShift(params, say)} and comes back, ${say.angle(Number(params['turn']))}`,
  path: ({ joints }, _, say) =>
    `free path, ${(joints as readonly { turn: number }[]).map(({ turn }) => say.angle(turn)).join(', ')}`
};

/** Which way a duct is shifted; what the figures show as nothing is left out, unless it is all there is. */
function tellShift({ rise, roll }: Params, say: Speech): string {
  const [up, right] = [Number(rise), Number(roll)];
  const isShown = (shift: number): boolean => say.figure(Math.abs(shift)) !== say.figure(0);
  const ways = [
    isShown(up) || !isShown(right) ? `${up < 0 ? 'drops' : 'rises'} ${say.length(Math.abs(up))}` : '',
    isShown(right) ? `goes ${say.length(Math.abs(right))} to the ${right < 0 ? 'left' : 'right'}` : ''
  ];
  return ways.filter((way) => way !== '').join(' and ');
}
