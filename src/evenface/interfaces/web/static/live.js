// Sends what is typed, swaps in what changed. One request in flight, the newest state wins, edits that
// wait are merged, and what could not be sent is sent again when the app is back.

const WAIT_MS = 1; // at once, with what changes in the same breath; while one is on its way the next waits
const AGAIN_MS = 700;
const LATER_MS = 350;
const NOT_NOW = 503;
const TOLD = "told on the page";

function read(html) {
  return new DOMParser().parseFromString(html, "text/html");
}

// its parts are taken out of what was read
function swap(fresh) {
  for (const part of fresh.querySelectorAll("[data-swap]")) {
    const old = document.getElementById(part.id);
    if (old === null) continue;
    if (part.dataset.shape !== undefined && part.dataset.shape === old.dataset.shape) continue;
    if ("look" in part.dataset && part.isEqualNode(old)) continue; // said once, not at every edit
    const back = kept(old);
    old.replaceWith(part);
    back(part);
    const field = document.getElementById(part.dataset.for ?? "");
    if (field === null) continue;
    if ("wrong" in part.dataset) field.setAttribute("aria-invalid", "true");
    else field.removeAttribute("aria-invalid");
    // an entry set elsewhere shows its new value, unless the maker is at it
    const theirs = part.dataset.value;
    if (!changed(field) && field !== document.activeElement && field.value !== theirs) {
      settle(field, theirs);
      field.value = theirs;
    }
  }
}

const AT_HAND = "a[href], button, input, select, textarea, summary, [tabindex]";

// what is the same control in a part made anew: the same address, name or words, wherever it stands now
function sign(one) {
  const to = (one.getAttribute("href") ?? "").replace(/version=[0-9]+/, "").replace(/finding=[0-9]+/, "");
  const within = one.closest("li, tr, section")?.querySelector("h2, h3, th, td")?.textContent ?? "";
  return [one.tagName, one.id, one.name ?? "", to, one.tagName === "INPUT" ? "" : one.textContent, within].join("|");
}

// the focus and what was folded open outlive a part that is put in anew
function kept(old) {
  const held = old.contains(document.activeElement) ? document.activeElement : null;
  const open = new Set([...old.querySelectorAll("details[open] > summary")].map(sign));
  const fields = [...old.querySelectorAll("input, select, textarea")].filter((one) => one.id && one.type !== "hidden");
  const unsent = fields.filter(changed).map((one) => [one.id, one.value]);
  const place = held && [...old.querySelectorAll(AT_HAND)].indexOf(held);
  return (part) => {
    for (const [id, typed] of unsent) {
      const field = document.getElementById(id);
      if (field === null || !part.contains(field)) continue;
      field.value = typed; // what is typed and not kept yet goes along
    }
    for (const one of part.querySelectorAll("details > summary")) if (open.has(sign(one))) one.parentElement.open = true;
    if (held === null) return;
    const there = [...part.querySelectorAll(AT_HAND)].filter((one) => !one.disabled);
    const again = there.find((one) => sign(one) === sign(held)) ?? there[Math.min(place, there.length - 1)];
    if (again === undefined) part.tabIndex = -1;
    (again ?? part).focus({ preventScroll: true });
  };
}

function away(yes) {
  document.getElementById("away").hidden = !yes;
}

function first(field) {
  if (field.tagName === "SELECT") {
    const set = [...field.options].find((one) => one.defaultSelected) ?? field.options[0];
    return set ? set.value : "";
  }
  return field.defaultValue;
}

function settle(field, value) {
  delete field.dataset.unsent;
  if (field.tagName === "SELECT") for (const one of field.options) one.defaultSelected = one.value === value;
  else field.defaultValue = value;
}

function changed(field) {
  return "unsent" in field.dataset || field.value !== first(field);
}

function seen(form, field) {
  return form.elements.namedItem(`was:${field.name}`);
}

function failed(html) {
  return html.startsWith('<div id="failed"');
}

async function page(address, options = {}) {
  const answer = await fetch(address, { ...options, headers: { "X-Live": "1" } });
  const html = await answer.text();
  const ours = (answer.headers.get("content-type") ?? "").startsWith("text/html");
  if (!ours || answer.status === NOT_NOW) {
    if (ours) swap(read(html)); // it says why; what was typed is sent again until it can be kept
    throw new Error(ours ? TOLD : html);
  }
  document.getElementById("failed").replaceChildren();
  if (failed(html)) swap(read(html));
  return [answer, html];
}

class Live {
  constructor(form) {
    this.form = form;
    this.timer = 0;
    this.later = 0;
    this.busy = false;
    this.waiting = false;
    this.over = false;
    this.failed = false;
    form.addEventListener("input", () => this.soon(WAIT_MS));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.over = event.submitter?.name === "over";
      this.soon(0);
    });
    window.addEventListener("beforeunload", (event) => {
      if (this.busy || this.waiting || this.failed) event.preventDefault();
    });
    if (document.querySelector('[data-later=""]') !== null) this.laterSoon(0);
    if (this.fields().some((one) => !("unsent" in one.dataset))) this.soon(0); // typed before we were here
  }

  soon(wait) {
    if (this.waiting && wait > 0) return; // already on its way
    clearTimeout(this.timer);
    this.waiting = true;
    this.timer = setTimeout(() => this.send(), wait);
  }

  // flatness, build-up and edges follow when the typing rests, and are marked as old until then
  laterSoon(wait) {
    clearTimeout(this.later);
    this.later = setTimeout(() => this.fetchLater(), wait);
  }

  async fetchLater() {
    if (this.busy || this.waiting) return; // the answer to the edit asks again
    try {
      const [answer, html] = await page(this.form.action);
      const now = document.getElementById("version").value;
      const fresh = read(html);
      if (this.busy || this.waiting) return;
      if (answer.ok && fresh.getElementById("seen")?.dataset.version === now) swap(fresh);
      away(false);
    } catch {
      away(true);
      this.laterSoon(AGAIN_MS);
    }
  }

  fields() {
    return [...this.form.elements].filter((one) => one.id && one.name && one.type !== "hidden" && changed(one));
  }

  async send() {
    if (this.busy) return; // the newest state is sent when this answer is here
    this.busy = true;
    this.waiting = false;
    const fields = this.fields();
    const sent = new Map(fields.map((one) => [one, one.value]));
    const body = new URLSearchParams(fields.map((one) => [one.name, one.value]));
    for (const one of fields) body.set(`was:${one.name}`, seen(this.form, one)?.value ?? "");
    body.set("shape", document.getElementById("fields")?.dataset.shape ?? "");
    body.set("version", document.getElementById("version").value);
    body.set("about", this.form.elements.namedItem("about").value);
    if (this.over) body.set("over", "yes");
    try {
      const [, html] = await page(this.form.action, { method: "POST", body });
      away(false);
      this.failed = failed(html); // the fields stay as typed and go along with the next change
      this.over = false;
      this.taken(sent, html);
      this.busy = false;
      if (this.waiting) this.soon(0);
      else if (this.next !== undefined) this.next();
      else if (fields.length > 0) {
        document.getElementById("details")?.classList.add("old");
        document.getElementById("year")?.classList.add("old");
        this.laterSoon(LATER_MS);
      }
    } catch (error) {
      away(error.message !== TOLD);
      this.busy = false;
      this.waiting = true;
      clearTimeout(this.timer);
      this.timer = setTimeout(() => this.send(), AGAIN_MS);
    }
  }

  // what was kept is now the value to go back to; what was not stays typed and is tried again with the next
  taken(sent, html) {
    const fresh = read(html);
    for (const [field, value] of sent) {
      const hint = fresh.getElementById(`hint-${field.id}`);
      if (hint === null || "wrong" in hint.dataset) continue;
      settle(field, value);
    }
    const hints = [...fresh.querySelectorAll("[data-for]")];
    swap(fresh);
    for (const hint of hints) {
      const field = document.getElementById(hint.dataset.for);
      const was = field && seen(this.form, field);
      if (was && !("clash" in hint.dataset)) was.value = hint.dataset.value;
    }
  }
}

// what is reckoned beside the page: each place is asked for again until it has nothing more to ask
let polling = false;

async function poll() {
  if (polling) return;
  polling = true;
  const places = new Set([...document.querySelectorAll("[data-poll]")].map((one) => one.dataset.poll));
  for (const address of places) {
    try {
      const [answer, html] = await page(address);
      if (answer.ok) swap(read(html));
      else for (const one of document.querySelectorAll("[data-poll]")) if (one.dataset.poll === address) delete one.dataset.poll;
      away(false);
    } catch {
      away(true);
    }
  }
  polling = false;
  if (document.querySelector("[data-poll]") !== null) setTimeout(poll, AGAIN_MS);
}

async function follow() {
  const place = document.querySelector('[data-later]:not([data-later=""])');
  if (place === null) return;
  try {
    const [answer, html] = await page(place.dataset.later);
    if (answer.ok) swap(read(html));
  } catch {
    away(true);
  }
}

// minutes of a running timer, counted here as the app counts them
function count() {
  const running = document.querySelectorAll("[data-since]");
  for (const one of running) {
    const minutes = Number(one.dataset.minutes) + (Date.now() / 1000 - Number(one.dataset.since)) / 60;
    one.textContent = `${Math.round(minutes)} min`;
  }
  if (running.length > 0) setTimeout(count, 15000);
}

// a list is narrowed while one types; its address says what is shown
class Narrowing {
  constructor(form) {
    this.form = form;
    this.timer = 0;
    form.addEventListener("input", () => {
      clearTimeout(this.timer);
      this.timer = setTimeout(() => this.ask(), 150);
    });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.ask();
    });
  }

  async ask() {
    const address = `${this.form.action}?${new URLSearchParams(new FormData(this.form))}`;
    this.newest = address;
    try {
      const [answer, html] = await page(address);
      if (!answer.ok || this.newest !== address) return;
      swap(read(html));
      history.replaceState(null, "", address);
      away(false);
    } catch {
      away(true);
      this.timer = setTimeout(() => this.ask(), AGAIN_MS);
    }
  }
}

// a place on a drawing that was touched: its entry is ready to be typed in
document.addEventListener("click", (event) => {
  const spot = event.target.closest?.("a.spot");
  const field = spot && document.getElementById(spot.getAttribute("href").slice(1));
  if (!field) return;
  event.preventDefault();
  for (let fold = field.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
  field.scrollIntoView({ block: "center", behavior: "instant" });
  field.focus();
  field.select?.();
});

const lives = [...document.querySelectorAll("form[data-live]")].map((form) => new Live(form));
// a button beside the entries waits until what is typed is kept, for it is asked of the newest state
document.addEventListener("submit", (event) => {
  const live = lives.find((one) => one.form !== event.target && (one.busy || one.waiting));
  if (live === undefined || event.target.method !== "post") return;
  event.preventDefault();
  live.next = () => {
    live.next = undefined;
    event.target.requestSubmit(event.submitter?.isConnected ? event.submitter : undefined);
  };
});
for (const form of document.querySelectorAll("form[data-narrow]")) new Narrowing(form);
// a page left open is printed with the day on which it is printed
window.addEventListener("beforeprint", () => {
  const now = new Date();
  const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((one) => String(one).padStart(2, "0")).join("-");
  for (const one of document.querySelectorAll("time.today")) one.textContent = one.dateTime = day;
  const told = document.querySelector(".sheet-of").textContent.slice(0, 110);
  document.documentElement.style.setProperty("--sheet-of", JSON.stringify(told)); // at the foot of every sheet
});

// whoever comes back from an editor sees at once that the job's file was changed there
async function look() {
  const place = document.querySelector("[data-look]");
  if (place === null || document.hidden) return;
  try {
    const answer = await fetch(place.dataset.look, { headers: { "X-Live": "1" } });
    if (answer.ok) swap(read(await answer.text()));
  } catch {
    // the app is away: told as soon as something is typed
  }
}
window.addEventListener("focus", look);
document.addEventListener("visibilitychange", look);

// a file that is chosen is read here and stands in the field, to be looked at before it is opened
for (const chooser of document.querySelectorAll("input[data-into]")) {
  chooser.closest("[hidden]").hidden = false;
  chooser.addEventListener("change", async () => {
    const into = document.getElementById(chooser.dataset.into);
    into.value = (await chooser.files[0]?.text()) ?? into.value;
    into.dispatchEvent(new Event("input", { bubbles: true }));
  });
}

count();
poll();
follow();
