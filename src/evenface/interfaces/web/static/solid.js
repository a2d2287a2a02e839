// The page of a piece in three dimensions: fetches it, and lets mouse, fingers, keys and entries move the stage.

import { minus } from "/static/solid_shapes.js";
import { Stage } from "/static/solid_stage.js";

const TURN = 10; // degrees of an arrow key

function byPointer(stage) {
  const { canvas } = stage;
  const held = new Map();
  const place = (event) => [event.clientX, event.clientY];
  canvas.addEventListener("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    held.set(event.pointerId, place(event));
  });
  for (const end of ["pointerup", "pointercancel"]) canvas.addEventListener(end, (event) => held.delete(event.pointerId));
  canvas.addEventListener("contextmenu", (event) => event.preventDefault());
  canvas.addEventListener("pointermove", (event) => {
    const was = held.get(event.pointerId);
    if (was === undefined) return;
    const now = place(event);
    const [dx, dy] = minus(now, was);
    const others = [...held].filter(([id]) => id !== event.pointerId);
    if (others.length > 0) {
      const other = others[0][1];
      const [before, after] = [was, now].map((one) => Math.hypot(...minus(one, other)));
      if (before > 0) stage.nearer(after / before);
      stage.move(dx / 2 / canvas.clientWidth, dy / 2 / canvas.clientHeight);
    } else if (event.shiftKey || event.buttons & 6) stage.move(dx / canvas.clientWidth, dy / canvas.clientHeight);
    else stage.turn(-dx * 0.4, dy * 0.4);
    held.set(event.pointerId, now);
  });
  canvas.addEventListener("wheel", (event) => {
    event.preventDefault();
    stage.nearer(Math.exp(-Math.sign(event.deltaY) * 0.12));
  }, { passive: false });
}

function byKey(stage) {
  const ways = { ArrowLeft: [1, 0], ArrowRight: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
  stage.canvas.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const way = ways[event.key];
    if (way && event.shiftKey) stage.move(-way[0] * 0.05, -way[1] * 0.05);
    else if (way) stage.turn(way[0] * TURN, way[1] * TURN);
    else if (event.key === "+" || event.key === "=") stage.nearer(1.2);
    else if (event.key === "-" || event.key === "_") stage.nearer(1 / 1.2);
    else if (event.key === "Home") stage.look("corner");
    else return;
    event.preventDefault();
  });
}

function told(stage, units) {
  const language = document.documentElement.lang;
  const inch = units === "inch";
  const length = (mm) => {
    const value = inch ? mm / 25.4 : mm;
    const digits = inch ? 2 : 0;
    return `${value.toLocaleString(language, { maximumFractionDigits: digits })} ${inch ? document.getElementById("solid").dataset.inch : "mm"}`;
  };
  document.getElementById("apart-told").textContent = `${Math.round(stage.apart * 100)} %`;
  const cut = document.getElementById("cut-told");
  cut.textContent = "";
  if (stage.axis === null) return;
  const [low, high] = stage.box();
  cut.textContent = length((high[stage.axis] - low[stage.axis]) * stage.cut);
}

function byForm(stage, form, root) {
  const field = (id) => document.getElementById(id);
  for (const button of form.querySelectorAll("[data-view]")) {
    button.addEventListener("click", () => stage.look(button.dataset.view));
  }
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", async () => {
    const axis = form.elements.namedItem("axis").value;
    stage.axis = axis === "" ? null : Number(axis);
    field("cut").disabled = stage.axis === null;
    const alone = stage.piece.parts.findIndex((part) => part.number === field("only").value);
    stage.show(alone < 0 ? null : alone, Number(field("apart").value) / 100);
    stage.cut = Number(field("cut").value) / 1000;
    stage.bow = Number(field("bow").value);
    stage.month = Number(field("month").value);
    field("solid-numbers").hidden = !field("numbered").checked;
    told(stage, root.dataset.units);
    stage.soon();
    if (stage.bow && stage.bows === null) {
      const state = field("solid-state");
      state.textContent = state.dataset.reckoned;
      const answer = await fetch(`${root.dataset.source}/bows`).catch(() => null);
      state.textContent = answer?.ok ? "" : state.dataset.failed;
      if (!answer?.ok) return;
      stage.bows = await answer.json();
      stage.soon();
    }
  });
  // the address may name one part: …?part=1.2
  field("only").value = new URLSearchParams(location.search).get("part") ?? "";
  if (field("only").selectedIndex < 0) field("only").value = "";
  form.dispatchEvent(new Event("input"));
}

function instead() {
  document.getElementById("solid").hidden = true;
  document.getElementById("solid-controls").hidden = true;
  document.getElementById("solid-keys").hidden = true;
  document.getElementById("solid-instead").hidden = false;
  document.getElementById("solid-without").hidden = false;
}

async function begin() {
  const root = document.getElementById("solid");
  const canvas = document.getElementById("solid-view");
  const gl = canvas.getContext("webgl2", { antialias: true, stencil: true, alpha: true });
  if (gl === null) return instead();
  canvas.addEventListener("webglcontextlost", (event) => {
    event.preventDefault();
    instead();
  });
  const answer = await fetch(`${root.dataset.source}/solid`);
  if (!answer.ok) return instead();
  const piece = await answer.json();
  document.getElementById("solid-instead").hidden = true;
  const form = document.getElementById("solid-controls");
  root.hidden = false;
  form.hidden = false;
  const stage = new Stage(canvas, gl, piece);
  byPointer(stage);
  byKey(stage);
  byForm(stage, form, root);
  window.addEventListener("beforeprint", () => stage.draw()); // what is seen is on paper too
}

begin();
