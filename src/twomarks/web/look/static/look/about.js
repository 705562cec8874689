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

// Where the margin stands beside the sheet there is room for every reason: the disclosures of the margin begin open.
const wide = matchMedia("(min-width: 1200px)");
const unfold = () => document.querySelectorAll("details[data-margin]").forEach((part) => (part.open = wide.matches));
wide.addEventListener("change", unfold);
unfold();
