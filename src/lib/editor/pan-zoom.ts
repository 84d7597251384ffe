import type { Point } from '../figures/figure.ts';
import { panBy, zoomAbout, type Camera } from './camera.ts';

const WHEEL_ZOOM = 1.0015;

/** How far the pointer moves before a press is a pan and no longer a tap, px. */
const TAP_REACH = 4;

/**
 * The gesture of moving about in a figure: the wheel zooms about the pointer, one pointer pans, two pan and zoom. Pointers
 * that begin on an element marked `data-handle` are left alone. Answers the function that ends it.
 */
export function followPanZoom(
  host: HTMLElement,
  get: () => Camera | null,
  set: (camera: Camera) => void,
  tap: (at: Point) => void
): () => void {
  const pointers = new Map<number, Point>();
  let travelled = 0;

  const locate = (event: MouseEvent): Point => {
    const box = host.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };

  function press(event: PointerEvent): void {
    if (event.target instanceof Element && event.target.closest('[data-handle]')) return;
    host.setPointerCapture(event.pointerId);
    pointers.set(event.pointerId, locate(event));
    if (pointers.size === 1) travelled = 0;
  }

  function move(event: PointerEvent): void {
    const before = pointers.get(event.pointerId);
    const camera = get();
    if (!before || !camera) return;
    const now = locate(event);
    const other = [...pointers].find(([id]) => id !== event.pointerId)?.[1];
    pointers.set(event.pointerId, now);
    travelled += Math.hypot(now[0] - before[0], now[1] - before[1]);
    if (travelled < TAP_REACH) return;
    if (!other) return set(panBy(camera, now[0] - before[0], now[1] - before[1]));
    const spread =
      Math.hypot(now[0] - other[0], now[1] - other[1]) /
      Math.hypot(before[0] - other[0], before[1] - other[1]);
    const panned = panBy(camera, (now[0] - before[0]) / 2, (now[1] - before[1]) / 2);
    set(zoomAbout(panned, [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2], spread));
  }

  function release(event: PointerEvent): void {
    if (!pointers.delete(event.pointerId)) return;
    if (event.type === 'pointerup' && pointers.size === 0 && travelled < TAP_REACH) tap(locate(event));
  }

  function wheel(event: WheelEvent): void {
    const camera = get();
    if (!camera) return;
    event.preventDefault();
    set(zoomAbout(camera, locate(event), WHEEL_ZOOM ** -event.deltaY));
  }

  host.addEventListener('pointerdown', press);
  host.addEventListener('pointermove', move);
  host.addEventListener('pointerup', release);
  host.addEventListener('pointercancel', release);
  host.addEventListener('wheel', wheel, { passive: false });
  return () => {
    host.removeEventListener('pointerdown', press);
    host.removeEventListener('pointermove', move);
    host.removeEventListener('pointerup', release);
    host.removeEventListener('pointercancel', release);
    host.removeEventListener('wheel', wheel);
  };
}
