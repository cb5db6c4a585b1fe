// The way through the pages by keys, for a hand that never leaves them: a link past the menu, the
// new page's heading in hand after a step or what a press has made or asks for, and Enter in a
// measure as the form's own button, but where a form that was whole already is only corrected. Words
// of several lines are told at each pause of the hand, as figures are: else only one that leaves
// them tells them. What is typed and left open when its page is loaded anew is typed into the new one
// again: what a page tells as it is left may never be read.

const HEADING = ".sz-unseen[role=heading]";
// What a press asks for is there only once the page is drawn to its end: till then a new container
// may hold an old field.
const DRAWN = "[data-testid=stApp][data-test-script-state=notRunning]";
const WAIT_MS = 40;
const PAUSE_MS = 500;
const FIELDS = "input[type=text], textarea", LOOKS = 25;
const TELL = { key: "Enter", ctrlKey: true, bubbles: true, cancelable: true };  // the field's own

// Takes what is wanted in hand once it is drawn, unless the hand has gone elsewhere meanwhile.
function take(wanted, title, from = document.activeElement) {
  const found = (wanted === HEADING || document.querySelector(DRAWN))
    && document.querySelector(wanted);
  if (found && (!title || found.textContent.trim() === title)) {
    if (wanted === HEADING) {
      found.tabIndex = -1;
      document.querySelector("[data-testid=stMain]")?.scrollTo(0, 0);
    }
    found.focus({ preventScroll: wanted === HEADING });
  } else setTimeout(() => {
    if ([from, document.body].includes(document.activeElement)) take(wanted, title, from);
  }, WAIT_MS);
}

// The button as it stands now: what was typed just before may have drawn the form anew meanwhile.
function pressNext() {
  document.querySelector(".st-key-measures .st-key-next_measured button")?.click();
}

// Whether a form says what it needs, and all of that was there when its field was taken in hand.
let corrected = false;

function isWhole() {
  const needed = [...document.querySelectorAll(".st-key-needed input[type=text]:not([disabled])")];
  return needed.length > 0 && needed.every(one => one.value.trim());
}

let pause;

function tellWords(field) {
  clearTimeout(pause);
  pause = setTimeout(() => field.dispatchEvent(new KeyboardEvent("keydown", TELL)), PAUSE_MS);
}

// The field in hand that something was typed into.
let typed;

function leave() {
  if (typed?.isConnected) sessionStorage.szOpen = JSON.stringify(
    { at: address(), label: typed.ariaLabel, text: typed.value });
  document.activeElement?.blur?.();  // tells it
}

function address() {
  return location.pathname + location.search;
}

function typeAgain(open, looks = 0) {
  if (open.at !== address() || looks === LOOKS) return;
  const drawn = document.querySelector(DRAWN);
  const field = drawn && [...document.querySelectorAll(FIELDS)].find(
    one => one.ariaLabel === open.label);
  if (!field) setTimeout(() => typeAgain(open, looks + (drawn ? 1 : 0)), WAIT_MS);
  else if (field.value !== open.text) {
    field.focus();
    field.setRangeText(open.text, 0, field.value.length, "end");
    field.dispatchEvent(new InputEvent("input", { bubbles: true }));
    field.blur();
  }
}

// The framework's own link, met first by keys, leads to before the menu: it is to do what ours does.
function passMenu(event) {
  if (!event.target.closest?.("[data-testid=stSkipToContent]")) return;
  event.preventDefault();
  event.stopPropagation();
  take(HEADING, globalThis.sizerReach.title);
}

function wire() {
  document.addEventListener("click", passMenu, true);
  window.addEventListener("beforeunload", leave);
  const open = sessionStorage.szOpen;
  sessionStorage.removeItem("szOpen");
  if (open) typeAgain(JSON.parse(open));
  document.addEventListener("input", event => {
    if (event.target.matches?.(FIELDS)) typed = event.target;
    if (event.target.matches?.("textarea") && !event.isComposing) tellWords(event.target);
  }, true);
  document.addEventListener("focusin", event => {
    corrected = isWhole();
    if (event.target !== typed) typed = undefined;
  }, true);
  document.addEventListener("keydown", event => {
    const field = event.target;
    if (event.key !== "Enter" || event.isComposing || !field.matches?.("input[type=text]")) return;
    if (field.closest(".st-key-measures") && !corrected) setTimeout(() => {
      field.blur();
      setTimeout(pressNext);
    });
  }, true);
}

export default function ({ data, parentElement }) {
  const { title, made, number } = data, before = globalThis.sizerReach;
  globalThis.sizerReach = data;
  parentElement.querySelector("button").onclick = () => take(HEADING, title);
  if (before === undefined) wire();
  else if (made && before.number !== number) take(`.st-key-${made} :is(button, input)`);
  else if (before.title !== title) take(HEADING, title);
}
