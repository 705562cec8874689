// What the ticks say: the state of every step and gate, from all ticks in their order. Nothing is stored but ticks.
const DECIDING = new Set(["done", "undone", "left out"]);

// The server's ticks come first, in its order; those it has not seen follow in the order of this device.
export function merged(fromServer, fromDevice, card) {
  const seen = new Set(fromServer.map((tick) => tick.id));
  return [...fromServer, ...fromDevice.filter((tick) => tick.card === card && !tick.refused && !seen.has(tick.id))];
}

export function stateOf(ticks, steps, gates) {
  const state = { steps: new Map(), gates: new Map(), figures: new Map(), notes: new Map(), aside: "" };
  for (const step of steps) state.steps.set(step.id, { state: "todo", words: "", place: -1, takenBack: -1 });
  for (const gate of gates) state.gates.set(gate.id, { open: false, place: -1, answers: new Map(), broken: "" });
  ticks.forEach((tick, place) => {
    const step = state.steps.get(tick.target);
    const gate = state.gates.get(tick.target);
    if (tick.target === "" && (tick.what === "set aside" || tick.what === "undone")) {
      state.aside = tick.what === "set aside" ? tick.words : "";
    } else if (tick.what === "figure") {
      const { name, text } = parted(tick.words);
      state.figures.set(`${tick.target} ${name}`, text);
    } else if (tick.what === "differs" || tick.what === "set aside") {
      state.notes.set(tick.target, [...(state.notes.get(tick.target) ?? []), { what: tick.what, words: tick.words }]);
    } else if (gate && tick.what === "answer") {
      const { name, text } = parted(tick.words);
      gate.answers.set(Number(name), text);
      if (text !== "so") gate.open = false;
    } else if (gate && DECIDING.has(tick.what)) {
      gate.open = tick.what === "done";
      gate.place = place;
    } else if (step && DECIDING.has(tick.what)) {
      if (tick.what === "undone") step.takenBack = place;
      step.state = tick.what === "done" ? "done" : tick.what === "left out" ? "left" : "todo";
      step.words = tick.words;
      step.place = place;
    }
  });
  breakGates(state, steps, gates);
  breakReadings(state, steps);
  return state;
}

const parted = (words) => {
  const at = words.indexOf(": ");
  return at < 0 ? { name: "", text: words } : { name: words.slice(0, at), text: words.slice(at + 2) };
};

// A gate was passed on what stood before it: when a step before it is taken back later, it is asked again.
function breakGates(state, steps, gates) {
  for (const gate of gates) {
    const own = state.gates.get(gate.id);
    if (!own.open) continue;
    for (const step of steps) {
      if (step.id === gate.before) break;
      const entry = state.steps.get(step.id);
      if (entry.takenBack > own.place) {
        own.open = false;
        own.broken = step.number;
        own.answers.clear();
      }
    }
  }
}

// A reading of the level is void once fluid went in or out after it, out of the card's order or with no reading left to come.
function breakReadings(state, steps) {
  const shifts = (step) => step.moves.includes("pour") || step.moves.includes("drain");
  const reads = (step) => step.moves.includes("measure");
  const readAgain = (at) => steps.slice(at).some(reads);
  steps.forEach((step, at) => {
    const entry = state.steps.get(step.id);
    if (!reads(step) || entry.state !== "done") return;
    const later = steps.find((other, place) => {
      const its = state.steps.get(other.id);
      return shifts(other) && its.state === "done" && its.place > entry.place && (place < at || !readAgain(place));
    });
    if (later) {
      entry.state = "void";
      entry.later = later.number;
    }
  });
}

export const closedGate = (state, gates, steps, id) => {
  for (const gate of gates) {
    const before = steps.findIndex((step) => step.id === gate.before);
    const at = steps.findIndex((step) => step.id === id);
    if (before >= 0 && at >= before && !state.gates.get(gate.id).open) return gate;
  }
  return null;
};

// Where you were, for someone who comes back after a while: the last done step in the card's order tells what stands open; a step
// before it that was not done makes that untrue, so those are named beside it.
export function whereabouts(state, steps) {
  const its = (step) => state.steps.get(step.id).state;
  const all = (wanted, among) => among.filter((step) => its(step) === wanted).map((step) => step.number);
  const last = steps.findLastIndex((step) => its(step) === "done" || its(step) === "void");
  return {
    last: steps[last] ?? null,
    open: all("todo", steps.slice(0, last + 1)),
    leftOut: all("left", steps),
    void: all("void", steps),
    next: steps.find((step) => its(step) === "todo") ?? null,
  };
}
