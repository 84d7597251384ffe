import { AmbientLight, DirectionalLight, Raycaster, Scene, Vector2, Vector3, WebGLRenderer } from 'three';
import type { Subject } from '../figures/figure.ts';
import type { Pose } from '../kernel/assembly/pose.ts';
import { listMiterJoints, type Fitting } from '../kernel/fitting/fitting.ts';
import { createBodyView, createPaints, type BodyView } from './bodies.ts';
import { createEye } from './eye.ts';
import { readInks } from './inks.ts';
import { createLabelLayer, placeLabels, type Anchor, type WantedLabel } from './labels.ts';
import { followPointer } from './pointing.ts';
import { listShownCorners, spreadBodies } from './spread.ts';
import { easeWay } from './way.ts';

/** What the preview shows: a fitting after a step. */
export interface Shown {
  readonly fitting: Fitting;
  readonly poses: readonly Pose[];
  readonly highlighted: Subject | null;
  /** A colour for every body, in their order. */
  readonly colours: readonly string[];
  /** How far the joints are opened, 0 … 1. */
  readonly explode: number;
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

/**
 * Puts the preview into a host and keeps it the host's size. It draws on demand, at most once a frame. After
 * each draw the host says what it shows: `data-drawn` counts the draws, `data-pieces` the bodies, `data-
 * miters` lists the miters of the joints, degrees, and `data-moving` is there while something is on its way.
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
      if (rebuilt || exploded || next.poses !== before?.poses) arrange(next, { rebuilt, exploded });
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

  /**
   * Sends the bodies where they belong: at once while something is dragged, seen on their way from step to
   * step.
   */
  function arrange(next: Shown, { rebuilt, exploded }: { rebuilt: boolean; exploded: boolean }): void {
    const offsets = spreadBodies(next.fitting, next.poses, next.explode);
    bodies.forEach((body, k) => body.head(next.poses[k]!.placement, offsets[k]!));
    eye.watch(listShownCorners(next.fitting, next.poses, offsets), exploded);
    begun = rebuilt || exploded || stillness.matches ? null : performance.now();
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
    labels.show(placeLabels(listLabels(), size));
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
    } else {
      delete host.dataset.pieces;
      delete host.dataset.miters;
    }
  }

  const caster = new Raycaster();
  /** What lies at a point of the picture, −1 … 1 to the right and up. */
  function findAt(point: Vector2): { body: BodyView; triangle: number } | null {
    caster.setFromCamera(point, eye.camera);
    const shells = bodies.map(({ shell }) => shell);
    const first = caster.intersectObjects(shells, false)[0];
    const body = bodies.find(({ shell }) => shell === first?.object);
    return body && typeof first?.faceIndex === 'number' ? { body, triangle: first.faceIndex } : null;
  }

  /** The names of the bodies, nearest first, each with the walls that look largest from here. */
  function listLabels(): WantedLabel[] {
    return bodies
      .map((body) => {
        const anchor = (at: Vector3): Anchor => {
          const seen = body.group.localToWorld(at.clone()).project(eye.camera);
          const point = new Vector2(seen.x, seen.y);
          return {
            x: ((1 + seen.x) / 2) * size.width,
            y: ((1 - seen.y) / 2) * size.height,
            isSeen: () => findAt(point)?.body === body
          };
        };
        const toEye = body.group.worldToLocal(eye.camera.position.clone());
        const look = (wall: BodyView['walls'][number]): number =>
          wall.area.dot(toEye.clone().sub(wall.middle).normalize());
        const walls = body.walls.filter((wall) => look(wall) > 0).sort((a, b) => look(b) - look(a));
        return {
          name: body.name,
          lit: shown?.highlighted?.piece === body.name,
          walls: walls.map(({ middle }) => anchor(middle)),
          middle: anchor(body.middle),
          distance: toEye.distanceTo(body.middle)
        };
      })
      .sort((a, b) => a.distance - b.distance);
  }

  function find(event: PointerEvent): Subject | null {
    const box = canvas.getBoundingClientRect();
    const across = (event.clientX - box.left) / box.width;
    const down = (event.clientY - box.top) / box.height;
    const found = findAt(new Vector2(2 * across - 1, 1 - 2 * down));
    return found && { piece: found.body.name, face: found.body.wallOf(found.triangle) };
  }

  let tellPick: (subject: Subject | null) => void = () => {};
  let tellHover: (subject: Subject | null) => void = () => {};
  let hovered: Subject | null = null;
  const unfollow = followPointer(
    canvas,
    (event) => tellPick(find(event)),
    (event) => {
      const subject = event && find(event);
      if (subject?.piece === hovered?.piece && subject?.face === hovered?.face) return;
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
