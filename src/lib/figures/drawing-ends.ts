import type { Body, Fitting, Port } from '../kernel/fitting/fitting.ts';
import { movePoint } from '../kernel/geometry/motion.ts';
import { cross, dot, scale, subtract, type Vec3 } from '../kernel/geometry/vector.ts';
import type { BodyShape } from './drawing-body.ts';
import type { Fill, Item, Stroke, Subject } from './figure.ts';
import { project, type View } from './view.ts';
import { chainEdges, listEdges, listRunCorners, type Edge } from './wall-outline.ts';

/** An end is seen when it is turned to the eye by more than this cosine. */
const SEEN = 1e-6;

/** How near to the plane of an end a corner lies in it, mm. */
const IN_PLANE = 1e-3;

/**
 * Ends of the fitting that face the eye show the board's edges and the air way: by the body after which they are drawn,
 * the foremost of those whose edges lie in the end. `backToFront` as drawn.
 */
export function drawOpenEnds(
  { ports }: Fitting,
  view: View,
  backToFront: readonly BodyShape[]
): Map<Body, (Fill | Stroke)[]> {
  const drawn = new Map<Body, (Fill | Stroke)[]>();
  for (const port of ports) {
    const outward = port.name === 'inlet' ? scale(port.flow, -1) : port.flow;
    if (dot(view.eye, outward) <= SEEN) continue;
    const found = backToFront.flatMap(({ body }) => {
      const edges = listEdgesInEnd(body, port);
      return edges.length > 0 ? [{ body, edges }] : [];
    });
    const front = found[found.length - 1]?.body;
    if (!front) continue;
    const edges = found.flatMap(({ edges }) => edges);
    drawn.set(front, [...(drawn.get(front) ?? []), ...drawEnd(edges, { piece: port.body }, view)]);
  }
  return drawn;
}

/** Ends of another size than the inlet that are turned away from the eye, dashed: the air way where it goes out. */
export function drawHiddenEnds({ ports, bodies }: Fitting, view: View): Stroke[] {
  const inlet = ports.find(({ name }) => name === 'inlet')?.section;
  return ports
    .filter(({ name, flow }) => name !== 'inlet' && dot(view.eye, flow) < -SEEN)
    .filter(({ section }) => section.width !== inlet?.width || section.height !== inlet.height)
    .flatMap((port) => {
      const edges = bodies.flatMap((body) => listEdgesInEnd(body, port));
      return chainEdges(edges).map((run): Stroke => ({
        kind: 'stroke',
        line: 'hidden',
        points: listRunCorners(run, 'inner').map((corner) => project(view, corner)),
        ...(run.closed ? { closed: true } : {}),
        about: { piece: port.body }
      }));
    });
}

/** The edges of the walls of a body that lie in the plane of an end, in the fitting's frame. */
function listEdgesInEnd(body: Body, { at, flow, up, section }: Port): Edge[] {
  const place = (corner: Vec3): Vec3 => movePoint(body.placement, corner);
  const across = cross(flow, up);
  const isInEnd = (corner: Vec3, thickness: number): boolean => {
    const from = subtract(corner, at);
    return (
      Math.abs(dot(from, flow)) < IN_PLANE &&
      Math.abs(dot(from, up)) < section.height / 2 + 2 * thickness &&
      Math.abs(dot(from, across)) < section.width / 2 + 2 * thickness
    );
  };
  return body.walls.flatMap((wall) => {
    const thickness = measureThickness(wall);
    return listEdges(wall)
      .map((edge): Edge => ({
        ...edge,
        outer: [place(edge.outer[0]), place(edge.outer[1])],
        inner: [place(edge.inner[0]), place(edge.inner[1])]
      }))
      .filter(
        ({ kind, outer, inner }) =>
          kind !== 'whole' && [...outer, ...inner].every((corner) => isInEnd(corner, thickness))
      );
  });
}

function measureThickness({ outer, inner }: Body['walls'][number]): number {
  const normal = cross(subtract(outer[1]!, outer[0]!), subtract(outer[2]!, outer[0]!));
  return Math.abs(dot(subtract(outer[0]!, inner[0]!), normal)) / Math.sqrt(dot(normal, normal));
}

function drawEnd(edges: readonly Edge[], about: Subject, view: View): (Fill | Stroke)[] {
  const rings = (side: 'outer' | 'inner') =>
    chainEdges(edges).map((run) => ({
      points: listRunCorners(run, side).map((corner) => project(view, corner)),
      ...(run.closed ? { closed: true as const } : {})
    }));
  const [outer, inner] = [rings('outer'), rings('inner')];
  return [
    ...outer.map(({ points }) => ({ kind: 'fill', fill: 'board', points, about }) as const),
    ...inner.map(({ points }) => ({ kind: 'fill', fill: 'air', points, about }) as const),
    ...[...outer, ...inner].map((ring) => ({ kind: 'stroke', line: 'narrow', ...ring, about }) as const)
  ] satisfies Item[];
}
