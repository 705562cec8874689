// What the ticks say: the state of every step and gate, from all ticks in their order. Nothing is stored but ticks.
const DECIDING = new Set(["done", "undone", "left out"]);

// The server's ticks come first, in its order; those it has not seen follow in the order of this device.
export function merged(fromServer, fromDevice, card) {
  const seen = new Set(fromServer.map((tick) => tick.id));
  return [...fromServer, ...fromDevice.filter((tick) => tick.card === card && !tick.refused && !seen.has(tick.id))];
}

export function stateOf(ticks, steps, gates) {
  const state = { steps: new Map(), gates: new Map(), figures: new Map(), notes: new Map() };
  for (const step of steps) state.steps.set(step.id, { state: "todo", words: "", place: -1, takenBack: -1 });
  for (const gate of gates) state.gates.set(gate.id, { open: false, place: -1, answers: new Map(), broken: "" });
  ticks.forEach((tick, place) => {
    const step = state.steps.get(tick.target);
    const gate = state.gates.get(tick.target);
    if (tick.what === "figure") {
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

// A reading of the level is void once fluid went in or out after it.
function breakReadings(state, steps) {
  const moved = steps.filter((step) => step.action === "pour" || step.action === "drain");
  for (const step of steps) {
    const entry = state.steps.get(step.id);
    if (step.action !== "measure" || entry.state !== "done") continue;
    const later = moved.find((other) => {
      const its = state.steps.get(other.id);
      return its.state === "done" && its.place > entry.place;
    });
    if (later) {
      entry.state = "void";
      entry.later = later.number;
    }
  }
}

export const closedGate = (state, gates, steps, id) => {
  for (const gate of gates) {
    const before = steps.findIndex((step) => step.id === gate.before);
    const at = steps.findIndex((step) => step.id === id);
    if (before >= 0 && at >= before && !state.gates.get(gate.id).open) return gate;
  }
  return null;
};

const UNDOING = new Set(["open", "loosen", "remove", "disconnect"]);
const CLOSING = new Set(["close", "fit", "tighten", "connect"]);

// Where you were: what the done steps leave behind, in step numbers, for someone who comes back after a while.
export function whereabouts(state, steps) {
  const its = (step) => state.steps.get(step.id).state;
  const done = steps.filter((step) => its(step) === "done" || its(step) === "void");
  const open = steps.filter((step) => its(step) === "todo" || its(step) === "left");
  const undoing = done.filter((step) => UNDOING.has(step.action)).map((step) => step.number);
  const anyUndone = undoing.length > 0 || done.some((step) => step.action === "drain");
  const drained = done.some((step) => step.action === "drain");
  const poured = done.some((step) => step.action === "pour");
  const raised = done.some((step) => step.action === "support") && !done.some((step) => step.action === "lower");
  return {
    next: steps.find((step) => its(step) === "todo") ?? null,
    last: done.reduce((late, step) => (!late || state.steps.get(step.id).place > state.steps.get(late.id).place ? step : late), null),
    drained: drained && !poured,
    poured: drained && poured,
    raised,
    undone: undoing,
    toClose: anyUndone ? open.filter((step) => CLOSING.has(step.action)).map((step) => step.number) : [],
    leftOut: open.filter((step) => its(step) === "left").map((step) => step.number),
  };
}
