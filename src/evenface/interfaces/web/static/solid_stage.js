// A piece in WebGL 2: parallel projection, flat shading, drawn edges, capped sections. Draws only when something changed.

import { cross, degrees, dot, minus, mixed, split, splitLines, threes } from "/static/solid_shapes.js";

const VIEWS = { corner: [30, 24], front: [0, 0], side: [90, 0], plan: [0, 90] };
const FAR = 6; // half the depth of what is drawn, in radii of the piece
const INK = [0.11, 0.11, 0.1, 0];
const CELLS = 24; // a part that bows is bent in so many pieces along its longer side

const SOLID = `#version 300 es
precision highp float;
in vec3 place;
uniform vec3 size, at, ax, ay, az, away, right, up, into, centre;
uniform vec2 rise;
uniform vec4 window; // half width, half height, half depth [mm], nudge
out vec3 world;
void main() {
  vec3 p = place;
  vec2 off = 2.0 * place.xy / size.xy - 1.0;
  p.z += rise.x * (1.0 - off.x * off.x) + rise.y * (1.0 - off.y * off.y);
  world = at + p.x * ax + p.y * ay + p.z * az + away;
  vec3 seen = world - centre;
  gl_Position = vec4(dot(seen, right) / window.x, dot(seen, up) / window.y, dot(seen, into) / window.z - window.w, 1.0);
}`;

const SHADED = `#version 300 es
precision highp float;
in vec3 world;
uniform vec4 plane, tone; // tone.a: 0 flat, 1 shaded, 2 hatched
uniform vec3 into;
uniform float pixel;
out vec4 colour;
void main() {
  if (dot(plane.xyz, world) > plane.w) discard;
  float light = 1.0;
  if (tone.a > 1.5) {
    float line = mod(gl_FragCoord.x + gl_FragCoord.y, 9.0 * pixel) / pixel;
    light = line < 1.2 ? 0.62 : 0.92;
  } else if (tone.a > 0.5) {
    vec3 n = normalize(cross(dFdx(world), dFdy(world)));
    if (dot(n, into) > 0.0) n = -n;
    light = 0.78 + dot(n, vec3(-0.06, -0.10, 0.22));
  }
  colour = vec4(tone.rgb * light, 1.0);
}`;

function program(gl) {
  const made = gl.createProgram();
  for (const [kind, text] of [[gl.VERTEX_SHADER, SOLID], [gl.FRAGMENT_SHADER, SHADED]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    gl.attachShader(made, shader);
  }
  gl.bindAttribLocation(made, 0, "place");
  gl.linkProgram(made);
  if (!gl.getProgramParameter(made, gl.LINK_STATUS)) throw new Error(gl.getProgramInfoLog(made) ?? "shader");
  const names = "size at ax ay az away right up into centre rise window plane tone pixel".split(" ");
  return [made, Object.fromEntries(names.map((name) => [name, gl.getUniformLocation(made, name)]))];
}

function buffer(gl, points) {
  const array = gl.createVertexArray();
  gl.bindVertexArray(array);
  gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
  gl.bufferData(gl.ARRAY_BUFFER, new Float32Array(points.flat()), gl.STATIC_DRAW);
  gl.enableVertexAttribArray(0);
  gl.vertexAttribPointer(0, 3, gl.FLOAT, false, 0, 0);
  return { array, count: points.length };
}

export class Stage {
  constructor(canvas, gl, piece) {
    this.canvas = canvas;
    this.gl = gl;
    this.piece = piece;
    [this.program, this.at] = program(gl);
    this.radius = Math.hypot(...minus(piece.high, piece.low)) / 2 || 1;
    this.only = null;
    this.apart = 0;
    this.axis = null;
    this.cut = 0.5;
    this.bow = 0;
    this.month = 0;
    this.bows = null;
    this.waiting = false;
    this.frames = 0;
    this.bodies = piece.parts.flatMap((part, n) => part.bodies.map((body) => this.body(part, n, body)));
    this.quad = buffer(gl, threes([0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 0, 0, 1, 1, 0, 0, 1, 0]));
    this.look("corner");
    new ResizeObserver(() => this.soon()).observe(canvas);
  }

  body(part, number, body) {
    const points = threes(body.positions);
    const corners = body.triangles.map((one) => points[one]);
    const ends = threes(body.lines);
    const under = threes(body.covered);
    const tone = [1, 3, 5].map((n) => parseInt(this.piece.colours[body.colour].tone.slice(n, n + 2), 16) / 255);
    const made = { part, number, body, tone, corners, ends, under, bent: null };
    made.flat = [corners, ends, under].map((points) => buffer(this.gl, points));
    return made;
  }

  // Finer triangles only for what bows, and only when it is first shown
  skin(body) {
    if (this.rise(body).every((one) => one === 0)) return body.flat;
    const longest = Math.max(body.part.size[0], body.part.size[1]) / CELLS;
    body.bent ??= [split(body.corners, longest), ...[body.ends, body.under].map((ends) => splitLines(ends, longest))].map(
      (points) => buffer(this.gl, points),
    );
    return body.bent;
  }

  rise(body) {
    const known = this.bows?.[body.number];
    if (!this.bow || !known || known.along.length === 0) return [0, 0];
    return [known.along[this.month] * this.bow, known.across[this.month] * this.bow];
  }

  look(name) {
    [this.yaw, this.pitch] = VIEWS[name];
    this.zoom = 1;
    this.frame();
    this.centre = [...this.middle];
    this.soon();
  }

  // Everything, or one part alone, of which the layers are taken apart then
  get placed() {
    if (this.only === null) return this.piece.placed;
    return [this.piece.placed.find((one) => one.part === this.only)];
  }

  get loose() {
    return this.piece.loose || this.only !== null;
  }

  show(only, apart) {
    if (only === this.only && apart === this.apart) return;
    const was = this.middle;
    const anew = only !== this.only;
    this.only = only;
    this.apart = apart;
    this.frame();
    if (anew) this.centre = [...this.middle];
    if (anew) return;
    this.centre = mixed(this.centre, minus(this.middle, was), 1);
  }

  // What the window has to hold: measured when the view is chosen, so that turning does not change the scale
  frame() {
    const [low, high] = this.box();
    this.middle = low.map((one, n) => (one + high[n]) / 2);
    const [right, up] = this.axes();
    const offs = [...this.corners()].map((corner) => minus(corner, this.middle));
    this.extent = [right, up].map((way) => Math.max(1, ...offs.map((off) => Math.abs(dot(off, way)))));
  }

  axes() {
    const [yaw, pitch] = [degrees(this.yaw), degrees(this.pitch)];
    const right = [Math.cos(yaw), Math.sin(yaw), 0];
    const into = [-Math.sin(yaw) * Math.cos(pitch), Math.cos(yaw) * Math.cos(pitch), -Math.sin(pitch)];
    return [right, cross(right, into), into];
  }

  // All corners of what is shown, where they stand now
  *corners(of = this.placed) {
    for (const one of of) {
      const part = this.piece.parts[one.part];
      const lifts = this.loose ? part.bodies.map((body) => body.leaves) : [[0, 0, 0]];
      for (const lift of lifts) {
        for (let n = 0; n < 8; n += 1) {
          const p = part.size.map((long, k) => (n & (1 << k) ? long : 0) + lift[k] * this.apart);
          const local = mixed(mixed(mixed(one.at, one.x, p[0]), one.y, p[1]), one.z, p[2]);
          yield this.loose ? local : mixed(local, one.apart, this.apart);
        }
      }
    }
  }

  box() {
    const all = [...this.corners()];
    return [Math.min, Math.max].map((best) => [0, 1, 2].map((n) => all.reduce((so, one) => best(so, one[n]), all[0][n])));
  }

  // Half width and height of the window in mm: the whole piece with air round it at zoom 1
  window() {
    const { width, height } = this.canvas;
    const [x, y] = this.extent;
    const half = (1.12 * Math.max(y, (x * height) / width)) / this.zoom;
    return [(half * width) / height, half];
  }

  turn(yaw, pitch) {
    this.yaw = (((this.yaw + yaw) % 360) + 360) % 360;
    this.pitch = Math.min(90, Math.max(-90, this.pitch + pitch));
    this.soon();
  }

  // By shares of the window
  move(x, y) {
    const [right, up] = this.axes();
    const [wide, high] = this.window();
    this.centre = mixed(mixed(this.centre, right, -2 * wide * x), up, 2 * high * y);
    this.soon();
  }

  nearer(by) {
    this.zoom = Math.min(60, Math.max(0.3, this.zoom * by));
    this.soon();
  }

  soon() {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      this.draw();
    });
  }

  plane() {
    if (this.axis === null) return [0, 0, 0, 1];
    const [low, high] = this.box();
    const at = low[this.axis] + (high[this.axis] - low[this.axis]) * this.cut;
    const keeps = this.axis === 1 ? -1 : 1; // what stands before the plane goes: to the right, in front, above
    const normal = [0, 0, 0];
    normal[this.axis] = keeps;
    return [...normal, keeps * at];
  }

  draw() {
    const { canvas, gl, at } = this;
    const scale = window.devicePixelRatio || 1;
    const size = [canvas.clientWidth, canvas.clientHeight].map((one) => Math.max(1, Math.round(one * scale)));
    if (canvas.width !== size[0] || canvas.height !== size[1]) [canvas.width, canvas.height] = size;
    gl.viewport(0, 0, ...size);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT | gl.STENCIL_BUFFER_BIT);
    gl.useProgram(this.program);
    gl.enable(gl.DEPTH_TEST);
    gl.depthFunc(gl.LEQUAL);
    gl.enable(gl.CULL_FACE);
    const [right, up, into] = this.axes();
    this.depth = FAR * this.radius + Math.hypot(...minus(this.centre, this.middle));
    this.half = this.window();
    for (const [name, value] of Object.entries({ right, up, into, centre: this.centre })) gl.uniform3fv(at[name], value);
    gl.uniform4fv(at.plane, this.plane());
    gl.uniform1f(at.pixel, scale);
    const nudge = (0.7 * 2 * this.half[1]) / size[1] / this.depth; // lines lie so much nearer than faces: 0.7 pixels
    const told = this.bodies.map((body) => [body, this.skin(body)]);
    for (const [body, [faces]] of told) this.paint(body, faces, gl.TRIANGLES, [...body.tone, 1], 0);
    if (this.axis !== null) this.caps(told);
    const opened = this.loose && this.apart > 0;
    for (const [body, [, edges, under]] of told) {
      this.paint(body, edges, gl.LINES, INK, nudge);
      if (opened) this.paint(body, under, gl.LINES, INK, nudge);
    }
    this.frames += 1;
    canvas.dataset.frames = String(this.frames);
    this.numbers();
  }

  paint(body, { array, count }, how, tone, nudge) {
    const { gl, at } = this;
    gl.bindVertexArray(array);
    gl.uniform4fv(at.tone, tone);
    gl.uniform4f(at.window, ...this.half, this.depth, nudge);
    gl.uniform3fv(at.size, body.part.size);
    gl.uniform2fv(at.rise, this.rise(body));
    for (const one of this.placed) {
      if (one.part !== body.number) continue;
      const lift = body.body.leaves.map((way) => way * this.apart);
      const leaves = mixed(mixed(mixed([0, 0, 0], one.x, lift[0]), one.y, lift[1]), one.z, lift[2]);
      gl.uniform3fv(at.at, one.at);
      gl.uniform3fv(at.ax, one.x);
      gl.uniform3fv(at.ay, one.y);
      gl.uniform3fv(at.az, one.z);
      gl.uniform3fv(at.away, this.loose ? leaves : one.apart.map((way) => way * this.apart));
      gl.drawArrays(how, 0, count);
    }
  }

  // The cut faces of each colour: where more skins are left behind the plane than are entered, it runs through wood
  caps(told) {
    const { gl } = this;
    const tones = new Map();
    for (const one of told) tones.set(String(one[0].tone), [...(tones.get(String(one[0].tone)) ?? []), one]);
    gl.enable(gl.STENCIL_TEST);
    for (const bodies of tones.values()) {
      gl.clear(gl.STENCIL_BUFFER_BIT);
      gl.disable(gl.CULL_FACE);
      gl.disable(gl.DEPTH_TEST);
      gl.colorMask(false, false, false, false);
      gl.stencilFunc(gl.ALWAYS, 0, 255);
      gl.stencilOpSeparate(gl.FRONT, gl.KEEP, gl.KEEP, gl.DECR_WRAP);
      gl.stencilOpSeparate(gl.BACK, gl.KEEP, gl.KEEP, gl.INCR_WRAP);
      for (const [body, [faces]] of bodies) this.paint(body, faces, gl.TRIANGLES, [...body.tone, 0], 0);
      gl.colorMask(true, true, true, true);
      gl.enable(gl.DEPTH_TEST);
      gl.stencilFunc(gl.NOTEQUAL, 0, 255);
      gl.stencilOp(gl.KEEP, gl.KEEP, gl.KEEP);
      this.cap(bodies[0][0].tone);
    }
    gl.disable(gl.STENCIL_TEST);
    gl.enable(gl.CULL_FACE);
  }

  cap(tone) {
    const { gl, at } = this;
    const [low, high] = this.box();
    const plane = this.plane();
    const [one, other] = [0, 1, 2].filter((n) => n !== this.axis);
    const air = this.radius * 3; // bows reach beyond the box
    const start = low.map((value) => value - air);
    start[this.axis] = plane[3] * plane[this.axis];
    const [x, y] = [[0, 0, 0], [0, 0, 0]];
    x[one] = high[one] - low[one] + 2 * air;
    y[other] = high[other] - low[other] + 2 * air;
    gl.uniform4f(at.plane, 0, 0, 0, 1);
    gl.uniform4f(at.window, ...this.half, this.depth, 0);
    gl.uniform2f(at.rise, 0, 0);
    gl.uniform3f(at.size, 1, 1, 1);
    gl.uniform3f(at.away, 0, 0, 0);
    gl.uniform3f(at.az, 0, 0, 0);
    gl.uniform3fv(at.at, start);
    gl.uniform3fv(at.ax, x);
    gl.uniform3fv(at.ay, y);
    gl.uniform4fv(at.tone, [...tone, 2]);
    gl.bindVertexArray(this.quad.array);
    gl.drawArrays(gl.TRIANGLES, 0, this.quad.count);
    gl.uniform4fv(at.plane, plane);
  }

  // The number of each part over its middle
  numbers() {
    const list = document.getElementById("solid-numbers");
    if (list.hidden) return;
    const [right, up] = this.axes();
    const { clientWidth: wide, clientHeight: high } = this.canvas;
    while (list.children.length < this.placed.length) list.append(document.createElement("li"));
    while (list.children.length > this.placed.length) list.lastChild.remove();
    this.placed.forEach((one, n) => {
      const all = [...this.corners([one])];
      const middle = all.reduce((so, corner) => mixed(so, corner, 1 / all.length), [0, 0, 0]);
      const off = minus(middle, this.centre);
      const plane = this.plane();
      const x = (0.5 + dot(off, right) / this.half[0] / 2) * wide;
      const y = (0.5 - dot(off, up) / this.half[1] / 2) * high;
      const item = list.children[n];
      item.hidden = dot(plane, middle) > plane[3]; // cut away
      item.textContent = this.piece.parts[one.part].number;
      item.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px) translate(-50%, -50%)`;
    });
  }
}
