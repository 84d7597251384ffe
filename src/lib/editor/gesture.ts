import type { Point } from '../figures/figure.ts';

export interface HandleGesture {
  /** Called once the pointer goes down. */
  begin(): void;
  /** Called at most once a frame: how far the pointer has come since it went down, px. `free` while Alt is held. */
  move(by: Point, free: boolean): void;
  commit(): void;
  cancel(): void;
}

/**
 * Follows a pointer from a press on a handle to its release; Escape, or a pointer that is taken away, cancels. Moves are
 * gathered until the next frame, so the fitting is computed and drawn at most once a frame.
 */
export function followHandle(press: PointerEvent, gesture: HandleGesture): void {
  const handle = press.currentTarget as HTMLElement;
  const from: Point = [press.clientX, press.clientY];
  let latest: PointerEvent | null = null;
  let frame = 0;

  function flush(): void {
    frame = 0;
    if (latest) gesture.move([latest.clientX - from[0], latest.clientY - from[1]], latest.altKey);
    latest = null;
  }

  function move(event: PointerEvent): void {
    if (event.pointerId !== press.pointerId) return;
    latest = event;
    if (frame === 0) frame = requestAnimationFrame(flush);
  }

  function end(event: Event, finish: () => void): void {
    event.preventDefault();
    cancelAnimationFrame(frame);
    handle.removeEventListener('pointermove', move);
    handle.removeEventListener('pointerup', release);
    handle.removeEventListener('pointercancel', cancel);
    window.removeEventListener('keydown', escape, true);
    finish();
  }

  function release(event: PointerEvent): void {
    end(event, () => {
      flush();
      gesture.commit();
    });
  }

  function cancel(event: Event): void {
    end(event, gesture.cancel);
  }

  function escape(event: KeyboardEvent): void {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    cancel(event);
  }

  handle.setPointerCapture(press.pointerId);
  handle.addEventListener('pointermove', move);
  handle.addEventListener('pointerup', release);
  handle.addEventListener('pointercancel', cancel);
  window.addEventListener('keydown', escape, true);
  gesture.begin();
}
