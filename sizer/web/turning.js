// Draws the boat of turning.py on a canvas. Screen: x to the right, y down; depth grows away.

const START = { turn: 35, tilt: 24 };
const VIEWS = { bow: { turn: 90, tilt: 0 }, side: { turn: 0, tilt: 0 }, above: { turn: 0, tilt: 90 } };
const STEP_DEG = 5, ZOOM_STEP = 1.2, DRAG_DEG = 0.4, FILL = 0.86, CLOSEST = 40;
const PENS = {  // width in px and colour
  frame: [1.5, "wood"], stick: [1.7, "wood"], stem: [2.2, "wood"], edge: [1.8, "ink"],
  base: [1, "pencil"],
};
const THEME_TURNS_MS = 300;  // until the page itself has turned
const TOWARDS_MM = 110;  // a stick lies on the skin: drawn as if nearer by half a face
const LIGHT = [-0.35, -0.55, 0.76];  // from the upper left, towards the viewer

// Views outlive the element, so that leaving a page and coming back changes nothing.
const kept = (globalThis.sizerTurning ??= {});

export default function ({ data, parentElement }) {
  const root = parentElement.querySelector(".turning");
  const canvas = root.querySelector("canvas");
  canvas.setAttribute("aria-label", data.said);
  const view = (kept[data.key] ??= { ...START, zoom: 0, at: [0, 0], skin: true });
  const skin = root.querySelector("[data-view=skin]");
  const state = (canvas.state ??= {});
  Object.assign(state, { boat: prepared(data), fresh: true });
  state.draw = () => {
    skin.setAttribute("aria-pressed", view.skin);
    const colours = data.colours[getComputedStyle(root).colorScheme === "dark" ? "dark" : "light"];
    for (const [name, value] of Object.entries(colours)) root.style.setProperty(`--${name}`, value);
    draw(canvas, state, view, colours);
  };
  if (!state.wired) {
    wire(root, canvas, view, state);
    matchMedia("(prefers-color-scheme: dark)").addEventListener(
      "change", () => setTimeout(() => state.draw(), THEME_TURNS_MS));
  }
  state.wired = true;
  state.draw();
}

// --- what is drawn -------------------------------------------------------------------------

/** Both sides, as offsets from the boat's middle: lines, and faces with four corners each. */
function prepared({ lines, skin, coaming, long, middle }) {
  const off = ([x, y, z], side) => [x - middle[0], side * y, z - middle[2]];
  const both = (points) => (points.some(([, y]) => y) ? [1, -1] : [1])
    .map((side) => points.map((point) => off(point, side)));
  const faces = [];
  for (const [kind, rows] of [["skin", skin], ["coaming", coaming]]) {
    for (let i = 1; i < rows.length; i++) {
      for (let j = 1; j < rows[i].length; j++) {
        const ring = [rows[i - 1][j - 1], rows[i - 1][j], rows[i][j], rows[i][j - 1]];
        for (const corners of both(ring)) faces.push({ kind, corners });
      }
    }
  }
  return { long, faces, lines: lines.flatMap(({ kind, points }) =>
    both(points).map((line) => ({ kind, line }))) };
}

/** Turns a point: [right, up, away], in mm. Level from the side the bow is on the left. */
function turner({ turn, tilt }) {
  const [c, s] = [Math.cos(turn * Math.PI / 180), Math.sin(turn * Math.PI / 180)];
  const [ct, st] = [Math.cos(tilt * Math.PI / 180), Math.sin(tilt * Math.PI / 180)];
  return ([x, y, z]) => {
    const away = x * s + y * c;
    return [x * c - y * s, z * ct + away * st, away * ct - z * st];
  };
}

function extent(boat, view) {
  const turned = turner(view);
  let right = 1, up = 1;
  for (const { line } of boat.lines) {
    for (const point of line) {
      const [x, y] = turned(point);
      right = Math.max(right, Math.abs(x));
      up = Math.max(up, Math.abs(y));
    }
  }
  return [right, up];
}

/** Share of the canvas' width that a mm takes when the whole boat just shows. */
function fitting(canvas, boat, view) {
  const [right, up] = extent(boat, view);
  const tall = canvas.clientHeight / canvas.clientWidth;
  return 0.5 * FILL * Math.min(1 / right, tall / up);
}

function fit(canvas, boat, view) {
  view.zoom = fitting(canvas, boat, view);
  view.at = [0, 0];
  view.byHand = false;
}

// --- drawing -------------------------------------------------------------------------------

function draw(canvas, state, view, colours) {
  const boat = state.boat;
  const wide = canvas.clientWidth;
  if (!wide) return;  // not shown
  const tall = Math.round(wide < 500 ? 0.62 * wide : Math.min(0.46 * wide, 440));
  const ratio = globalThis.devicePixelRatio || 1;
  canvas.style.height = `${tall}px`;
  canvas.width = Math.round(wide * ratio);
  canvas.height = Math.round(tall * ratio);
  // A longer boat looks longer, until it leaves a picture that no hand has moved.
  const left = state.fresh && !view.byHand && view.zoom * FILL > fitting(canvas, boat, view);
  if (!view.zoom || left) fit(canvas, boat, view);
  state.fresh = false;
  const pen = canvas.getContext("2d");
  pen.setTransform(ratio, 0, 0, ratio, 0, 0);
  pen.lineCap = pen.lineJoin = "round";
  const scale = view.zoom * wide, turned = turner(view);
  const middle = [wide / 2 + view.at[0] * wide, tall / 2 + view.at[1] * wide];
  const place = (point) => {
    const [right, up, away] = turned(point);
    return [middle[0] + scale * right, middle[1] - scale * up, away];
  };
  const lines = boat.lines.map(({ kind, line }) => ({ kind, line: line.map(place) }));
  const base = lines.filter(({ kind }) => kind === "base");
  const own = lines.filter(({ kind }) => kind !== "base");
  for (const one of base) stroke(pen, one, 1, colours);
  if (view.skin) {
    const things = [...boat.faces.map((face) => faceOf(face, place, colours)),
                    ...own.flatMap(piecesOf)];
    things.sort((one, other) => other.away - one.away);
    for (const thing of things) thing.corners ? fill(pen, thing) : stroke(pen, thing, 1, colours);
  }
  for (const one of own) stroke(pen, one, view.skin ? 0.25 : 1, colours);  // faint through skin
  canvas.dataset.turn = `${round(view.turn)},${round(view.tilt)}`;
  canvas.dataset.zoom = (view.zoom * boat.long).toFixed(3);
}

function round(angle) { return Math.round(10 * angle) / 10; }

function faceOf({ kind, corners }, place, colours) {
  const at = corners.map(place);
  return { corners: at, away: mean(at), colour: shaded(kind, at, colours) };
}

function piecesOf({ kind, line }) {
  return line.slice(1).map((end, i) => (
    { kind, line: [line[i], end], away: mean([line[i], end]) - TOWARDS_MM }));
}

function mean(points) {
  return points.reduce((sum, point) => sum + point[2], 0) / points.length;
}

/** Flat shading by the face's direction, between two colours of the page. */
function shaded(kind, [a, b, c, d], colours) {
  const one = [c[0] - a[0], a[1] - c[1], a[2] - c[2]];  // right, up, towards the viewer
  const other = [d[0] - b[0], b[1] - d[1], b[2] - d[2]];
  const normal = [one[1] * other[2] - one[2] * other[1], one[2] * other[0] - one[0] * other[2],
                  one[0] * other[1] - one[1] * other[0]];
  const size = Math.hypot(...normal) || 1, facing = normal[2] < 0 ? -1 : 1;
  const lit = LIGHT.reduce((sum, part, i) => sum + part * normal[i] * facing / size, 0);
  const share = 0.5 + 0.5 * lit;
  return kind === "coaming" ? mixed(colours.wood, colours.panel, 0.35 + 0.4 * share)
    : mixed(colours.line, colours.panel, share);
}

function mixed(from, to, share) {
  const part = (i) => Math.round((1 - share) * parseInt(from.slice(i, i + 2), 16)
    + share * parseInt(to.slice(i, i + 2), 16));
  return `rgb(${part(1)},${part(3)},${part(5)})`;
}

function fill(pen, { corners, colour }) {
  pen.globalAlpha = 1;
  pen.fillStyle = pen.strokeStyle = colour;
  pen.lineWidth = 0.7;  // closes the seam to the next face
  trace(pen, corners);
  pen.closePath();
  pen.fill();
  pen.stroke();
}

function stroke(pen, { kind, line }, alpha, colours) {
  const [width, colour] = PENS[kind];
  pen.globalAlpha = alpha;
  pen.strokeStyle = colours[colour];
  pen.lineWidth = width;
  trace(pen, line);
  pen.stroke();
}

function trace(pen, points) {
  pen.beginPath();
  points.forEach(([x, y], i) => (i ? pen.lineTo(x, y) : pen.moveTo(x, y)));
}

// --- hands ---------------------------------------------------------------------------------

function wire(root, canvas, view, state) {
  const soon = () => {
    state.due ??= requestAnimationFrame(() => { state.due = null; state.draw(); });
  };
  const turnBy = (turn, tilt) => {
    view.turn = ((view.turn + turn + 180) % 360 + 360) % 360 - 180;
    view.tilt = Math.max(-90, Math.min(90, view.tilt + tilt));
    view.byHand = true;
    soon();
  };
  const zoomBy = (factor, at) => {  // what is under `at` stays there
    const whole = fitting(canvas, state.boat, view);
    const zoom = Math.max(0.5 * whole, Math.min(CLOSEST * whole, view.zoom * factor));
    const held = at.map((part, i) => part / canvas.clientWidth - (i ? 0.5 * tallShare(canvas) : 0.5));
    view.at = view.at.map((part, i) => held[i] - (held[i] - part) * zoom / view.zoom);
    view.zoom = zoom;
    view.byHand = true;
    soon();
  };
  const middle = () => [canvas.clientWidth / 2, canvas.clientHeight / 2];
  new ResizeObserver(soon).observe(canvas);
  root.querySelector(".buttons").addEventListener("click", ({ target }) => {
    const name = target.dataset.view;
    if (!name) return;
    if (name === "skin") view.skin = !view.skin;
    else fit(canvas, state.boat, Object.assign(view, VIEWS[name] ?? {}));
    soon();
  });
  canvas.addEventListener("keydown", (event) => {
    const turns = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    const zooms = { "+": ZOOM_STEP, "=": ZOOM_STEP, "-": 1 / ZOOM_STEP, "−": 1 / ZOOM_STEP };
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (turns[event.key]) turnBy(...turns[event.key].map((part) => STEP_DEG * part));
    else if (zooms[event.key]) zoomBy(zooms[event.key], middle());
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
  canvas.addEventListener("wheel", (event) => {
    if (!event.ctrlKey && !event.metaKey) return;  // the page scrolls
    event.preventDefault();
    zoomBy(Math.exp(-0.0025 * event.deltaY), [event.offsetX, event.offsetY]);
  }, { passive: false });
  fingers(canvas, view, turnBy, zoomBy);
}

function tallShare(canvas) { return canvas.clientHeight / canvas.clientWidth; }

/** One finger or the mouse turns; two zoom. A finger that moves up or down scrolls the page. */
function fingers(canvas, view, turnBy, zoomBy) {
  const down = new Map();
  let start = [0, 0];
  const spread = () => {
    const [one, other] = [...down.values()];
    return Math.hypot(one[0] - other[0], one[1] - other[1]) || 1;
  };
  canvas.addEventListener("touchstart", (event) => {
    if (event.touches.length > 1) event.preventDefault();  // else the page would take the pinch
  }, { passive: false });
  canvas.addEventListener("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    start = [view.turn, view.tilt];
    down.set(event.pointerId, [event.offsetX, event.offsetY]);
  });
  canvas.addEventListener("pointermove", (event) => {
    const before = down.get(event.pointerId);
    if (!before) return;
    const now = [event.offsetX, event.offsetY];
    const apart = down.size === 2 ? spread() : 0;
    down.set(event.pointerId, now);
    if (down.size === 1) turnBy(DRAG_DEG * (now[0] - before[0]), DRAG_DEG * (now[1] - before[1]));
    else if (apart) {
      const [one, other] = [...down.values()];
      zoomBy(spread() / apart, [(one[0] + other[0]) / 2, (one[1] + other[1]) / 2]);
    }
  });
  canvas.addEventListener("pointerup", (event) => down.delete(event.pointerId));
  canvas.addEventListener("pointercancel", (event) => {  // the page scrolls: that was no turn
    down.delete(event.pointerId);
    turnBy(start[0] - view.turn, start[1] - view.tilt);
  });
}
