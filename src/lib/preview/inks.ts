import { Color } from 'three';

/** The page's colours that the scene draws with. */
export interface Inks {
  readonly theme: 'light' | 'dark';
  readonly paper: Color;
  readonly ink: Color;
  readonly accent: Color;
  readonly board: Color;
}

/** What is drawn with where the page's style sheet does not say. */
const OWN = {
  light: { paper: '#fffef9', ink: '#22262e', accent: '#1257a8', board: '#e8e4d4' },
  dark: { paper: '#1b1d21', ink: '#e8e6df', accent: '#7ab8ff', board: '#57523f' }
} as const;

/** Reads `--paper`, `--ink`, `--accent` and `--board` as they hold at an element, in whatever notation they are written. */
export function readInks(host: HTMLElement, theme: 'light' | 'dark'): Inks {
  const probe = document.createElement('span');
  probe.hidden = true;
  host.append(probe);
  const read = (name: keyof typeof OWN.light): Color => {
    probe.style.color = `var(--${name}, ${OWN[theme][name]})`;
    return new Color(getComputedStyle(probe).color);
  };
  const inks = {
    theme,
    paper: read('paper'),
    ink: read('ink'),
    accent: read('accent'),
    board: read('board')
  };
  probe.remove();
  return inks;
}
