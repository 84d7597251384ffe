import type { ResolvedFitting } from '../kernel/document/resolve.ts';
import type { Handle } from '../kernel/families/family.ts';
import { dot } from '../kernel/geometry/vector.ts';
import type { Point } from '../figures/figure.ts';
import { project, type View } from '../figures/view.ts';
import { spreadPlaces, toScreen, type Camera } from './camera.ts';

/** A handle of a fitting, and where its middle lies on the screen, px. */
export interface PlacedHandle {
  readonly handle: Handle;
  readonly at: Point;
}

/** A handle that would move toward the eye cannot be dragged in a view. */
const MOST_ALONG_EYE = 0.9;

/** The handles that a view has of a fitting, no two so near that they look like one; without those that a view `beside` it has. */
export function placeHandles(
  { family, values, setting }: ResolvedFitting,
  view: View,
  beside: View | null,
  camera: Camera
): PlacedHandle[] {
  const handles = family
    .handles(values as never, setting)
    .filter((handle) => isSeen(handle, view) && !(beside && isSeen(handle, beside)));
  const places = spreadPlaces(
    handles.map(({ at, along }) => ({
      at: toScreen(camera, project(view, at)),
      along: project(view, along)
    }))
  );
  return handles.map((handle, i) => ({ handle, at: places[i]! }));
}

function isSeen({ along }: Handle, view: View): boolean {
  return Math.abs(dot(along, view.eye)) < MOST_ALONG_EYE;
}
