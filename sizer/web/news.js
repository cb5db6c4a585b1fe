// Asks now and then whether there is news for the page in view (news.py), and tells the server when
// there is: a run then draws it. How far a work is, it writes by itself. Should the page ever go
// white, it is loaded again: what was entered stands in the book.

const WORK_MS = 1000, JOB_MS = 10000, WHITE_MS = 10000, LOOKS_MS = 200;
const AT_REST = "[data-testid=stApp][data-test-script-state=notRunning]";

async function hear(page) {
  const { job, version, works } = page.data;
  const asked = new URLSearchParams(Object.values(works).map(token => ["work", token]));
  if (job) asked.append("job", job);
  if (!asked.size || !document.querySelector(AT_REST)) return;
  const answer = await (await fetch(`/news?${asked}`)).json();
  const ended = Object.values(works).some(token => answer.works[token] === null);
  if (ended || (answer.version !== null && answer.version !== version)) page.tell();
  for (const [name, token] of Object.entries(works)) {
    const place = document.querySelector(`.sz-work-${name}`);
    if (place && answer.works[token]) place.textContent = answer.works[token];
  }
}

async function watch(page) {
  const asked = page.data;
  await new Promise(done => setTimeout(
    done, Object.keys(asked.works).length ? WORK_MS : JOB_MS));
  if (asked === page.data) await hear(page).catch(() => {});  // a server that is gone says so itself
  watch(page);
}

// To a server that is there again, perhaps another that knows nothing of this page yet: before the
// next press, which would be lost on it.
function reconnect(page) {
  const app = document.querySelector("[data-test-connection-state]");
  const connected = app?.dataset.testConnectionState === "CONNECTED";
  if (connected && page.connected === false) page.tell();
  page.connected = connected;
}

function comeBack() {
  const root = document.getElementById("root"), last = Number(sessionStorage.szWhite ?? 0);
  if (root.childElementCount || Date.now() - last < WHITE_MS) return;
  sessionStorage.szWhite = Date.now();
  location.reload();
}

export default function ({ data, setTriggerValue }) {
  const first = !globalThis.sizerNews, page = (globalThis.sizerNews ??= {});
  Object.assign(page, { data, tell: () => setTriggerValue("heard", Date.now()) });
  if (!first) return;
  watch(page);
  setInterval(() => { reconnect(page); comeBack(); }, LOOKS_MS);
}
