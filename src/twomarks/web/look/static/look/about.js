// The way about by keyboard: Alt with 1 to 6 opens the six pages, unless switched off in the settings.
if (document.documentElement.dataset.keys === "on") {
  addEventListener("keydown", (event) => {
    if (!event.altKey || event.ctrlKey || event.metaKey || !/^Digit[1-6]$/.test(event.code)) return;
    const link = document.querySelectorAll(".about a")[Number(event.code.slice(5)) - 1];
    if (!link) return;
    event.preventDefault();
    link.click();
  });
}
