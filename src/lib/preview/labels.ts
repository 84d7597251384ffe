/**
 * A point of the screen at which a name may stand, px; whether the piece itself is seen there is asked only
 * if it matters.
 */
export interface Anchor {
  readonly x: number;
  readonly y: number;
  isSeen(): boolean;
}

/** A name to be shown: on one of the walls of its piece, best first, or in the middle of the piece. */
export interface WantedLabel {
  readonly name: string;
  readonly lit: boolean;
  readonly walls: readonly Anchor[];
  readonly middle: Anchor;
}

export interface PlacedLabel {
  readonly name: string;
  readonly lit: boolean;
  readonly x: number;
  readonly y: number;
  /** Its piece is hidden by others there. */
  readonly behind: boolean;
}

const HEIGHT = 20;
const LETTER = 9;
const GAP = 4;

/**
 * Finds a place for every name, the lit and then the nearest first: the first wall on which it is seen, lies
 * wholly on the screen and covers no other name; else the middle of its piece, where others may hide the
 * piece. A name without room is left out.
 */
export function placeLabels(
  nearestFirst: readonly WantedLabel[],
  size: { readonly width: number; readonly height: number }
): PlacedLabel[] {
  const placed: PlacedLabel[] = [];
  const isFree = (name: string, { x, y }: Anchor): boolean => {
    const width = measureLabel(name);
    const inside =
      x >= width / 2 && x <= size.width - width / 2 && y >= HEIGHT / 2 && y <= size.height - HEIGHT / 2;
    return (
      inside &&
      placed.every(
        (other) =>
          Math.abs(other.x - x) >= (measureLabel(other.name) + width) / 2 + GAP ||
          Math.abs(other.y - y) >= HEIGHT + GAP
      )
    );
  };
  const litFirst = [...nearestFirst].sort((a, b) => Number(b.lit) - Number(a.lit));
  for (const { name, lit, walls, middle } of litFirst) {
    const wall = walls.find((anchor) => isFree(name, anchor) && anchor.isSeen());
    if (wall) placed.push({ name, lit, x: wall.x, y: wall.y, behind: false });
    else if (isFree(name, middle))
      placed.push({ name, lit, x: middle.x, y: middle.y, behind: !middle.isSeen() });
  }
  return placed;
}

/**
 * Puts a layer for names into a host; they are for the eye only, the same names stand in the tables of the
 * page.
 */
export function createLabelLayer(host: HTMLElement) {
  const layer = document.createElement('div');
  layer.className = 'labels';
  layer.setAttribute('aria-hidden', 'true');
  host.append(layer);
  const nodes = new Map<string, HTMLElement>();
  return {
    show(labels: readonly PlacedLabel[]): void {
      const names = new Set(labels.map(({ name }) => name));
      for (const [name, node] of nodes) node.hidden = !names.has(name);
      for (const { name, lit, x, y, behind } of labels) {
        const node = nodes.get(name) ?? document.createElement('span');
        if (!nodes.has(name)) {
          node.textContent = name;
          layer.append(node);
          nodes.set(name, node);
        }
        node.style.translate = `${x.toFixed(1)}px ${y.toFixed(1)}px`;
        node.dataset.state = lit ? 'lit' : behind ? 'behind' : 'seen';
      }
    },
    destroy: () => layer.remove()
  };
}

function measureLabel(name: string): number {
  return name.length * LETTER + 10;
}
