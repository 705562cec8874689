// The job card on a phone: marks, gates, waits, one step at a time or all; every tick is kept here before it is sent.
import { keep, kept, open, send } from "./outbox.js";
import { deliberate } from "./press.js";
import { closedGate, merged, stateOf, whereabouts } from "./state.js";
import { Wait } from "./timer.js";

const RETRY_MS = 5000;
const AWAY_MS = 600000;

class JobCard extends HTMLElement {
  async connectedCallback() {
    this.card = this.dataset.card;
    this.known = JSON.parse(this.dataset.ticks);
    this.steps = [...this.querySelectorAll("[data-step-row]")].map((row) => ({
      id: row.dataset.stepRow, number: Number(row.dataset.number), moves: (row.dataset.moves || row.dataset.action).split(" "), row,
    }));
    this.gates = [...this.querySelectorAll("[data-gate]")].map((row) => ({ id: row.dataset.gate, before: row.dataset.before, row }));
    this.branches = [...this.querySelectorAll("#wrong [data-branch]")].map((branch) => branch.dataset.branch);
    this.at = 0;
    this.unfolded = new Set();
    try {
      this.db = await open();
    } catch {
      this.part("unkept").hidden = false;
      return;
    }
    this.waits = [...this.querySelectorAll("[data-wait]")].map((box) => new Wait(this.db, this.card, box));
    for (const wait of this.waits) await wait.load();
    for (const step of this.steps) this.listenToStep(step);
    for (const gate of this.gates) this.listenToGate(gate);
    this.addEventListener("submit", (event) => this.submitted(event));
    this.addEventListener("click", (event) => this.clicked(event));
    addEventListener("online", () => this.sendAll());
    document.addEventListener("visibilitychange", () => this.seen());
    setInterval(() => this.sendAll(), Number(this.dataset.retry) || RETRY_MS);
    setInterval(() => this.waits.forEach((wait) => wait.paint()), 1000);
    await this.paint();
    this.setView(localStorage.getItem("twomarks-view") === "one" ? "one" : "all", false);
    if ([...this.state.steps.values()].some((entry) => entry.state !== "todo") && !location.hash) this.comeBack();
    this.dataset.ready = "yes";
    this.sendAll();
    this.keepPage();
  }

  part(name) {
    return this.querySelector(`[data-part="${name}"]`);
  }

  say(words) {
    this.part("said").textContent = words;
  }

  listenToStep(step) {
    const mark = step.row.querySelector(".mark");
    const toggle = () => this.toggle(step);
    if (step.row.dataset.deliberate === "yes") {
      deliberate(mark, toggle, (which) => this.say(this.dataset[which]));
    } else {
      mark.addEventListener("click", toggle);
    }
  }

  async toggle(step) {
    const gate = closedGate(this.state, this.gates, this.steps, step.id);
    const its = this.state.steps.get(step.id).state;
    if (gate && its === "todo") {
      this.say(this.dataset.gateFirst);
      this.goTo(gate.row);
      return;
    }
    this.unfolded.delete(step.id);
    const top = step.row.getBoundingClientRect().top;
    await this.tick(step.id, its === "done" ? "undone" : "done", "");
    // Steps above fold as they are done: what is under the finger stays where it is.
    if (this.dataset.view === "all") scrollBy({ top: step.row.getBoundingClientRect().top - top, behavior: "instant" });
    if (its !== "done" && this.dataset.view === "one") this.move(1);
  }

  listenToGate(gate) {
    gate.row.querySelectorAll("[data-answer]").forEach((button) =>
      button.addEventListener("click", () => this.tick(gate.id, "answer", `${button.dataset.question}: ${button.dataset.answer}`)),
    );
    const go = gate.row.querySelector("[data-go]");
    deliberate(
      go,
      async () => {
        if (!this.answered(gate)) return this.say(this.dataset.answerFirst);
        await this.tick(gate.id, "done", "");
        if (this.dataset.view === "one") this.move(1);
        return undefined;
      },
      (which) => this.say(this.dataset[which]),
    );
  }

  answered(gate) {
    const answers = this.state.gates.get(gate.id).answers;
    const questions = gate.row.querySelectorAll("[data-asked]").length;
    return [...answers.values()].filter((text) => text === "so").length === questions;
  }

  async submitted(event) {
    const form = event.target.closest("form[data-tick]");
    if (!form) return;
    event.preventDefault();
    const field = form.querySelector("input, textarea");
    const text = field.value.trim();
    const fault = form.querySelector(".fault");
    if (fault) fault.hidden = text !== "";
    if (!text) {
      field.setAttribute("aria-invalid", "true");
      field.focus();
      return;
    }
    field.removeAttribute("aria-invalid");
    const row = form.closest("[data-step-row]");
    const what = event.submitter?.value || form.dataset.tick;
    if (!row) return this.setAside(text);
    await this.tick(row.dataset.stepRow, what, form.dataset.name ? `${form.dataset.name}: ${text}` : text);
    if (what !== "figure") {
      field.value = "";
      this.otherwise(row, false);
    }
    return undefined;
  }

  // The job ended: the card as a whole is set aside, with words. No mark is lost, and it can be taken up again.
  async setAside(words) {
    await this.tick("", "set aside", words);
    const notice = this.part("aside");
    notice.setAttribute("tabindex", "-1");
    notice.focus({ preventScroll: true });
    notice.scrollIntoView({ block: "start" });
  }

  paintAside() {
    const notice = this.part("aside");
    notice.hidden = this.state.aside === "";
    notice.querySelector("[data-value]").textContent = this.state.aside;
  }

  // What belongs to the step stands first, everything else below it, with a way back to the step.
  goesWrong(row, keys) {
    const list = (name) => this.querySelector(`[data-wrong-part="${name}"] [data-wrong-list]`);
    const all = [...this.querySelectorAll("#wrong [data-branch]")].sort((a, b) => this.branches.indexOf(a.dataset.branch) - this.branches.indexOf(b.dataset.branch));
    for (const branch of all) {
      branch.open = false;
      list(keys.includes(branch.dataset.branch) ? "here" : "others").append(branch);
    }
    const here = this.querySelector("[data-wrong-part=here]");
    here.hidden = keys.length === 0;
    this.querySelector("[data-wrong-others]").hidden = keys.length === 0;
    here.querySelector("[data-value]").textContent = row.dataset.number;
    for (const back of this.querySelectorAll("[data-wrong-back]")) {
      back.querySelector("[data-value]").textContent = row.dataset.number;
      back.setAttribute("href", `#${row.id}`);
      back.hidden = false;
    }
  }

  clicked(event) {
    const wrong = event.target.closest("a[data-wrong]");
    if (wrong) this.goesWrong(wrong.closest("[data-step-row]"), wrong.dataset.wrong.split(" ").filter(Boolean));
    const back = event.target.closest("a[data-wrong-back]");
    if (back) {
      event.preventDefault();
      this.goTo(this.querySelector(back.getAttribute("href")));
    }
    const button = event.target.closest("button");
    if (!button) return;
    if (button.dataset.view) this.setView(button.dataset.view, true);
    if (button.dataset.move) this.move(Number(button.dataset.move));
    if (button.dataset.speak !== undefined) this.speak(button.closest("[data-step-row], [data-gate], [data-branch]"));
    if (button.dataset.takeUp !== undefined) this.tick("", "undone", "");
    if (button.dataset.unfold !== undefined) this.unfold(button.closest("[data-step-row]"));
    if (button.dataset.otherwise !== undefined) {
      const row = button.closest("[data-step-row]");
      this.otherwise(row, button.getAttribute("aria-expanded") !== "true");
    }
    if (button.dataset.reason) {
      const field = button.closest("form").querySelector("textarea");
      field.value = button.dataset.reason;
      field.focus();
    }
    if (button.dataset.close === "where") this.goOn();
  }

  unfold(row) {
    const id = row.dataset.stepRow;
    if (!this.unfolded.delete(id)) this.unfolded.add(id);
    this.paintFolds();
  }

  // A done step is one line; the last one marked stays whole, and so does one with words of its own or a wait that still runs.
  paintFolds() {
    const places = this.steps.map((step) => this.state.steps.get(step.id)).filter((entry) => entry.state !== "todo");
    const latest = Math.max(...places.map((entry) => entry.place));
    for (const step of this.steps) {
      const entry = this.state.steps.get(step.id);
      const may = entry.state === "done" && entry.place !== latest && !this.state.notes.has(step.id) && !step.row.querySelector("[data-running=yes]");
      const folded = may && !this.unfolded.has(step.id);
      const button = step.row.querySelector("[data-unfold]");
      step.row.toggleAttribute("data-may-fold", may);
      step.row.toggleAttribute("data-folded", folded);
      button.setAttribute("aria-expanded", String(!folded));
      button.firstChild.data = folded ? this.dataset.show : this.dataset.fold;
    }
  }

  otherwise(row, wanted) {
    const button = row.querySelector("[data-otherwise]");
    button.setAttribute("aria-expanded", String(wanted));
    row.querySelector(".otherwise").hidden = !wanted;
    if (wanted) row.querySelector(".otherwise textarea").focus();
    else button.focus();
  }

  async tick(target, what, words) {
    await keep(this.db, { card: this.card, target, what, words });
    await this.paint();
    this.sendAll();
  }

  async paint() {
    this.own = await kept(this.db);
    this.state = stateOf(merged(this.known, this.own, this.card), this.steps, this.gates);
    for (const step of this.steps) this.paintStep(step);
    for (const gate of this.gates) this.paintGate(gate);
    this.paintFolds();
    this.paintAside();
    this.paintCount();
    this.paintSending();
  }

  paintStep(step) {
    const entry = this.state.steps.get(step.id);
    const mark = step.row.querySelector(".mark");
    const locked = entry.state === "todo" && closedGate(this.state, this.gates, this.steps, step.id) !== null;
    step.row.dataset.state = entry.state;
    mark.setAttribute("aria-pressed", String(entry.state === "done"));
    mark.setAttribute("aria-disabled", String(locked));
    const words = step.row.querySelector("[data-state-words]");
    const said = {
      todo: locked && step.row.previousElementSibling?.dataset.gate ? this.dataset.locked : "",
      done: "",
      left: `${this.dataset.left}: ${entry.words}`,
      void: this.dataset.void.replace("#", entry.later),
    };
    const notes = (this.state.notes.get(step.id) ?? []).map((note) => `${this.dataset[note.what === "differs" ? "differs" : "aside"]}: ${note.words}`);
    words.textContent = [said[entry.state], ...notes].filter(Boolean).join(" · ");
    step.row.querySelectorAll("form[data-name]").forEach((form) => {
      const text = this.state.figures.get(`${step.id} ${form.dataset.name}`);
      const field = form.querySelector("input");
      if (text !== undefined && document.activeElement !== field) field.value = text;
      const keepButton = form.querySelector("button");
      keepButton.textContent = text === undefined ? this.dataset.keep : this.dataset.keepAgain;
      const box = form.dataset.box === undefined ? null : step.row.querySelectorAll(".stub .set")[Number(form.dataset.box)];
      if (box && text !== undefined) this.fillBox(box, text);
    });
  }

  fillBox(box, text) {
    const empty = box.querySelector(".emptybox");
    if (empty) empty.textContent = text;
  }

  paintGate(gate) {
    const its = this.state.gates.get(gate.id);
    gate.row.dataset.state = its.open ? "open" : "closed";
    gate.row.querySelectorAll("[data-asked]").forEach((asked) => {
      const given = its.answers.get(Number(asked.dataset.asked));
      asked.querySelectorAll("[data-answer]").forEach((button) => button.setAttribute("aria-pressed", String(button.dataset.answer === given)));
      asked.querySelector("[data-stop-words]").hidden = given !== "not so";
    });
    const go = gate.row.querySelector("[data-go]");
    go.hidden = its.open;
    go.setAttribute("aria-disabled", String(!this.answered(gate)));
    const words = gate.row.querySelector("[data-gate-words]");
    words.textContent = its.open ? this.dataset.gateOpen : its.broken ? this.dataset.gateBroken.replace("#", its.broken) : "";
  }

  paintCount() {
    const left = this.steps.filter((step) => this.state.steps.get(step.id).state === "todo").length;
    this.part("count").textContent = left === 0 ? this.dataset.noneLeft : this.dataset.someLeft.replace("#", left);
    const end = this.gates.find((gate) => gate.before === "");
    this.part("finish").hidden = !(left === 0 && (!end || this.state.gates.get(end.id).open));
  }

  paintSending() {
    const mine = this.own.filter((tick) => tick.card === this.card);
    const waiting = mine.filter((tick) => !tick.sent && !tick.refused).length;
    const refused = mine.filter((tick) => tick.refused);
    this.dataset.waiting = waiting;
    this.part("sending").textContent = waiting ? this.dataset.notSent.replace("#", waiting) : this.dataset.allSent;
    this.part("refused").textContent = refused.map((tick) => tick.refused).join(" ");
  }

  showWhere() {
    const where = whereabouts(this.state, this.steps);
    const set = (name, value) => {
      const line = this.part(name);
      line.hidden = Array.isArray(value) ? !value.length : !value;
      if (!line.hidden) line.querySelector("[data-value]").textContent = Array.isArray(value) ? value.join(", ") : String(value);
    };
    set("where-last", where.last?.number);
    set("where-open", where.open);
    set("where-left", where.leftOut);
    set("where-void", where.void);
    set("where-next", where.next?.number);
    const told = this.steps.filter((step) => where.last && step.number <= where.last.number && step.row.querySelector("[data-after]")).at(-1);
    this.part("where-after").replaceChildren(...(told ? told.row.querySelector("[data-after]").cloneNode(true).children : []));
  }

  firstOpen() {
    return this.places().find((place) => (place.dataset.gate ? place.dataset.state !== "open" : place.dataset.state === "todo"));
  }

  // The page opens where the work goes on, with what stands open right above it.
  comeBack() {
    this.showWhere();
    const next = this.firstOpen();
    const place = this.part("place");
    if (next) next.before(place);
    place.hidden = false;
    place.scrollIntoView({ block: "start", behavior: "instant" });
  }

  goOn() {
    this.part("place").hidden = true;
    const row = this.firstOpen();
    if (row) this.goTo(row);
  }

  seen() {
    if (document.hidden) {
      this.hiddenAt = Date.now();
    } else {
      if (this.hiddenAt && Date.now() - this.hiddenAt > AWAY_MS) {
        this.comeBack();
      }
      this.sendAll();
    }
  }

  places() {
    return [...this.querySelectorAll("[data-step-row], [data-gate]")];
  }

  setView(view, focus) {
    this.dataset.view = view;
    localStorage.setItem("twomarks-view", view);
    this.querySelectorAll("button[data-view]").forEach((button) => button.setAttribute("aria-pressed", String(button.dataset.view === view)));
    this.part("moves").hidden = view !== "one";
    if (view === "one") {
      const places = this.places();
      const open = places.findIndex((row) => (row.dataset.gate ? row.dataset.state !== "open" : row.dataset.state === "todo"));
      this.at = open < 0 ? places.length - 1 : open;
    }
    this.showPlace(focus);
  }

  move(by) {
    const places = this.places();
    if (by > 0 && places[this.at].dataset.state === "closed") {
      this.say(this.dataset.gateFirst);
      return;
    }
    this.at = Math.min(Math.max(this.at + by, 0), places.length - 1);
    this.showPlace(true);
  }

  showPlace(focus) {
    const places = this.places();
    places.forEach((row, index) => row.toggleAttribute("data-here", index === this.at));
    if (this.dataset.view === "one" && focus) this.goTo(places[this.at]);
  }

  goTo(row) {
    if (this.dataset.view === "one") {
      this.at = this.places().indexOf(row);
      this.showPlace(false);
    }
    row.setAttribute("tabindex", "-1");
    row.focus({ preventScroll: true });
    row.scrollIntoView({ block: "start" });
  }

  speak(row) {
    if (!("speechSynthesis" in window)) return;
    speechSynthesis.cancel();
    const words = [...row.querySelectorAll("[data-spoken]")].map((part) => part.textContent.trim()).join(". ");
    speechSynthesis.speak(new SpeechSynthesisUtterance(words));
  }

  async sendAll() {
    try {
      await send(this.db, this.dataset.url, this.card);
    } catch {
      this.dataset.unsent = "yes";
    }
    await this.paint();
  }

  async keepPage() {
    if (!("serviceWorker" in navigator)) return;
    navigator.serviceWorker.addEventListener("message", (event) => {
      if (event.data?.kept) {
        this.part("kept").hidden = false;
        this.dataset.kept = "yes";
      }
    });
    try {
      await navigator.serviceWorker.register(this.dataset.worker);
      const ready = await navigator.serviceWorker.ready;
      const files = performance.getEntriesByType("resource").map((entry) => entry.name).filter((name) => new URL(name).pathname.startsWith("/static/"));
      ready.active.postMessage({ keep: [location.pathname, ...new Set(files)] });
      await navigator.storage?.persist?.();
    } catch {
      this.dataset.unkept = "yes";
    }
  }
}

customElements.define("job-card", JobCard);
