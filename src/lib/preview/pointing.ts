/** A press that moves less than this is a tap, px. */
const TAP_SLACK = 6;

/**
 * Tells taps and clicks from drags, and where a mouse hovers; null where it has left. Answers how to stop
 * following.
 */
export function followPointer(
  canvas: HTMLElement,
  onTap: (event: PointerEvent) => void,
  onHover: (event: PointerEvent | null) => void
): () => void {
  let pressed: { x: number; y: number } | null = null;
  const down = (event: PointerEvent): void => {
    // A second finger makes it a pinch.
    pressed = event.isPrimary ? { x: event.clientX, y: event.clientY } : null;
  };
  const up = (event: PointerEvent): void => {
    const start = pressed;
    pressed = null;
    if (start && Math.hypot(event.clientX - start.x, event.clientY - start.y) < TAP_SLACK) onTap(event);
  };
  const move = (event: PointerEvent): void => {
    if (event.pointerType !== 'touch' && event.buttons === 0) onHover(event);
  };
  const leave = (event: PointerEvent): void => {
    // A finger leaves with every tap; what it has picked stays.
    if (event.pointerType !== 'touch') onHover(null);
  };
  canvas.addEventListener('pointerdown', down);
  canvas.addEventListener('pointerup', up);
  canvas.addEventListener('pointermove', move);
  canvas.addEventListener('pointerleave', leave);
  return () => {
    canvas.removeEventListener('pointerdown', down);
    canvas.removeEventListener('pointerup', up);
    canvas.removeEventListener('pointermove', move);
    canvas.removeEventListener('pointerleave', leave);
  };
}
