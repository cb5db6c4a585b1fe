// The way through the pages by keys, for a hand that never leaves them: a link past the menu, the
// new page's heading in hand after a step, and Enter in a measure as the form's own button.

const HEADING = ".sz-unseen[role=heading]";
const WAIT_MS = 40, MOST_TRIES = 100;  // until the page that was asked for is drawn

function take(title, tries = 0) {
  const heading = document.querySelector(HEADING);
  if (heading && (!title || heading.textContent.trim() === title)) {
    heading.tabIndex = -1;
    heading.focus({ preventScroll: true });
    document.querySelector("[data-testid=stMain]")?.scrollTo(0, 0);
  } else if (tries < MOST_TRIES) setTimeout(() => take(title, tries + 1), WAIT_MS);
}

function wire() {
  document.addEventListener("keydown", event => {
    const field = event.target;
    if (event.key !== "Enter" || event.isComposing || !field.matches?.("input[type=text]")) return;
    const form = field.closest(".st-key-measures");
    const next = form?.querySelector(".st-key-next_measured button");
    if (next) setTimeout(() => { field.blur(); next.click(); });
  }, true);
}

export default function ({ data, parentElement }) {
  const skip = parentElement.querySelector("button");
  skip.onclick = () => take("");
  if (globalThis.sizerPage === undefined) wire();
  else if (globalThis.sizerPage !== data.title) take(data.title);
  globalThis.sizerPage = data.title;
}
