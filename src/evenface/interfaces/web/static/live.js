// Sends what is typed, swaps in what changed. One request in flight, the newest state wins,
// and what could not be sent is sent again when the app is back.

const WAIT_MS = 120;
const AGAIN_MS = 1000;
const DETAILS_MS = 400;

function swap(html) {
  const fresh = new DOMParser().parseFromString(html, "text/html");
  for (const part of fresh.querySelectorAll("[data-swap]")) {
    const old = document.getElementById(part.id);
    if (old === null) continue;
    old.replaceWith(part);
    const field = document.getElementById(part.dataset.for ?? "");
    if (field !== null) {
      if ("wrong" in part.dataset) field.setAttribute("aria-invalid", "true");
      else field.removeAttribute("aria-invalid");
    }
  }
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
  if (field.tagName === "SELECT") for (const one of field.options) one.defaultSelected = one.value === value;
  else field.defaultValue = value;
}

function changed(form) {
  return [...form.elements].filter((one) => one.name && one.type !== "hidden" && one.value !== first(one));
}

class Live {
  constructor(form) {
    this.form = form;
    this.timer = 0;
    this.details = 0;
    this.busy = false;
    this.waiting = false;
    form.addEventListener("input", () => this.soon(WAIT_MS));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.soon(0);
    });
    window.addEventListener("beforeunload", (event) => {
      if (this.busy || this.waiting) event.preventDefault();
    });
  }

  soon(wait) {
    clearTimeout(this.timer);
    this.waiting = true;
    this.timer = setTimeout(() => this.send(), wait);
  }

  // build-up and edges follow when the typing rests, and are marked as old until then
  detailsLater() {
    clearTimeout(this.details);
    document.getElementById("details")?.classList.add("old");
    this.details = setTimeout(async () => {
      try {
        const answer = await fetch(this.form.action, { headers: { "X-Live": "1" } });
        if (answer.ok && !this.busy && !this.waiting) swap(await answer.text());
        else this.detailsLater();
      } catch {
        this.detailsLater();
      }
    }, DETAILS_MS);
  }

  async send() {
    if (this.busy) return; // the newest state is sent when this answer is here
    this.busy = true;
    this.waiting = false;
    const fields = changed(this.form);
    const sent = new Map(fields.map((one) => [one, one.value]));
    const body = new URLSearchParams(fields.map((one) => [one.name, one.value]));
    body.set("version", document.getElementById("version").value);
    try {
      const answer = await fetch(this.form.action, { method: "POST", body, headers: { "X-Live": "1" } });
      const html = await answer.text();
      const page = (answer.headers.get("content-type") ?? "").startsWith("text/html");
      if (!page || answer.status >= 500) throw new Error(html);
      away(false);
      swap(html);
      if (answer.ok) for (const [field, value] of sent) settle(field, value);
      this.busy = false;
      if (this.waiting) this.soon(0);
      else if (answer.ok && fields.length > 0) this.detailsLater();
    } catch {
      away(true);
      this.busy = false;
      this.soon(AGAIN_MS);
    }
  }
}

async function poll() {
  const place = document.querySelector("[data-poll]");
  if (place === null) return;
  try {
    const answer = await fetch(place.dataset.poll, { headers: { "X-Live": "1" } });
    if (answer.ok) swap(await answer.text());
    away(false);
  } catch {
    away(true);
  }
  setTimeout(poll, AGAIN_MS);
}

for (const form of document.querySelectorAll("form[data-live]")) new Live(form);
poll();
