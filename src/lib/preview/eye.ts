import { PerspectiveCamera, Vector3 } from 'three';
import { OrbitControls } from 'three/addons/controls/OrbitControls.js';
import type { Vec3 } from '../kernel/geometry/vector.ts';
import {
  frameView,
  hasChangedMuch,
  isInSight,
  wrapBall,
  type Axes,
  type Ball,
  type Slopes
} from './framing.ts';
import { easeWay } from './way.ts';

/**
 * Narrow, so that parallel edges stay nearly parallel as on a drawing, yet the inside of the duct is seen.
 * Degrees.
 */
const FIELD_OF_VIEW = 15;

/**
 * From where a fitting is first seen: before its inlet, to its right and above, so that the flow runs to the
 * right.
 */
const FIRST_LOOK = new Vector3(-0.62, 0.62, 1).normalize();

/** How much further off the eye stands than it must. */
const ROOM = 1.12;

/** One press of a key: an angle in radians, and a factor of the distance. */
const KEY_TURN = Math.PI / 36;
const KEY_ZOOM = 0.87;

export interface Eye {
  readonly camera: PerspectiveCamera;
  /**
   * Tells the eye what is shown. It looks again only where it has to: at first; when that has changed much; and,
   * unless the user has panned or zoomed, when something gets out of sight and at every change it is to `follow`
   * (an exploding fitting).
   */
  watch(corners: readonly Vec3[], follow: boolean): void;
  /** Looks from the first side again, at all there is. */
  reset(): void;
  resize(width: number, height: number): void;
  /** How many mm one px of the picture is where a point lies. */
  measurePixel(at: Vector3): number;
  /** Moves on to where it is to look; answers whether it is still on its way. `now` in ms. */
  advance(now: number): boolean;
  destroy(): void;
}

interface Look {
  readonly target: Vector3;
  readonly distance: number;
}

/**
 * A camera that the user turns about the fitting: by mouse, by finger, and by keys while the canvas has the
 * focus. It glides to where it has to look again, or jumps there where `isStill` says that the user wants no
 * motion.
 */
export function createEye(canvas: HTMLCanvasElement, isStill: () => boolean, onChange: () => void): Eye {
  const camera = new PerspectiveCamera(FIELD_OF_VIEW, 1);
  camera.position.copy(FIRST_LOOK).multiplyScalar(1000);
  const controls = new OrbitControls(camera, canvas);
  let seen: readonly Vec3[] = [];
  let ball: Ball | null = null;
  let fitted: (Look & { ball: Ball }) | null = null;
  /** Height of the picture, px. */
  let tall = 1;
  let way: { from: Look; to: Look; begun: number } | null = null;

  const setDepth = (): void => {
    if (!ball) return;
    const distance = camera.position.distanceTo(new Vector3(...ball.centre));
    camera.near = Math.max(distance - ball.radius * 1.1, distance / 100);
    camera.far = distance + ball.radius * 1.1;
    camera.updateProjectionMatrix();
  };
  controls.addEventListener('change', () => {
    setDepth();
    onChange();
  });
  const stay = (): void => void (way = null);
  controls.addEventListener('start', stay);

  const lookNow = (): Look => ({ target: controls.target.clone(), distance: controls.getDistance() });
  const look = ({ target, distance }: Look): void => {
    const back = camera.position.clone().sub(controls.target).normalize();
    controls.target.copy(target);
    camera.position.copy(target).addScaledVector(back, distance);
    controls.update();
    setDepth();
  };

  function findView(): { axes: Axes; slopes: Slopes } {
    camera.updateMatrixWorld();
    const [right, up, back] = [0, 1, 2].map((i) =>
      new Vector3().setFromMatrixColumn(camera.matrixWorld, i).toArray()
    );
    const upward = Math.tan((FIELD_OF_VIEW * Math.PI) / 360);
    return {
      axes: { right: right!, up: up!, back: back! },
      slopes: { across: upward * camera.aspect, upward }
    };
  }

  /** How to look at all there is from the present side. */
  function findLook(within: Ball): Look {
    const { axes, slopes } = findView();
    const { target, distance } = frameView(seen, axes, slopes);
    controls.minDistance = within.radius / 2;
    controls.maxDistance = distance * 8;
    fitted = { target: new Vector3(...target), distance: distance * ROOM, ball: within };
    return fitted;
  }

  /** Whether the user has panned or zoomed since the last fit; turning does not count. */
  function isMoved(): boolean {
    if (!fitted || way) return false;
    const slack = fitted.distance * 1e-6;
    const { target, distance } = lookNow();
    return target.distanceTo(fitted.target) > slack || Math.abs(distance - fitted.distance) > slack;
  }

  /** Whether something is out of sight from where the eye is, or is on its way to. */
  function hasLostSight(): boolean {
    const { axes, slopes } = findView();
    const { target, distance } = way?.to ?? lookNow();
    return !isInSight(seen, axes, slopes, { target: target.toArray(), distance });
  }

  function jump(within: Ball): void {
    way = null;
    look(findLook(within));
    onChange();
  }

  function glide(within: Ball): void {
    if (isStill()) return jump(within);
    way = { from: lookNow(), to: findLook(within), begun: performance.now() };
    onChange();
  }

  /** A fitting that only by being turned has got out of sight is brought back. */
  function settle(): void {
    if (ball && !isMoved() && hasLostSight()) glide(ball);
  }
  controls.addEventListener('end', settle);

  const keys: Record<string, () => void> = {
    ArrowLeft: () => controls.rotateLeft(-KEY_TURN),
    ArrowRight: () => controls.rotateLeft(KEY_TURN),
    ArrowUp: () => controls.rotateUp(-KEY_TURN),
    ArrowDown: () => controls.rotateUp(KEY_TURN),
    '+': () => controls.dollyIn(KEY_ZOOM),
    '=': () => controls.dollyIn(KEY_ZOOM),
    '-': () => controls.dollyIn(1 / KEY_ZOOM)
  };
  const press = (event: KeyboardEvent): void => {
    const act = keys[event.key];
    if (!act || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    stay();
    act();
  };
  canvas.addEventListener('keydown', press);
  canvas.addEventListener('keyup', settle);

  return {
    camera,
    watch(corners, follow) {
      const untouched = fitted === null || (follow && !isMoved());
      seen = corners;
      ball = wrapBall(corners);
      setDepth();
      if (untouched) jump(ball);
      else if (hasChangedMuch(fitted!.ball, ball) || (!isMoved() && hasLostSight())) glide(ball);
    },
    reset() {
      if (!ball) return;
      const { target, distance } = lookNow();
      camera.position.copy(target).addScaledVector(FIRST_LOOK, distance);
      controls.update();
      jump(ball);
    },
    measurePixel(at) {
      const upward = Math.tan((FIELD_OF_VIEW * Math.PI) / 360);
      return (2 * upward * camera.position.distanceTo(at)) / tall;
    },
    resize(width, height) {
      tall = height;
      const untouched = !isMoved();
      camera.aspect = width / height;
      camera.updateProjectionMatrix();
      if (ball && untouched) jump(ball);
    },
    advance(now) {
      if (!way) return false;
      const { from, to, begun } = way;
      const share = easeWay(begun, now);
      if (share === 1) way = null;
      look({
        target: from.target.clone().lerp(to.target, share),
        distance: from.distance + (to.distance - from.distance) * share
      });
      return way !== null;
    },
    destroy() {
      canvas.removeEventListener('keydown', press);
      canvas.removeEventListener('keyup', settle);
      controls.dispose();
    }
  };
}
