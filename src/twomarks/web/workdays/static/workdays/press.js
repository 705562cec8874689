// A deliberate press: held for 0.7 s by finger or pointer, or Enter twice by keyboard; the space bar alone does not do it.
const HOLD_MS = 700;
const TWICE_MS = 5000;

export function deliberate(button, confirm, say) {
  let timer = 0;
  let armed = -Infinity;
  const stop = () => {
    clearTimeout(timer);
    timer = 0;
    button.removeAttribute("data-holding");
  };
  button.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || button.getAttribute("aria-disabled") === "true") return;
    button.dataset.holding = "yes";
    timer = setTimeout(() => {
      stop();
      confirm();
    }, HOLD_MS);
  });
  for (const name of ["pointerup", "pointercancel", "pointerleave"]) {
    button.addEventListener(name, () => {
      if (timer) say("hold");
      stop();
    });
  }
  button.addEventListener("contextmenu", (event) => event.preventDefault());
  button.addEventListener("keydown", (event) => {
    if (event.key === " ") {
      event.preventDefault();
      say("hold");
    }
    if (event.key !== "Enter") return;
    event.preventDefault();
    if (event.repeat) return;
    if (performance.now() - armed < TWICE_MS) {
      armed = -Infinity;
      confirm();
    } else {
      armed = performance.now();
      say("again");
    }
  });
  // A click that no finger and no key made comes from a reading aid: it, too, is asked twice.
  button.addEventListener("click", (event) => {
    if (event.detail !== 0 || event.pointerType) return;
    if (performance.now() - armed < TWICE_MS) {
      armed = -Infinity;
      confirm();
    } else {
      armed = performance.now();
      say("again");
    }
  });
}
