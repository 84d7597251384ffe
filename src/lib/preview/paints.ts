import { Color, MeshBasicMaterial, type Material } from 'three';
import { LineMaterial } from 'three/addons/lines/LineMaterial.js';
import type { Inks } from './inks.ts';
import type { MeshEdge, Surface } from '../solids/mesh-edge.ts';

/** Widths of lines, px. */
const WIDTHS = { outline: 1.3, inside: 0.8, section: 2, seam: 3.2, lit: 3.6 } as const;

export type LineName = keyof typeof WIDTHS;

/** How much of a piece's colour is left on the inside, and how much of the board's colour is mixed into it at the ends. */
const INSIDE_TONE = { light: 0.55, dark: 0.4 } as const;
const RIM_BOARD = 0.55;

/** Materials that all bodies share. */
export interface Paints {
  readonly lines: Readonly<Record<LineName, LineMaterial>>;
  /** The lit lines where other bodies hide them. */
  readonly ghost: LineMaterial;
  readonly tint: MeshBasicMaterial;
  apply(inks: Inks): void;
  dispose(): void;
}

export function createPaints(): Paints {
  const draw = (linewidth: number): LineMaterial => new LineMaterial({ linewidth });
  const lines = {
    outline: draw(WIDTHS.outline),
    inside: draw(WIDTHS.inside),
    section: draw(WIDTHS.section),
    seam: draw(WIDTHS.seam),
    lit: draw(WIDTHS.lit)
  };
  const ghost = new LineMaterial({
    linewidth: WIDTHS.outline,
    transparent: true,
    opacity: 0.5,
    depthTest: false
  });
  const tint = new MeshBasicMaterial({
    transparent: true,
    opacity: 0.22,
    depthWrite: false,
    polygonOffset: true,
    polygonOffsetFactor: 0.5,
    polygonOffsetUnits: 0.5
  });
  return {
    lines,
    ghost,
    tint,
    apply({ ink, accent }) {
      for (const line of [lines.outline, lines.inside, lines.section, lines.seam]) line.color.copy(ink);
      for (const material of [lines.lit, ghost, tint]) material.color.copy(accent);
    },
    dispose: () => [...Object.values(lines), ghost, tint].forEach((material: Material) => material.dispose())
  };
}

/** The line a body's edge is drawn with: seams heaviest, then the outline of a section, then that of the facing. */
export function chooseLine({ surface, kind }: MeshEdge): LineName {
  if (kind === 'seam') return surface === 'inside' ? 'inside' : 'seam';
  if (surface === 'cap') return kind === 'fold' ? 'inside' : 'section';
  return surface === 'outside' ? 'outline' : 'inside';
}

/** The tone of every surface of a piece of a colour. */
export function mixTones(colour: string, { board, theme }: Inks): Record<Surface, Color> {
  return {
    outside: new Color(colour),
    inside: new Color(colour).multiplyScalar(INSIDE_TONE[theme]),
    rim: new Color(colour).lerp(board, RIM_BOARD),
    cap: board
  };
}
