// What is typed into a form that is sent as a whole stays in this tab until the app takes it: over a reload,
// and while the app is away. Forms that keep each entry at once (data-live) need none of it.

const PAUSE_MS = 200;
const LONGEST = 2_500_000;

function fields(form) {
  const all = [...form.elements].filter((one) => one.name && one.matches("textarea, select, input:not([type=hidden], [type=file])"));
  return all.filter((one) => one.type !== "checkbox" && one.type !== "radio");
}

function usual(field) {
  if (field.tagName !== "SELECT") return field.defaultValue;
  return ([...field.options].find((one) => one.defaultSelected) ?? field.options[0])?.value ?? "";
}

class Typed {
  constructor(form, number) {
    this.form = form;
    this.key = `typed ${location.pathname}${location.search} ${form.getAttribute("action")} ${number}`;
    this.timer = 0;
    this.sure = false;
    this.back();
    form.addEventListener("input", () => {
      clearTimeout(this.timer);
      this.timer = setTimeout(() => this.keep(), PAUSE_MS);
    });
    form.addEventListener("submit", (event) => this.send(event));
    window.addEventListener("pageshow", () => (this.sure = false)); // gone back to, it is asked again
  }

  // the state of the job that was seen goes along: the app can tell whether somebody else changed it since
  get version() {
    return this.form.querySelector('input[type=hidden][name="version"]');
  }

  keep() {
    const typed = fields(this.form).filter((one) => one.value !== usual(one)).map((one) => [one.name, one.value]);
    const text = JSON.stringify({ version: this.version?.value, typed });
    try {
      if (typed.length === 0) sessionStorage.removeItem(this.key);
      else if (text.length < LONGEST) sessionStorage.setItem(this.key, text);
    } catch {
      // a tab that may keep nothing still sends what is in its fields
    }
  }

  back() {
    const text = sessionStorage.getItem(this.key);
    if (text === null) return;
    const { version, typed } = JSON.parse(text);
    const known = new Map(fields(this.form).map((one) => [one.name, one]));
    const news = typed.filter(([name, value]) => known.has(name) && known.get(name).value !== value);
    if (news.length === 0) return sessionStorage.removeItem(this.key);
    for (const [name, value] of news) known.get(name).value = value;
    if (this.version && version !== undefined) this.version.value = version;
    const told = document.getElementById("typed-before").content.firstElementChild.cloneNode(true);
    told.querySelector("button").addEventListener("click", () => {
      sessionStorage.removeItem(this.key);
      location.reload();
    });
    this.form.prepend(told);
  }

  // sent only when the app answers: else the browser would put its own page in the place of this one
  async send(event) {
    if (this.sure) return;
    event.preventDefault();
    const away = document.getElementById("away");
    this.keep();
    try {
      await fetch("/static/icon.svg", { method: "HEAD", cache: "no-store" });
    } catch {
      away.hidden = false;
      return;
    }
    away.hidden = true;
    clearTimeout(this.timer);
    sessionStorage.removeItem(this.key);
    this.sure = true;
    this.form.requestSubmit(event.submitter);
  }
}

const forms = [...document.querySelectorAll('form[method="post"]:not([data-live])')].filter((one) => fields(one).length > 0);
for (const [number, form] of forms.entries()) new Typed(form, number);
