import { AmbientLight, DirectionalLight, Scene, Vector2, WebGLRenderer } from 'three';
import type { Subject } from '../figures/figure.ts';
import { listMiterJoints, type Fitting } from '../kernel/fitting/fitting.ts';
import type { Wall } from '../kernel/fitting/wall.ts';
import { createBodyView, type BodyView } from './bodies.ts';
import { createEye } from './eye.ts';
import { readInks } from './inks.ts';
import { createLabelLayer, placeLabels } from './labels.ts';
import { createPaints } from './paints.ts';
import { followPointer } from './pointing.ts';
import { placeSectionPlanes, type SectionPlane } from './section-plane.ts';
import { createSight } from './sight.ts';
import { listShownCorners, type Arrangement } from './spread.ts';
import { easeWay } from './way.ts';

/** What the preview shows: a fitting after a step, or while one is done. */
export interface Shown {
  readonly fitting: Fitting;
  readonly arrangement: Arrangement;
  /** The walls that every body has by now, in its own frame. */
  readonly walls: readonly (readonly Wall[])[];
  /** Whether a step is being played: the bodies are then on their way and are shown just so. */
  readonly playing: boolean;
  readonly highlighted: Subject | null;
  /** A colour for every body, in their order. */
  readonly colours: readonly string[];
  /** How far the joints are opened, 0 … 1. */
  readonly explode: number;
  /** How it is cut open; null: it is whole. */
  readonly section: SectionPlane | null;
  readonly theme: 'light' | 'dark';
  /** What the picture shows, for readers of the screen. */
  readonly label: string;
}

export interface PreviewHandle {
  /** Shows this from the next frame on; null: nothing. */
  show(shown: Shown | null): void;
  resetCamera(): void;
  /** Calls back with what was tapped or clicked; null for bare paper. */
  onPick(callback: (subject: Subject | null) => void): void;
  /** Calls back when the mouse comes to lie on something else; null for bare paper. */
  onHover(callback: (subject: Subject | null) => void): void;
  destroy(): void;
}

/** Even light from all sides and some from beside the eye: faces differ in tone, none is dark. */
const LIGHT = { even: 0.74 * Math.PI, beside: 0.34 * Math.PI } as const;

/** How near to the line of a cut counts as on it, px. */
const CUT_REACH = { mouse: 7, touch: 14 } as const;

function isSame(a: Subject | null, b: Subject | null): boolean {
  return a?.piece === b?.piece && a?.cut === b?.cut && a?.face === b?.face;
}

/**
 * Puts the preview into a host and keeps it the host's size. It draws on demand, at most once a frame. After
 * each draw the host says what it shows: `data-drawn` counts the draws, `data-pieces` the bodies, `data-
 * miters` lists the miters of the joints, degrees, `data-section` says how it is cut open, `data-capped` how many
 * walls are, and `data-moving` is there while something is on its way.
 * Null where the browser gives no WebGL.
 */
export function mountPreview(host: HTMLElement): PreviewHandle | null {
  const canvas = document.createElement('canvas');
  const context = canvas.getContext('webgl2', { antialias: true, alpha: false });
  if (!context) return null;
  const renderer = new WebGLRenderer({ canvas, context });
  canvas.tabIndex = 0;
  canvas.setAttribute('role', 'application');
  host.append(canvas);

  const stillness = matchMedia('(prefers-reduced-motion: reduce)');
  const labels = createLabelLayer(host);
  const paints = createPaints();
  const scene = new Scene();
  const eye = createEye(canvas, () => stillness.matches, request);
  const sight = createSight(eye);
  const lamp = new DirectionalLight(0xffffff, LIGHT.beside);
  lamp.position.set(-0.5, 1, 0.6);
  eye.camera.add(lamp, lamp.target);
  scene.add(eye.camera, new AmbientLight(0xffffff, LIGHT.even));

  let shown: Shown | null = null;
  let bodies: BodyView[] = [];
  let painted = false;
  /** When the bodies set out for where they are to be, ms; null: they are there. */
  let begun: number | null = null;
  let size = { width: 0, height: 0 };
  let sized = true;
  let frame = 0;
  let drawn = 0;

  function request(): void {
    frame ||= requestAnimationFrame(draw);
  }

  function show(next: Shown | null): void {
    const before = shown;
    shown = next;
    painted = false;
    const rebuilt = next?.fitting !== before?.fitting;
    if (rebuilt) rebuild();
    if (next) {
      const exploded = next.explode !== before?.explode;
      const moved = rebuilt || exploded || next.arrangement !== before?.arrangement;
      const played = next.playing || (before?.playing ?? false);
      if (moved) arrange(next, exploded, rebuilt || exploded || played);
      if (moved || next.section !== before?.section || next.walls !== before?.walls) cutOpen(next);
      bodies.forEach((body) => body.light(next.highlighted));
    }
    request();
  }

  function rebuild(): void {
    bodies.forEach(({ group }) => scene.remove(group));
    bodies.forEach((body) => body.dispose());
    bodies = shown ? shown.fitting.bodies.map((body) => createBodyView(body, paints)) : [];
    bodies.forEach(({ group }) => scene.add(group));
  }

  function cutOpen(next: Shown): void {
    const planes = next.section && placeSectionPlanes(next.fitting, next.arrangement, next.section);
    bodies.forEach((body, k) => body.open(planes?.[k] ?? null, next.walls[k]!));
  }

  /**
   * Sends the bodies where they belong: at once while something is dragged or played, seen on their way from step
   * to step.
   */
  function arrange({ fitting, arrangement }: Shown, follow: boolean, atOnce: boolean): void {
    bodies.forEach((body, k) => body.head(arrangement.poses[k]!.placement, arrangement.offsets[k]!));
    eye.watch(listShownCorners(fitting, arrangement), follow);
    begun = atOnce || stillness.matches ? null : performance.now();
    if (begun === null) bodies.forEach((body) => body.advance(1));
  }

  function advance(now: number): boolean {
    const eyeMoves = eye.advance(now);
    if (begun === null) return eyeMoves;
    const share = easeWay(begun, now);
    bodies.forEach((body) => body.advance(share));
    if (share === 1) begun = null;
    return eyeMoves || begun !== null;
  }

  // Colours are read here, not in `show`: by now the page has its new theme on.
  function paint(): void {
    if (painted) return;
    const inks = readInks(host, shown?.theme ?? 'light');
    paints.apply(inks);
    bodies.forEach((body, k) => body.paint(shown!.colours[k]!, inks));
    renderer.setClearColor(inks.paper);
    painted = true;
  }

  function draw(now: number): void {
    frame = 0;
    if (size.width === 0 || size.height === 0) return;
    if (!sized) {
      renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
      renderer.setSize(size.width, size.height, false);
      eye.resize(size.width, size.height);
      sized = true;
    }
    const moving = advance(now);
    paint();
    renderer.render(scene, eye.camera);
    labels.show(placeLabels(sight.listLabels(bodies, size, shown?.highlighted?.piece), size));
    tell(moving);
    // What the eye asked for while it was moved here is drawn; only what is still on its way needs another
    // frame.
    cancelAnimationFrame(frame);
    frame = 0;
    if (moving) request();
  }

  function tell(moving: boolean): void {
    canvas.setAttribute('aria-label', shown?.label ?? '');
    host.toggleAttribute('data-moving', moving);
    host.dataset.drawn = String(++drawn);
    if (shown) {
      host.dataset.pieces = String(bodies.length);
      host.dataset.miters = listMiterJoints(shown.fitting)
        .map(({ miter }) => Math.round(miter * 100) / 100)
        .join(',');
      host.dataset.section = shown.section?.kind ?? 'none';
      host.dataset.capped = String(bodies.reduce((sum, body) => sum + body.capped().length, 0));
    } else {
      for (const name of ['pieces', 'miters', 'section', 'capped']) delete host.dataset[name];
    }
  }

  function find(event: PointerEvent): Subject | null {
    const box = canvas.getBoundingClientRect();
    const across = (event.clientX - box.left) / box.width;
    const down = (event.clientY - box.top) / box.height;
    const reach = CUT_REACH[event.pointerType === 'touch' ? 'touch' : 'mouse'];
    return sight.findSubject(new Vector2(2 * across - 1, 1 - 2 * down), bodies, reach);
  }

  let tellPick: (subject: Subject | null) => void = () => {};
  let tellHover: (subject: Subject | null) => void = () => {};
  let hovered: Subject | null = null;
  const unfollow = followPointer(
    canvas,
    (event) => tellPick(find(event)),
    (event) => {
      const subject = event && find(event);
      if (isSame(subject, hovered)) return;
      hovered = subject;
      tellHover(subject);
    }
  );

  canvas.addEventListener('webglcontextrestored', request);
  const watcher = new ResizeObserver(() => {
    size = { width: host.clientWidth, height: host.clientHeight };
    sized = false;
    request();
  });
  watcher.observe(host);

  return {
    show,
    resetCamera: () => eye.reset(),
    onPick: (callback) => void (tellPick = callback),
    onHover: (callback) => void (tellHover = callback),
    destroy() {
      cancelAnimationFrame(frame);
      watcher.disconnect();
      unfollow();
      canvas.removeEventListener('webglcontextrestored', request);
      eye.destroy();
      bodies.forEach((body) => body.dispose());
      paints.dispose();
      renderer.dispose();
      // A browser lends few contexts at a time; this one is given back at once.
      renderer.forceContextLoss();
      labels.destroy();
      canvas.remove();
    }
  };
}
