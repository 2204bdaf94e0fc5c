import {
  AmbientLight,
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Scene,
  ShapeUtils,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { BoardSolid, Placing, Slab } from '../solids.js';

/** The solid view: boards in slabs, lit and turned. A part of its own, unpacked only when it is asked for. */
export interface SolidHandle {
  readonly show: (boards: readonly BoardSolid[]) => void;
  /** 0 closed, 1 wholly apart. */
  readonly pull: (share: number) => void;
  /** Turns the boards; true where the key means something here. */
  readonly key: (key: string) => boolean;
  readonly end: () => void;
}

const colours = ['#e3c48f', '#a9683f'];

/** Draws into `room`; throws where there is no WebGL. */
export function openSolidView(room: HTMLElement): SolidHandle {
  const renderer = new WebGLRenderer({ antialias: true, alpha: true });
  room.append(renderer.domElement);
  const scene = new Scene();
  scene.add(new AmbientLight('#ffffff', 1.5));
  const sun = new DirectionalLight('#fff6e8', 2.2);
  sun.position.set(-0.6, 1.2, 1);
  scene.add(sun);
  const camera = new PerspectiveCamera(28, 1, 1, 20_000);
  const joint = new Group();
  scene.add(joint);
  let shown: readonly { readonly group: Group; readonly pulls: number }[] = [];
  let [turn, tilt, nearness, share, reach] = [0.6, 0.5, 1, 0.3, 100];

  const draw = () => {
    const { clientWidth, clientHeight } = room;
    if (clientWidth === 0 || clientHeight === 0) return;
    renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    renderer.setSize(clientWidth, clientHeight);
    camera.aspect = clientWidth / clientHeight;
    for (const { group, pulls } of shown) group.position.z = pulls * share * PULL;
    const far =
      (reach * 1.08) / (nearness * Math.min(1, camera.aspect) * Math.tan((camera.fov * Math.PI) / 360));
    camera.position.set(
      far * Math.cos(tilt) * Math.sin(turn),
      far * Math.sin(tilt),
      far * Math.cos(tilt) * Math.cos(turn),
    );
    camera.lookAt(0, 0, 0);
    camera.updateProjectionMatrix();
    renderer.render(scene, camera);
  };
  const rotate = (right: number, up: number) => {
    turn -= right;
    tilt = Math.min(1.5, Math.max(-1.5, tilt + up));
    draw();
  };

  let held: readonly [number, number] | undefined;
  renderer.domElement.addEventListener('pointerdown', (event) => {
    held = [event.clientX, event.clientY];
    renderer.domElement.setPointerCapture(event.pointerId);
  });
  renderer.domElement.addEventListener('pointermove', (event) => {
    if (!held) return;
    rotate((event.clientX - held[0]) * 0.008, (event.clientY - held[1]) * 0.008);
    held = [event.clientX, event.clientY];
  });
  renderer.domElement.addEventListener('pointerup', () => {
    held = undefined;
  });
  const observer = new ResizeObserver(draw);
  observer.observe(room);

  return {
    show: (boards) => {
      joint.clear();
      shown = boards.map((board, index) => {
        const group = boardGroup(board, colours[index % colours.length] ?? '#ccc');
        joint.add(group);
        return { group, pulls: board.pulls };
      });
      reach = centre(joint);
      draw();
    },
    pull: (next) => {
      share = next;
      draw();
    },
    key: (key) => {
      const way = { ArrowLeft: [-0.1, 0], ArrowRight: [0.1, 0], ArrowUp: [0, -0.1], ArrowDown: [0, 0.1] }[
        key
      ];
      if (way) rotate(way[0] ?? 0, way[1] ?? 0);
      else if (key === '+' || key === '=') nearness = Math.min(6, nearness * 1.15);
      else if (key === '-') nearness = Math.max(0.5, nearness / 1.15);
      else return false;
      draw();
      return true;
    },
    end: () => {
      observer.disconnect();
      renderer.dispose();
      renderer.domElement.remove();
    },
  };
}

/** How far apart the boards go, mm. */
const PULL = 70;

/** An edge is drawn where two faces meet at over this, degrees. */
const CREASE = 25;

/** Moves the group so that its middle is at the origin; gives half of its greatest size, mm. */
function centre(group: Group): number {
  const low = new Vector3(Infinity, Infinity, Infinity);
  const high = new Vector3(-Infinity, -Infinity, -Infinity);
  group.traverse((one) => {
    if (!(one instanceof Mesh)) return;
    one.geometry.computeBoundingBox();
    const box = one.geometry.boundingBox;
    if (!box) return;
    low.min(box.min);
    high.max(box.max);
  });
  group.position.copy(low.clone().add(high).multiplyScalar(-0.5));
  return Math.max(1, high.distanceTo(low) / 2);
}

function boardGroup(board: BoardSolid, colour: string): Group {
  const group = new Group();
  const wood = new MeshLambertMaterial({
    color: colour,
    side: 2,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
  });
  const ink = new LineBasicMaterial({ color: new Color(colour).multiplyScalar(0.45) });
  group.add(new Mesh(geometryOf([...board.cut, ...board.rest], board.place), wood));
  group.add(new LineSegments(outlinesOf(board), ink));
  return group;
}

/** Walls and covers of every slab as triangles; slabs of a tapered cut are thin enough to pass for a slope. */
function geometryOf(slabs: readonly Slab[], place: Placing): BufferGeometry {
  const corners: number[] = [];
  const put = (x: number, y: number, u: number) => corners.push(...placedPoint(place, x, y, u));
  for (const { from, to, polygons } of slabs) {
    for (const ring of polygons) {
      for (const [index, one] of ring.entries()) {
        const other = ring[(index + 1) % ring.length] ?? one;
        put(one.x, one.y, from);
        put(other.x, other.y, from);
        put(other.x, other.y, to);
        put(one.x, one.y, from);
        put(other.x, other.y, to);
        put(one.x, one.y, to);
      }
    }
    for (const [contour, holes] of shapesOf(polygons)) {
      const points = [contour, ...holes].flat();
      for (const triangle of ShapeUtils.triangulateShape(
        contour,
        holes.map((hole) => [...hole]),
      )) {
        for (const u of [from, to]) {
          for (const corner of triangle) {
            const point = points[corner];
            if (point) put(point.x, point.y, u);
          }
        }
      }
    }
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(corners), 3));
  geometry.computeVertexNormals();
  return geometry;
}

/** Outer rings with the holes inside them. */
function shapesOf(polygons: Slab['polygons']): readonly (readonly [Vector2[], Vector2[][]])[] {
  const rings = polygons.map((ring) => ring.map(({ x, y }) => new Vector2(x, y)));
  const outer = rings.filter((ring) => ShapeUtils.area(ring) > 0);
  const holes = rings.filter((ring) => ShapeUtils.area(ring) < 0);
  return outer.map((ring) => [
    ring,
    outer.length === 1 ? holes : holes.filter((hole) => isInside(hole[0], ring)),
  ]);
}

function isInside(point: Vector2 | undefined, ring: readonly Vector2[]): boolean {
  if (!point) return false;
  let inside = false;
  let from = ring.at(-1);
  for (const to of ring) {
    if (
      from &&
      from.y > point.y !== to.y > point.y &&
      point.x < from.x + ((point.y - from.y) / (to.y - from.y)) * (to.x - from.x)
    ) {
      inside = !inside;
    }
    from = to;
  }
  return inside;
}

/** The lines that a pencil would draw: where the cut begins and ends, and the upright edges between. */
function outlinesOf({ cut, rest, place }: BoardSolid): BufferGeometry {
  const first = cut[0];
  const last = cut.at(-1);
  const outer = [
    ...(first ? [{ ...first, to: first.from }] : []),
    ...(last ? [{ ...last, from: last.to }] : []),
    ...rest,
  ];
  const ends: number[] = [];
  for (const { from, to, polygons } of outer) {
    for (const ring of polygons) {
      for (const [index, one] of ring.entries()) {
        const other = ring[(index + 1) % ring.length] ?? one;
        for (const u of from === to ? [from] : [from, to]) {
          ends.push(...placedPoint(place, one.x, one.y, u), ...placedPoint(place, other.x, other.y, u));
        }
      }
    }
  }
  // Upright edges of the end: from slab to slab where corners stand over each other.
  const upright = [...(cut.length === 1 ? [cut] : []), ...rest.map((slab) => [slab])];
  for (const slabs of upright) {
    const creases = new EdgesGeometry(geometryOf(slabs, place), CREASE);
    ends.push(...(creases.getAttribute('position')?.array ?? []));
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(ends), 3));
  return geometry;
}

/** a along the joint is x on the screen, b (downward) is −y, c (toward whoever looks) is z. */
function placedPoint(
  { a, b, c }: Placing,
  x: number,
  y: number,
  u: number,
): readonly [number, number, number] {
  return [x + a, -(b[0] + b[1] * y + b[2] * u), c[0] + c[1] * y + c[2] * u];
}
