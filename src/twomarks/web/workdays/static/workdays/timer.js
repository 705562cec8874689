// A wait: its start is kept on the device, so that a reload loses nothing; a level sinks between two marks beside the figures.
import { setTimer, timer } from "./outbox.js";

const TOP = 8;
const BOTTOM = 56;

export class Wait {
  constructor(db, card, box) {
    this.db = db;
    this.box = box;
    this.key = `${card} ${box.dataset.step}`;
    this.length = Number(box.dataset.minutes) * 60;
    this.started = 0;
    box.querySelector("[data-start]").addEventListener("click", () => this.begin());
    box.querySelector("[data-stop]").addEventListener("click", () => this.end());
  }

  async load() {
    this.started = (await timer(this.db, this.key))?.started ?? 0;
    this.paint();
  }

  async begin() {
    this.started = Date.now();
    await setTimer(this.db, this.key, { started: this.started });
    this.paint();
    this.box.querySelector("[data-stop]").focus();
  }

  async end() {
    this.started = 0;
    await setTimer(this.db, this.key, null);
    this.paint();
    this.box.querySelector("[data-start]").focus();
  }

  paint() {
    const running = this.started > 0;
    this.box.dataset.running = running ? "yes" : "no";
    this.box.querySelector("[data-start]").hidden = running;
    this.box.querySelector("[data-stop]").hidden = !running;
    const gone = running ? (Date.now() - this.started) / 1000 : 0;
    const left = Math.max(this.length - gone, 0);
    const over = running && left === 0;
    const seconds = over ? gone - this.length : left;
    const text = `${Math.floor(seconds / 60)}:${String(Math.floor(seconds % 60)).padStart(2, "0")}`;
    this.box.querySelector("[data-clock]").textContent = text;
    this.box.querySelector("[data-clock-words]").textContent = this.box.dataset[over ? "overWords" : running ? "leftWords" : "lengthWords"];
    const share = this.length ? left / this.length : 0;
    const level = this.box.querySelector("[data-level]");
    level.setAttribute("y", String(BOTTOM - share * (BOTTOM - TOP)));
    level.setAttribute("height", String(share * (BOTTOM - TOP)));
    const line = this.box.querySelector("[data-line]");
    line.setAttribute("y1", String(BOTTOM - share * (BOTTOM - TOP)));
    line.setAttribute("y2", String(BOTTOM - share * (BOTTOM - TOP)));
    return over;
  }
}
