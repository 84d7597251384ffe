import { expect, it } from 'vitest';
import { placeLabels, type Anchor, type WantedLabel } from './labels.ts';

const size = { width: 300, height: 200 };
const at = (x: number, y: number, seen = true): Anchor => ({ x, y, isSeen: () => seen });
const want = (name: string, walls: Anchor[], middle: Anchor, lit = false): WantedLabel => ({
  name,
  lit,
  walls,
  middle
});

it('a name stands on the first wall on which its piece is seen', () => {
  const [label] = placeLabels([want('P1', [at(50, 50, false), at(90, 50)], at(70, 60))], size);
  expect(label).toMatchObject({ name: 'P1', x: 90, y: 50, behind: false });
});

it('the nearer piece has the better place, and no name covers another', () => {
  const labels = placeLabels(
    [want('P1', [at(50, 50)], at(55, 55)), want('P2', [at(52, 52), at(150, 50)], at(60, 52))],
    size
  );
  expect(labels.map(({ name, x }) => [name, x])).toEqual([
    ['P1', 50],
    ['P2', 150]
  ]);
});

it('a piece that others hide has its name faint in its middle', () => {
  const [label] = placeLabels([want('P3', [at(50, 50, false)], at(60, 60, false))], size);
  expect(label).toMatchObject({ x: 60, y: 60, behind: true });
});

it('a name without room on the screen or beside the others is left out, the lit one last', () => {
  const crowd = [want('P1', [at(50, 50)], at(50, 50)), want('P2', [at(51, 51)], at(52, 52), true)];
  expect(placeLabels(crowd, size).map(({ name }) => name)).toEqual(['P2']);
  expect(placeLabels([want('P4', [at(299, 50)], at(-20, 50))], size)).toEqual([]);
});
